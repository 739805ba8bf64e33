import { useMemo, useState } from 'preact/hooks';
import { isMade } from '../cards/index.ts';
import {
  type Chart,
  formatDecimal,
  type Gap,
  type Line,
  type PatternId,
  patternOf,
} from '../charts/index.ts';
import { LineFigure, lineAtSpeeds, playAt, SpeedLegend, speedWords } from '../quiz/index.ts';
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
  const kicks = useMemo(() => kickStarts(chart, lines), [chart, id]);
  const { speeds } = chart.setting.condition;
  const { units } = model.settings.value;
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
          <NumberTable lines={lines} kicks={kicks} chosen={chosen} choose={choose} />
          {gaps.map((gap) => (
            <p key={gap.start} class="soft-words">
              {gapWords(gap)}
            </p>
          ))}
          {lines.some((line) => kicks.has(line.start)) && (
            <p class="soft-words">
              <span class="kick">kick</span> At medium speed the ball comes in too flat to drop: a
              kick rather than a bank.
            </p>
          )}
          <p class="soft-words">
            Aim through the sight, counted from the {pattern.aim.from}; starts are counted from the{' '}
            {pattern.start.from}. Soft is {speedWords(speeds.soft, units)}, medium{' '}
            {speedWords(speeds.medium, units)}, firm {speedWords(speeds.firm, units)}.
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
      <SpeedLegend />
    </div>
  );
}

function NumberTable(props: {
  readonly lines: readonly Line[];
  readonly kicks: ReadonlySet<number>;
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
          <tr
            key={line.start}
            class={index === props.chosen ? 'chosen' : ''}
            onClick={() => props.choose(index)}
          >
            <th scope="row">
              <button
                type="button"
                aria-pressed={index === props.chosen}
                aria-label={`Draw the line from ${formatDecimal(line.start)}`}
              >
                {formatDecimal(line.start)}
              </button>
            </th>
            {SPEEDS.map((speed) => (
              <td key={speed} class={speed}>
                {formatDecimal(line.numbers[speed].printed)}
                {speed === 'medium' && props.kicks.has(line.start) && (
                  <span class="kick">kick</span>
                )}
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** Starts whose exact number at medium speed comes in too flat for the pocket. */
function kickStarts(chart: Chart, lines: readonly Line[]): ReadonlySet<number> {
  const flat = lines.filter(
    (line) => !isMade(playAt(chart, line, line.numbers.medium.exact, 'medium')),
  );
  return new Set(flat.map((line) => line.start));
}

function gapWords(gap: Gap): string {
  return `From ${formatDecimal(gap.start)} there is no number: at ${gap.speed} speed the ball ${gap.why}.`;
}
