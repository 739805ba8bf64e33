import { useEffect, useRef } from 'preact/hooks';
import { fieldsOf, type Question } from '../../cards/index.ts';
import { type Chart, patternOf, toNumber, VERDICTS } from '../../charts/index.ts';
import { Ruler, type TableFigureProps } from '../../figure/index.ts';
import type { Count } from '../../table/index.ts';
import { eachRailOnce, objectOf, startMark, targetOf } from '../words/feedback-figure.ts';
import { fieldLabel, questionWords } from '../words/question.ts';
import { isSecondTap } from './double-tap.ts';
import { type Answering, type Entry, numberIn } from './entry.ts';
import { keepFocus, NumberPad } from './number-pad.tsx';
import { onPainted } from './painted.ts';
import type { Shown } from './phase.ts';

/** What a session provides so that its question can be answered. */
export interface Asked {
  readonly entry: Entry;
  readonly answering: Answering;
  /** Does the screen show the known numbers that a skill is worked out from. */
  readonly given: boolean;
  /** The picture is on the screen. */
  readonly painted: () => void;
}

export interface AskedProps {
  readonly chart: Chart;
  readonly shown: Shown;
  readonly asked: Asked;
}

/** The controls that answer a question: the pad or the choices. */
export function QuestionControls(props: AskedProps) {
  const { entry, answering, painted } = props.asked;
  const { question } = props.shown;
  useEffect(() => onPainted(painted), [question]);
  return (
    <div class="asked">
      <p class="problem" role="alert">
        {entry.problem}
      </p>
      {question.kind === 'window' && <WindowRuler {...props} />}
      {question.kind === 'trust' ? (
        <TrustChoices answering={answering} question={question} />
      ) : (
        <NumberPad
          signed={question.kind === 'window'}
          submitLabel={isFirstOfTwo(entry) ? 'Then firm' : 'Call it'}
          answering={answering}
        />
      )}
    </div>
  );
}

function isFirstOfTwo({ texts, field }: Entry): boolean {
  return field < texts.length - 1 && texts[field + 1] === '';
}

/**
 * The question's picture: the start and the target, and nothing of the answer. The player can point at
 * the rail of the asked number.
 */
export function questionFigure({ chart, shown, asked }: AskedProps): TableFigureProps {
  const { question, mirror } = shown;
  const pattern = patternOf(question.pattern);
  const object = objectOf(chart, question);
  return {
    frame: { table: chart.setting.table, mirror },
    label: questionWords(question, mirror, chart.naming),
    counts: eachRailOnce([pattern.start, pattern.aim, ...placeCounts(shown)]),
    target: targetOf(chart, question),
    marks: [startMark(question), ...aimMarks(shown)],
    ...(object ? { objects: [{ at: object }] } : {}),
    ...pointingAt(chart, shown, asked),
  };
}

/** Empty if the question asks for no number on a rail. */
function pointingAt(
  chart: Chart,
  { question }: Shown,
  { entry, answering }: Asked,
): Pick<TableFigureProps, 'pointing'> {
  const field = fieldsOf(question)[entry.field];
  if (!field?.count) return {};
  return {
    pointing: {
      count: field.count,
      value: numberIn(question, entry, entry.field),
      step: toNumber(chart.document.printStep),
      label: fieldLabel(field, chart.naming),
      words: numberWords,
      onPoint: (diamond) => answering.point(entry.field, diamond),
      onDone: () => void answering.submit(),
    },
  };
}

function numberWords(value: number | null): string {
  return value === null ? 'no number yet' : String(value);
}

/** The rail of a ball, or of an arrival that is asked for. */
function placeCounts({ question }: Shown): readonly Count[] {
  return 'count' in question ? [question.count] : [];
}

/** The given aim of an arrival question. */
function aimMarks({ question }: Shown) {
  if (question.kind !== 'arrival') return [];
  const { aim } = patternOf(question.pattern);
  const diamond = toNumber(question.aim);
  return [{ tone: 'true' as const, count: aim, diamond, label: String(diamond) }];
}

/** How far a ruler reaches to either side at first, diamonds. */
const RULER = 1;

function WindowRuler({ chart, shown, asked }: AskedProps) {
  const { entry, answering } = asked;
  const field = fieldsOf(shown.question)[entry.field];
  if (!field) return null;
  const value = numberIn(shown.question, entry, entry.field);
  return (
    <Ruler
      value={value}
      step={toNumber(chart.document.printStep)}
      most={Math.max(RULER, Math.ceil(Math.abs(value ?? 0)))}
      label={fieldLabel(field, chart.naming)}
      words={numberWords}
      onPoint={(diamond: number) => answering.point(entry.field, diamond)}
      onDone={() => void answering.submit()}
    />
  );
}

/** The three verdicts; a single press answers. */
function TrustChoices(props: { readonly answering: Answering; readonly question: Question }) {
  const { answering, question } = props;
  const { showMe } = answering;
  const shown = useRef(0);
  useEffect(() => {
    shown.current = performance.now();
  }, [question]);
  return (
    <fieldset class="choices" aria-label="What the line is good for" onMouseDown={keepFocus}>
      {VERDICTS.map((verdict, n) => (
        <button
          key={verdict}
          type="button"
          class="key"
          aria-keyshortcuts={String(n + 1)}
          onClick={(event) => {
            if (isSecondTap(event, performance.now() - shown.current)) return;
            answering.choose(verdict);
            void answering.submit();
          }}
        >
          {verdict}
        </button>
      ))}
      {showMe && (
        <button type="button" class="key quiet" onClick={() => void showMe()}>
          Show me
        </button>
      )}
    </fieldset>
  );
}
