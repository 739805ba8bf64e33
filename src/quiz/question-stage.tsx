import { useEffect, useRef } from 'preact/hooks';
import { fieldsOf, type Question } from '../cards/index.ts';
import { type Chart, patternOf, toNumber, VERDICTS } from '../charts/index.ts';
import { Ruler, TableFigure } from '../figure/index.ts';
import type { Count } from '../table/index.ts';
import { isSecondTap } from './double-tap.ts';
import { type Answering, type Entry, numberIn } from './entry.ts';
import { eachRailOnce, objectOf, startMark, targetOf } from './feedback-figure.ts';
import { keepFocus, NumberPad } from './number-pad.tsx';
import type { Shown } from './phase.ts';
import { QuestionFacts } from './question-panel.tsx';
import { fieldLabel, questionWords } from './question-words.ts';

export interface StageProps {
  readonly chart: Chart;
  readonly shown: Shown;
  readonly entry: Entry;
  readonly answering: Answering;
  /** Are the known numbers shown that a skill is worked out from. */
  readonly given: boolean;
  /** The picture is on the screen. */
  readonly painted: () => void;
}

/** A question as every kind of session asks it: table, facts, and the pad or the choices. */
export function QuestionStage(props: StageProps) {
  const { chart, shown, entry, answering } = props;
  const { question } = shown;
  useEffect(() => onPainted(props.painted), [question]);
  return (
    <>
      <div class="stage">
        <QuestionTable {...props} />
        <QuestionFacts
          shown={shown}
          entry={entry}
          answering={answering}
          naming={chart.naming}
          given={props.given}
        />
      </div>
      <div class="controls">
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
    </>
  );
}

function isFirstOfTwo({ texts, field }: Entry): boolean {
  return field < texts.length - 1 && texts[field + 1] === '';
}

/**
 * The question's picture: where it starts and where it should end, and nothing of the answer. The
 * rail that is asked for can be pointed at.
 */
function QuestionTable({ chart, shown, entry, answering }: StageProps) {
  const { question, mirror } = shown;
  const pattern = patternOf(question.pattern);
  const { table } = chart.setting;
  const field = fieldsOf(question)[entry.field];
  const asked = field?.count ?? null;
  const object = objectOf(chart, question);
  return (
    <TableFigure
      frame={{ table, mirror }}
      label={questionWords(question, mirror, chart.naming)}
      counts={eachRailOnce([pattern.start, pattern.aim, ...placeCounts(shown)])}
      target={targetOf(chart, question)}
      marks={[startMark(question), ...aimMarks(shown)]}
      {...(object ? { objects: [{ at: object }] } : {})}
      {...(asked && field
        ? {
            pointing: {
              count: asked,
              value: numberIn(question, entry, entry.field),
              step: toNumber(chart.document.printStep),
              label: fieldLabel(field, chart.naming),
              words: (value: number | null) => (value === null ? 'no number yet' : String(value)),
              onPoint: (diamond: number) => answering.point(entry.field, diamond),
              onDone: () => void answering.submit(),
            },
          }
        : {})}
    />
  );
}

/** The rail on which a ball stands or an arrival is asked for. */
function placeCounts({ question }: Shown): readonly Count[] {
  return 'count' in question ? [question.count] : [];
}

/** The aim is given where the arrival is asked. */
function aimMarks({ question }: Shown) {
  if (question.kind !== 'arrival') return [];
  const { aim } = patternOf(question.pattern);
  const diamond = toNumber(question.aim);
  return [{ tone: 'true' as const, count: aim, diamond, label: String(diamond) }];
}

/** So far a ruler goes to either side at first, diamonds. */
const RULER = 1;

function WindowRuler({ chart, shown, entry, answering }: StageProps) {
  const field = fieldsOf(shown.question)[entry.field];
  if (!field) return null;
  const value = numberIn(shown.question, entry, entry.field);
  return (
    <Ruler
      value={value}
      step={toNumber(chart.document.printStep)}
      most={Math.max(RULER, Math.ceil(Math.abs(value ?? 0)))}
      label={fieldLabel(field, chart.naming)}
      words={(number: number | null) => (number === null ? 'no number yet' : String(number))}
      onPoint={(diamond: number) => answering.point(entry.field, diamond)}
      onDone={() => void answering.submit()}
    />
  );
}

/** The three verdicts; one press answers. */
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

/** Runs after the browser has painted: two frames on, the first has been on the screen. */
function onPainted(run: () => void): () => void {
  let second = 0;
  const first = requestAnimationFrame(() => {
    second = requestAnimationFrame(run);
  });
  return () => {
    cancelAnimationFrame(first);
    cancelAnimationFrame(second);
  };
}
