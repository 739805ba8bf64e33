import {
  type Decimal,
  formatDecimal,
  minus,
  type SheetLine,
  type SheetNumber,
  size,
} from '../../charts/index.ts';
import { SPEEDS, type Speed, type Unreachable } from '../../table/index.ts';
import { PrintedNumber } from '../parts/as-printed.tsx';
import { FlagMark } from '../parts/flag-mark.tsx';
import { SpeedHeads } from '../parts/speed-heads.tsx';
import type { SolvedSheet } from '../state/workbench.ts';
import { SourceMark } from './source-mark.tsx';

/** Shows the numbers of a pattern. Pressing a row draws its line. */
export function NumberTable(props: {
  readonly worked: SolvedSheet;
  readonly chosen: number;
  readonly choose: (index: number) => void;
  /** The starts of flagged lines. */
  readonly flagged: ReadonlySet<Decimal>;
}) {
  const { lines } = props.worked.sheet;
  const banks = lines.some((line) => line.verdict);
  return (
    <table class="number-table">
      <thead>
        <tr>
          <th scope="col">From</th>
          <SpeedHeads />
          {banks && <th scope="col">verdict</th>}
        </tr>
      </thead>
      <tbody>
        {lines.map((line, index) => (
          <tr
            key={line.start}
            class={index === props.chosen ? 'chosen' : ''}
            onClick={() => props.choose(index)}
          >
            <th scope="row">
              <StartButton
                line={line}
                pressed={index === props.chosen}
                flagged={props.flagged.has(line.start)}
              />
            </th>
            {SPEEDS.map((speed) => (
              <td key={speed} class={speed}>
                <Printed number={line.numbers[speed]} />
              </td>
            ))}
            {banks && (
              <td>
                <VerdictChip line={line} />
              </td>
            )}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function StartButton(props: {
  readonly line: SheetLine;
  readonly pressed: boolean;
  readonly flagged: boolean;
}) {
  const { line, pressed, flagged } = props;
  const start = formatDecimal(line.start);
  const marks = `${line.anchor ? ', an anchor' : ''}${flagged ? ', flagged' : ''}`;
  return (
    <button type="button" aria-pressed={pressed} aria-label={`Draw the line from ${start}${marks}`}>
      {start}
      {line.anchor && <span class="anchor-mark" aria-hidden="true" />}
      {flagged && <FlagMark />}
    </button>
  );
}

function Printed({ number }: { readonly number: SheetNumber | Unreachable }) {
  if (typeof number !== 'string') {
    return (
      <>
        <PrintedNumber number={number} />
        <SourceMark source={number.source} />
      </>
    );
  }
  return (
    <span title={number} class="no-number">
      –<span class="visually-hidden"> {number}</span>
    </span>
  );
}

export function VerdictChip({ line }: { readonly line: SheetLine }) {
  if (!line.verdict) return null;
  return (
    <span class={`verdict-chip ${line.verdict.kind.replace(' ', '-')}`}>{line.verdict.kind}</span>
  );
}

/** Shows the numbers of this table beside those of another table, and how far each number moves. */
export function ComparedTable(props: {
  readonly here: SolvedSheet;
  readonly there: SolvedSheet;
  readonly tolerance: Decimal;
}) {
  const { here, there, tolerance } = props;
  return (
    <table class="number-table compared">
      <caption class="visually-hidden">The number here, there, and how far it moves</caption>
      <thead>
        <tr>
          <th scope="col">From</th>
          <SpeedHeads />
        </tr>
      </thead>
      <tbody>
        {there.sheet.lines.map((line, index) => {
          const own = here.sheet.lines[index];
          return (
            <tr key={line.start}>
              <th scope="row">{formatDecimal(line.start)}</th>
              {SPEEDS.map((speed) => {
                const by = movedBy(own, line, speed);
                const moved = by !== null && size(by) > tolerance;
                return (
                  <td key={speed} class={moved ? 'moved' : ''}>
                    <span class="pair">
                      {own && <Printed number={own.numbers[speed]} />}
                      <strong>
                        <Printed number={line.numbers[speed]} />
                      </strong>
                    </span>
                    <span class="by">{by === null ? ' ' : movedWords(by)}</span>
                  </td>
                );
              })}
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

function movedBy(own: SheetLine | undefined, other: SheetLine, speed: Speed): Decimal | null {
  const a = own?.numbers[speed];
  const b = other.numbers[speed];
  if (a === undefined || typeof a === 'string' || typeof b === 'string') return null;
  return minus(b.printed, a.printed);
}

function movedWords(by: Decimal): string {
  return by === 0 ? 'same' : formatDecimal(by, 1, true);
}

/** Counts the lines that move by more than the tolerance at any speed. */
export function movedLines(here: SolvedSheet, there: SolvedSheet, tolerance: Decimal): number {
  return there.sheet.lines.filter((line, index) =>
    SPEEDS.some((speed) => {
      const by = movedBy(here.sheet.lines[index], line, speed);
      return by !== null && size(by) > tolerance;
    }),
  ).length;
}
