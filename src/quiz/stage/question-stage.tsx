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

/** What a session must provide so that its question can be answered. */
export interface Asked {
  readonly entry: Entry;
  readonly answering: Answering;
  /** Whether the screen shows the known numbers that a skill is worked out from. */
  readonly given: boolean;
  /** Called when the picture is on the screen. */
  readonly painted: () => void;
}

export interface AskedProps {
  readonly chart: Chart;
  readonly shown: Shown;
  readonly asked: Asked;
}

/** Shows the controls for answering a question: the number pad or the choices. */
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
 * Returns the picture of a question. It shows the start and the target, and nothing that gives the
 * answer away. The player can point at the rail that the asked number is on.
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

/** Lets the player point at a rail to fill the current field; empty if it is no number on a rail. */
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

/** Returns the rail that the ball is on, or the rail of an arrival that is asked for. */
function placeCounts({ question }: Shown): readonly Count[] {
  return 'count' in question ? [question.count] : [];
}

/** Returns the mark of the aim that an arrival question gives. */
function aimMarks({ question }: Shown) {
  if (question.kind !== 'arrival') return [];
  const { aim } = patternOf(question.pattern);
  const diamond = toNumber(question.aim);
  return [{ tone: 'true' as const, count: aim, diamond, label: String(diamond) }];
}

/** How far a ruler reaches to either side at first, in diamonds. */
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

/** Shows the three verdicts. Pressing one submits it as the answer. */
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
