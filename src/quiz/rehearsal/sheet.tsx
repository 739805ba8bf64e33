import './rehearsal.css';
import type { ComponentChildren } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import type { Chart } from '../../charts/index.ts';
import type { Rehearsed } from '../../scheduler/index.ts';
import type { Settings } from '../../store/index.ts';
import { CardStage } from '../stage/card-stage.tsx';
import { QuestionTitle } from '../stage/question-panel.tsx';
import { gradedWords, type ScoreRow, secondsWords, totalsOf } from './score.ts';

/** Shows all questions of a finished rehearsal with their answers, and the totals. */
export function ScoreSheet(props: {
  readonly event: Rehearsed;
  readonly rows: readonly ScoreRow[];
  /** The number of the row that was opened last, counted from 1. That row takes the focus. */
  readonly last: number | null;
  readonly open: (row: number) => void;
}) {
  const { event, rows, open } = props;
  const graded = gradedWords(event.questions);
  return (
    <>
      <TotalsList event={event} />
      {graded && <p class="soft-words score-tolerance">{graded}.</p>}
      <table class="score-table">
        <thead>
          <tr>
            {['', 'Pattern', 'Asked', 'Yours', 'Right', 'Error', 'Outcome', 'Time'].map((head) => (
              <th key={head} scope="col">
                {head || <span class="visually-hidden">Number</span>}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <Row key={row.number} row={row} focused={row.number === props.last} open={open} />
          ))}
        </tbody>
      </table>
      {rows.some((row) => !row.again) && (
        <p class="soft-words">
          A row without a table to look at: its chart, the tolerance, or what a number names has
          changed since. It shows what was recorded.
        </p>
      )}
    </>
  );
}

function TotalsList({ event }: { readonly event: Rehearsed }) {
  const { questions, made, within, ranOut, medianMs } = totalsOf(event.questions);
  const totals = [
    ['made', `${made} of ${questions}`],
    ['within tolerance', `${within} of ${questions}`],
    ...(event.clock === null ? [] : [['ran out', String(ranOut)] as const]),
    ['median time', medianMs === null ? '–' : secondsWords(medianMs)],
  ] as const;
  return (
    <dl class="score-totals">
      {totals.map(([label, value]) => (
        <div key={label}>
          <dt>{label}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  );
}

function Row(props: {
  readonly row: ScoreRow;
  readonly focused: boolean;
  readonly open: (row: number) => void;
}) {
  const { row, focused, open } = props;
  const button = useRef<HTMLButtonElement>(null);
  useEffect(() => {
    if (focused) button.current?.focus();
  }, [focused]);
  return (
    <tr data-outcome={row.outcome}>
      <td class="score-number">{row.number}</td>
      <th scope="row" class="score-pattern">
        {row.again ? (
          <button
            type="button"
            ref={button}
            class="row-open"
            aria-label={`${row.pattern}: question ${row.number} on the table`}
            onClick={() => open(row.number)}
          >
            {row.pattern}
          </button>
        ) : (
          row.pattern
        )}
      </th>
      <td class="score-asked">{row.asked}</td>
      <td class="score-value" data-label="yours">
        {row.yours}
      </td>
      <td class="score-value" data-label="right">
        {row.right}
      </td>
      <td data-label="error">{row.error}</td>
      <td class="score-outcome">{row.outcome}</td>
      <td class="score-time">{row.seconds}</td>
    </tr>
  );
}

/** Shows one question of the score sheet on the table, the way it looks after an answer. */
export function SheetQuestion(props: {
  readonly chart: Chart;
  readonly settings: Settings;
  readonly row: ScoreRow;
  readonly of: number;
  readonly back: () => void;
  readonly next: () => void;
  /** Further actions on the question. */
  readonly children?: ComponentChildren;
}) {
  const { row, chart, settings } = props;
  if (!row.again) return null;
  const { shown, given } = row.again;
  return (
    <main class="quiz rehearsal-run">
      <div class="quiz-bar">
        <button type="button" class="plain" onClick={props.back}>
          Score sheet
        </button>
        <progress aria-label="Question" max={props.of} value={row.number} />
        <span class="left">
          {row.number} of {props.of}
        </span>
      </div>
      <QuestionTitle shown={shown} />
      <CardStage
        key={row.number}
        chart={chart}
        shown={shown}
        revealed={{
          given,
          ranOut: given === null,
          settings,
          problem: null,
          onNext: props.next,
          onTakeBack: null,
          children: (
            <>
              <p class="soft-words">
                {given ? `Called after ${row.seconds}.` : 'The clock ran out: no answer.'}
              </p>
              {props.children}
            </>
          ),
        }}
      />
    </main>
  );
}
