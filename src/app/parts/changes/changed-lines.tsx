import './changes.css';
import { useMemo, useState } from 'preact/hooks';
import { toleranceFor } from '../../../cards/index.ts';
import {
  type Chart,
  changedLines,
  type Decimal,
  formatDecimal,
  type LineChange,
  type PatternId,
  patternOf,
  size,
} from '../../../charts/index.ts';
import { SPEEDS, type Speed } from '../../../table/index.ts';
import { Choice, OneOf } from '../controls.tsx';
import { SpeedHeads } from '../speed-heads.tsx';
import { ChangedFigure } from './changed-figure.tsx';
import { counted, isBeyond, spokenChange } from './line-change-words.ts';

export interface Compared {
  readonly before: Chart;
  readonly after: Chart;
  /** The names of the two charts, for example "revision 2" and "yours". */
  readonly names: readonly [before: string, after: string];
  /** The tolerance that the player chose. It may be finer than the chart's printed step. */
  readonly tolerance: Decimal;
}

/**
 * Shows the printed numbers that differ between two charts, in a table for each pattern and a
 * figure for each line.
 */
export function ChangedLines(props: Compared) {
  const { before, after } = props;
  const lines = useMemo(() => changedLines(before, after), [before, after]);
  const patterns = [...new Set(lines.map(({ pattern }) => pattern))];
  const [chosen, choose] = useState<PatternId | null>(null);
  const pattern = patterns.find((id) => id === chosen) ?? patterns[0];
  if (!pattern) return <p>No printed number differs.</p>;
  const counts = new Map(patterns.map((id) => [id, countOf(lines, id)]));
  return (
    <div class="changed-lines">
      <p>{sumWords(lines)}</p>
      {patterns.length === 1 ? (
        <h3>{patternOf(pattern).name}</h3>
      ) : (
        <Choice
          label="Pattern"
          value={pattern}
          options={patterns.map((id) => [
            id,
            `${patternOf(id).name}: ${counted(counts.get(id) ?? 0)}`,
          ])}
          onChoose={choose}
        />
      )}
      <PatternChanges
        {...props}
        lines={lines.filter((line) => line.pattern === pattern)}
        key={pattern}
      />
    </div>
  );
}

function countOf(lines: readonly LineChange[], pattern: PatternId): number {
  return lines.filter((line) => line.pattern === pattern).length;
}

/** Returns a summary such as "Numbers of 12 lines differ; 2 lines come, 1 goes." */
function sumWords(lines: readonly LineChange[]): string {
  const come = lines.filter(({ from }) => !from).length;
  const go = lines.filter(({ to }) => !to).length;
  const differ = lines.length - come - go;
  const parts = [
    differ > 0 && `${counted(differ)} ${differ === 1 ? 'has' : 'have'} other numbers`,
    come > 0 && `${counted(come)} ${come === 1 ? 'comes' : 'come'} to the chart`,
    go > 0 && `${counted(go)} ${go === 1 ? 'leaves' : 'leave'} it`,
  ];
  return `${parts.filter((part) => part !== false).join(', ')}.`;
}

function PatternChanges(props: Compared & { readonly lines: readonly LineChange[] }) {
  const { lines, before, after, names } = props;
  const tolerance = toleranceFor(props.tolerance, after.document.printStep);
  const [start, choose] = useState(() => farthest(lines)?.start);
  const [speed, setSpeed] = useState<Speed>('medium');
  const line = lines.find((one) => one.start === start) ?? lines[0];
  if (!line) return null;
  return (
    <div class="pattern-changes">
      <div>
        <ChangedFigure before={before} after={after} names={names} line={line} speed={speed} />
        <OneOf
          legend="Drawn at"
          name="drawn-speed"
          options={SPEEDS.map((one) => [one, one] as const)}
          chosen={speed}
          onChoose={setSpeed}
        />
      </div>
      <div>
        <ChangedTable lines={lines} chosen={line} choose={choose} tolerance={tolerance} />
        <p class="soft-words">
          On the left {names[0]}, on the right {names[1]}. Shaded, with the change in bold: the
          printed number moves by more than {formatDecimal(tolerance)}.
        </p>
      </div>
    </div>
  );
}

/** Returns the line that moves most, which is shown first. */
function farthest(lines: readonly LineChange[]): LineChange | undefined {
  const most = ({ by }: LineChange) =>
    by ? Math.max(...SPEEDS.map((speed) => size(by[speed]))) : 0;
  return [...lines].sort((a, b) => most(b) - most(a))[0];
}

function ChangedTable(props: {
  readonly lines: readonly LineChange[];
  readonly chosen: LineChange;
  readonly choose: (start: Decimal) => void;
  readonly tolerance: Decimal;
}) {
  return (
    <table class="number-table compared">
      <caption class="visually-hidden">
        The number before, after, and how far it moves; a press draws the line
      </caption>
      <thead>
        <tr>
          <th scope="col">From</th>
          <SpeedHeads />
        </tr>
      </thead>
      <tbody>
        {props.lines.map((line) => (
          <tr
            key={line.start}
            class={line === props.chosen ? 'chosen' : ''}
            onClick={() => props.choose(line.start)}
          >
            <th scope="row">
              <button
                type="button"
                aria-pressed={line === props.chosen}
                aria-label={`Draw the line from ${formatDecimal(line.start)}`}
              >
                {formatDecimal(line.start)}
              </button>
            </th>
            {SPEEDS.map((speed) => (
              <ChangedCell key={speed} line={line} speed={speed} tolerance={props.tolerance} />
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function ChangedCell(props: {
  readonly line: LineChange;
  readonly speed: Speed;
  readonly tolerance: Decimal;
}) {
  const { line, speed, tolerance } = props;
  return (
    <td class={isBeyond(line, speed, tolerance) ? 'moved' : ''}>
      <span class="visually-hidden">{spokenChange(line, speed, tolerance)}</span>
      <span class="pair" aria-hidden="true">
        <span>{printed(line.from?.numbers[speed].printed)}</span>
        <span>→</span>
        <strong>{printed(line.to?.numbers[speed].printed)}</strong>
      </span>
      <span class="by" aria-hidden="true">
        {byWords(line, speed)}
      </span>
    </td>
  );
}

function printed(number: Decimal | undefined): string {
  return number === undefined ? '–' : formatDecimal(number);
}

function byWords({ from, by }: LineChange, speed: Speed): string {
  if (by === null) return from ? 'leaves' : 'new';
  // With large text the column has no room for a word.
  return by[speed] === 0 ? '=' : formatDecimal(by[speed], 1, true);
}
