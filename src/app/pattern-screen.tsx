import { useMemo, useState } from 'preact/hooks';
import {
  type Chart,
  formatDecimal,
  type Gap,
  type Line,
  type PatternId,
  patternOf,
} from '../charts/index.ts';
import { LineFigure, lineAtSpeeds } from '../quiz/index.ts';
import { MIRRORS, type Mirror, SPEEDS } from '../table/index.ts';
import type { Model } from './model.ts';

/** One pattern: its numbers, and the chosen line drawn at three speeds. */
export function PatternScreen({
  model,
  pattern: id,
}: {
  readonly model: Model;
  readonly pattern: PatternId;
}) {
  const chart = model.chart.value;
  const pattern = patternOf(id);
  const lines = chart.lines.filter((line) => line.pattern === id);
  const gaps = chart.gaps.filter((gap) => gap.pattern === id);
  const [chosen, choose] = useState(() => Math.floor(lines.length / 2));
  const line = lines[chosen];
  return (
    <main class="page pattern-page">
      <a class="back" href="#/charts">
        Charts
      </a>
      <h1>{pattern.name}</h1>
      <p class="lead">{pattern.path}</p>
      <div class="pattern-body">
        {line && <ChosenLine chart={chart} line={line} />}
        <div class="numbers">
          <NumberTable lines={lines} chosen={chosen} choose={choose} />
          {gaps.map((gap) => (
            <p key={gap.start} class="soft-words">
              {gapWords(gap)}
            </p>
          ))}
          <p class="soft-words">
            Aim through the sight, counted from the {pattern.aim.from} corner; starts counted from
            the foot. Medium is {chart.setting.condition.speeds.medium} m/s, soft{' '}
            {chart.setting.condition.speeds.soft}, firm {chart.setting.condition.speeds.firm}.
          </p>
        </div>
      </div>
    </main>
  );
}

function ChosenLine({ chart, line }: { readonly chart: Chart; readonly line: Line }) {
  const parts = useMemo(() => lineAtSpeeds(chart, line), [chart, line]);
  return (
    <div class="pattern-figure">
      <LineFigure
        shown={{ card: line, mirror: MIRRORS[0] as Mirror }}
        chart={chart}
        parts={parts}
        label={`From ${formatDecimal(line.start)} aim through ${formatDecimal(line.numbers.medium.printed)} at medium speed`}
      />
      <p class="legend">
        <span class="key-line soft" /> soft
        <span class="key-line medium" /> medium
        <span class="key-line firm" /> firm
      </p>
    </div>
  );
}

function NumberTable(props: {
  readonly lines: readonly Line[];
  readonly chosen: number;
  readonly choose: (index: number) => void;
}) {
  return (
    <table class="number-table">
      <thead>
        <tr>
          <th scope="col">From</th>
          {SPEEDS.map((speed) => (
            <th key={speed} scope="col">
              {speed}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {props.lines.map((line, index) => (
          <tr key={line.start} class={index === props.chosen ? 'chosen' : ''}>
            <th scope="row">
              <button
                type="button"
                aria-pressed={index === props.chosen}
                aria-label={`Draw the line from ${formatDecimal(line.start)}`}
                onClick={() => props.choose(index)}
              >
                {formatDecimal(line.start)}
              </button>
            </th>
            {SPEEDS.map((speed) => (
              <td key={speed} class={speed}>
                {formatDecimal(line.numbers[speed].printed)}
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function gapWords(gap: Gap): string {
  return `From ${formatDecimal(gap.start)} there is no number: at ${gap.speed} speed the ball ${gap.why}.`;
}
