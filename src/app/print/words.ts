/** The words on a printed sheet about its chart, and the rows of its numbers. */

import {
  anchorsIn,
  type Chart,
  type Decimal,
  formatDecimal,
  type Gap,
  isolated,
  type NumberSource,
  type PatternId,
  patternOf,
} from '../../charts/index.ts';
import { speedWords, type Units } from '../../quiz/index.ts';
import { type Count, SPEEDS, type Speed } from '../../table/index.ts';
import { missingWords } from '../parts/missing.ts';
import { TABLE_NAMES } from '../parts/table-names.ts';

export const CAUTION =
  'Numbers are aids: tables differ. Check a line on the table before you trust it.';

/**
 * The origin of a number; `filled in` means it follows from measured numbers beside it or at
 * another speed.
 */
export type Origin = 'computed' | 'measured' | 'filled in';

export interface PrintNumber {
  readonly printed: Decimal;
  readonly origin: Origin;
}

/** A line of the chart as a row on paper. */
export interface PrintRow {
  readonly start: Decimal;
  readonly anchor: boolean;
  readonly numbers: readonly PrintNumber[];
}

/**
 * Returns the lines of a pattern in the order of their starts.
 * @param speeds the columns of numbers
 */
export function rowsOf(
  chart: Chart,
  id: PatternId,
  speeds: readonly Speed[],
  bound: number,
): readonly PrintRow[] {
  const { lines, plan } = anchorsIn(chart, id, bound);
  const anchors = new Set(plan.chosen);
  return lines.map((line, n) => ({
    start: line.start,
    anchor: anchors.has(n),
    numbers: speeds.map((speed) => {
      const { printed, source } = line.numbers[speed];
      return { printed, origin: originOf(source) };
    }),
  }));
}

function originOf(source: NumberSource): Origin {
  return source === 'computed' || source === 'measured' ? source : 'filled in';
}

/** Returns as many rows as fit, anchors first, and how many rows are left out. */
export function anchorsFirst(
  rows: readonly PrintRow[],
  most: number,
): { readonly shown: readonly PrintRow[]; readonly left: number } {
  const ordered = [...rows.filter(({ anchor }) => anchor), ...rows.filter(({ anchor }) => !anchor)];
  return { shown: ordered.slice(0, most), left: Math.max(0, rows.length - most) };
}

/** Returns words such as "Revision 3 of 2026-11-23, Harbour Lane instruction". */
export function revisionWords({ document }: Chart): string {
  const last = document.revisions.at(-1) ?? document.revisions[0];
  return `Revision ${last.number} of ${last.date}, ${isolated(last.author)}`;
}

/** Returns words such as "9 ft table". */
export function tableWords({ document }: Chart): string {
  return `${TABLE_NAMES[document.table]} table`;
}

/** Returns words such as "left rail, from the foot". */
function countWords({ rail, from }: Count): string {
  return `${rail} rail, from the ${from}`;
}

/** Says from where starts and numbers are counted, with the foot rail at the top. */
export function countedWords(id: PatternId): { readonly starts: string; readonly numbers: string } {
  const { start, aim } = patternOf(id);
  return { starts: countWords(start), numbers: countWords(aim) };
}

export function namingWords({ naming }: Chart): string {
  return naming === 'through'
    ? 'Aim through the sight with the number.'
    : 'Aim at the point of the nose with the number.';
}

/** Returns a sentence such as "Soft 5 mph, medium 7 mph, firm 10.3 mph." */
export function speedsWords(chart: Chart, speeds: readonly Speed[], units: Units): string {
  const { condition } = chart.setting;
  const said = speeds.map((speed) => `${speed} ${speedWords(condition.speeds[speed], units)}`);
  return `${said.join(', ').replace(/^./, (first) => first.toUpperCase())}.`;
}

/** Names the starts that have no line, in one sentence for each reason. */
export function gapSentences({ gaps }: Chart, id: PatternId): readonly string[] {
  const own = gaps.filter(({ pattern }) => pattern === id);
  const reasons = new Map<string, Gap[]>();
  for (const speed of SPEEDS) {
    for (const gap of own.filter((one) => one.speed === speed)) {
      const why = `${missingWords(gap.why)} at ${speed} speed`;
      reasons.set(why, [...(reasons.get(why) ?? []), gap]);
    }
  }
  return [...reasons].map(
    ([why, at]) =>
      `No line from ${at.map(({ start }) => formatDecimal(start)).join(', ')}: ${why}.`,
  );
}

/** The room for the author's remarks beside the numbers of a page, in characters. */
const ROOM_FOR_REMARKS = 400;

/**
 * Returns the author's remarks on a pattern's lines. If they do not all fit, the last sentence says
 * how many more there are.
 */
export function remarkSentences({ state }: Chart, id: PatternId): readonly string[] {
  const said = state.remarks
    .filter(({ pattern }) => pattern === id)
    .map(({ start, text }) => `From ${formatDecimal(start)}: ${isolated(text)}`);
  let room = ROOM_FOR_REMARKS;
  const fitting = said.filter((one) => {
    room -= one.length;
    return room >= 0;
  });
  const left = said.length - fitting.length;
  if (left === 0) return fitting;
  const more = left === 1 ? 'One more remark is' : `${left} more remarks are`;
  return [...fitting, `${more} in the chart.`];
}

/** Says how the print marks the origin of a number; null if all numbers are computed. */
export function originWords(rows: readonly PrintRow[]): string | null {
  const origins = new Set(rows.flatMap(({ numbers }) => numbers.map(({ origin }) => origin)));
  if (origins.size === 1) {
    return origins.has('measured') ? 'All numbers were measured on the table.' : null;
  }
  const measured = origins.has('measured') ? ['Underlined: measured on the table.'] : [];
  const filled = origins.has('filled in') ? ['Dotted: filled in from measured numbers.'] : [];
  return [...measured, ...filled].join(' ') || null;
}

/** Returns the length that the scale bar stands for on the table, in meters. */
export function barLength(units: Units): number {
  return units === 'in' ? 20 * 0.0254 : 0.5;
}

/** Returns words such as "Scale 1:15. The bar is 20 in of the table and 1.33 in of this sheet." */
export function scaleWords(scale: number, units: Units): string {
  const whole = units === 'in' ? 20 : 50;
  const drawn = (whole / scale).toFixed(2).replace(/0$/, '');
  return `Scale 1:${scale}. The bar is ${whole} ${units} of the table and ${drawn} ${units} of this sheet.`;
}
