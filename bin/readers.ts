/** Readers, each for the text of one option. Each refusal names the valid values. */

import {
  type Decimal,
  formatDecimal,
  PATTERNS,
  type PatternId,
  parseDecimal,
  startsFrom,
  toDecimal,
  toNumber,
} from '../src/charts/index.ts';
import {
  NAMINGS,
  POCKET_SIZES,
  type PocketSize,
  SPEEDS,
  type Speed,
  TABLES,
  type TableSize,
} from '../src/table/index.ts';
import { quote, type Valued } from './arguments.ts';
import { FORMATS } from './format.ts';
import { type Read, read, refuse } from './read.ts';

/** For each speed a value in m/s, or null for the condition's own. */
export type SpeedsGiven = Readonly<Record<Speed, number | null>>;

type Reader<T> = (text: string, name: Valued) => Read<T>;

/** How many diamonds the longest rail has. */
const LONGEST = 8;
/**
 * The smallest distance between starts, in diamonds. Closer starts add nothing, and anchors are not
 * made for them.
 */
const LEAST_APART = toDecimal(0.05);

export const READERS = {
  pattern: choice(PATTERNS.map(({ id }): PatternId => id)),
  table: choice(Object.keys(TABLES) as TableSize[]),
  format: choice(FORMATS),
  starts: readStarts,
  speeds: readSpeeds,
  condition: (text: string) => read(text),
  pockets: choice(Object.keys(POCKET_SIZES) as PocketSize[]),
  target: decimal(0, LONGEST, 'a diamond'),
  naming: choice(NAMINGS),
  step: choice(['0.1', '0.05']),
  tolerance: decimal(0.05, 1, 'a number of diamonds'),
  // A tip farther out than half the radius slips off the ball: common practice, no source.
  follow: decimal(-0.5, 0.5, 'a part of the radius'),
  running: decimal(-0.5, 0.5, 'a part of the radius'),
  side: decimal(-0.5, 0.5, 'a part of the radius'),
  along: decimal(0, 0.95, 'a part of the way'),
} satisfies { readonly [name in Valued]: Reader<unknown> };

/** The value of each option that was given. */
export type Given = {
  readonly [name in Valued]?: Extract<ReturnType<(typeof READERS)[name]>, { ok: true }>['value'];
};

function choice<const T extends string>(values: readonly T[]): Reader<T> {
  return (text, name) => {
    const value = values.find((one) => one === text);
    return value === undefined
      ? refuse(`--${name} is one of ${values.join(', ')}, not ${quote(text)}.`)
      : read(value);
  };
}

function decimal(least: number, most: number, what: string): Reader<Decimal> {
  return (text, name) => {
    const parsed = parseDecimal(text);
    return parsed.ok && parsed.value >= toDecimal(least) && parsed.value <= toDecimal(most)
      ? read(parsed.value)
      : refuse(
          `--${name} needs ${what} from ${least} to ${most} with at most three decimals, not ${quote(text)}.`,
        );
  };
}

function readStarts(text: string): Read<readonly Decimal[]> {
  const starts = text.includes(':') ? rangeOf(text.split(':')) : listOf(text.split(','));
  const ascend = starts?.every(
    (start, n) => n === 0 || start - (starts[n - 1] ?? 0) >= LEAST_APART,
  );
  return starts && ascend
    ? read(starts)
    : refuse(
        `--starts needs FROM:TO:STEP or a list of diamonds from 0 to ${LONGEST}, ascending and at least ${formatDecimal(LEAST_APART)} apart, such as 1:8:0.5 or 2,3.5, not ${quote(text)}.`,
      );
}

function rangeOf(parts: readonly string[]): readonly Decimal[] | null {
  const [from, to] = listOf(parts.slice(0, 2)) ?? [];
  const [step] = listOf(parts.slice(2)) ?? [];
  if (parts.length !== 3 || from === undefined || to === undefined || step === undefined)
    return null;
  return step < LEAST_APART || to < from ? null : startsFrom(from, to, step);
}

function listOf(parts: readonly string[]): readonly Decimal[] | null {
  const diamonds = parts.map(parseDecimal);
  const list = diamonds.flatMap((one) =>
    one.ok && one.value >= 0 && toNumber(one.value) <= LONGEST ? [one.value] : [],
  );
  return list.length === parts.length ? list : null;
}

function readSpeeds(text: string): Read<SpeedsGiven> {
  const parts = text.split(',').map((part) => part.trim());
  const given = SPEEDS.map((speed, n) => {
    if (parts[n] === speed) return null;
    const parsed = parseDecimal(parts[n] ?? '');
    return parsed.ok ? toNumber(parsed.value) : undefined;
  });
  const [soft, medium, firm] = given;
  if (parts.length !== 3 || soft === undefined || medium === undefined || firm === undefined) {
    return refuse(
      `--speeds needs three speeds in m/s, ascending, or the names soft, medium and firm in their places, such as 2.2,3.1,4.6, not ${quote(text)}.`,
    );
  }
  return read({ soft, medium, firm });
}
