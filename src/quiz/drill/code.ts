/**
 * A drill's code: a short text to share, which contains everything that decides the drill's
 * questions. It consists of lowercase letters, digits and hyphens, so it needs no escaping in a
 * URL.
 */

import { hashOf, KINDS, type Kind, toleranceFor, ZONES, type Zone } from '../../cards/index.ts';
import type { Chart, Decimal, PatternId } from '../../charts/index.ts';
import { SPEEDS } from '../../table/index.ts';

/** How many questions a drill can have; null means no fixed number. */
export const COUNTS = [10, 20, 50, null] as const;
export type DrillCount = (typeof COUNTS)[number];

export interface DrillSpec {
  /** A 32-bit number that decides the questions, their order and their pictures. */
  readonly seed: number;
  readonly patterns: readonly PatternId[];
  readonly zones: readonly Zone[];
  readonly kinds: readonly Kind[];
  readonly count: DrillCount;
  /** The speeds at which skills are asked. */
  readonly speeds: 'medium' | 'all';
  readonly tolerance: Decimal;
  /** Whether the screen shows the known numbers. */
  readonly given: boolean;
  /** Identifies what the drill's original chart prints; see `printOf`. */
  readonly print: string;
}

/**
 * The bit of each pattern in a code. A pattern always keeps its bit, even if the list of patterns
 * is reordered, so that old codes keep their meaning. A new pattern takes the next bit.
 */
const BITS: Readonly<Record<PatternId, number>> = {
  'foot-to-side': 0,
  'foot-to-far-corner': 1,
  'cross-side': 2,
  'cross-corner': 3,
  'long-rail-to-side': 4,
  'long-rail-to-far-corner': 5,
  'up-and-back': 6,
  'short-long-to-side': 7,
  'short-long-to-corner': 8,
  'long-short-to-side': 9,
  'long-short-to-corner': 10,
  'three-cushion': 11,
};
const BY_BIT = (Object.keys(BITS) as PatternId[]).sort((a, b) => BITS[a] - BITS[b]);

const VERSION = '1';
const PRINT_LENGTH = 6;
/** The widest tolerance, in ten-thousandths of a diamond: 9 diamonds, as in the log. */
const WIDEST = 90_000;

const SHAPE =
  /^1-([0-9a-z]{1,7})-([0-9a-z]{1,6})-([1-7])([0-9a-z]{2})([0-3])([01])([01])-([0-9a-z]{1,4})-([0-9a-z]{6})$/;

export function formatDrill(spec: DrillSpec): string {
  const { seed, count, speeds, given } = spec;
  const patterns = spec.patterns.reduce((mask, pattern) => mask + 2 ** BITS[pattern], 0);
  const zones = maskOf(ZONES, spec.zones);
  const kinds = maskOf(KINDS, spec.kinds).toString(36).padStart(2, '0');
  const yes = (is: boolean) => (is ? '1' : '0');
  const choices = `${zones}${kinds}${COUNTS.indexOf(count)}${yes(speeds === 'all')}${yes(given)}`;
  const [first, second, width] = [seed, patterns, spec.tolerance].map((one) => one.toString(36));
  return `${VERSION}-${first}-${second}-${choices}-${width}-${spec.print}`;
}

export type DrillCodeError = 'not a code' | 'newer code' | 'unknown pattern';
export type ParsedDrill =
  | { readonly ok: true; readonly spec: DrillSpec }
  | { readonly ok: false; readonly error: DrillCodeError; readonly say: string };

const SENTENCES: Readonly<Record<DrillCodeError, string>> = {
  'not a code':
    'That is not the code of a drill. Ask for the link again, or set up a drill of your own.',
  'newer code': 'That code was made by a newer Throughline. Load this page again to get it.',
  'unknown pattern':
    'That code names a pattern that this version does not know. Load this page again to get the newest.',
};

/**
 * Parses a code from outside. If `formatDrill` cannot have written the code, the result is a
 * sentence that says why.
 */
export function parseDrill(text: string): ParsedDrill {
  const plain = text.trim().toLowerCase();
  const match = SHAPE.exec(plain);
  if (!match) return refuse(isNewer(plain) ? 'newer code' : 'not a code');
  const patterns = patternsIn(Number.parseInt(match[2] ?? '', 36));
  if (!patterns) return refuse('unknown pattern');
  const spec = specIn(match, patterns);
  return isSound(spec) && formatDrill(spec) === plain ? { ok: true, spec } : refuse('not a code');
}

/** Reads the parts of a code, in the order of SHAPE. */
function specIn(match: RegExpExecArray, patterns: readonly PatternId[]): DrillSpec {
  const [, seed = '', , zones = '', kinds = '', count, all, given, width = '', print = ''] = match;
  return {
    seed: Number.parseInt(seed, 36),
    patterns,
    zones: ofMask(ZONES, Number.parseInt(zones, 36)),
    kinds: ofMask(KINDS, Number.parseInt(kinds, 36)),
    count: COUNTS[Number(count)] ?? null,
    speeds: all === '1' ? 'all' : 'medium',
    tolerance: Number.parseInt(width, 36) as Decimal,
    given: given === '1',
    print,
  };
}

function refuse(error: DrillCodeError): ParsedDrill {
  return { ok: false, error, say: SENTENCES[error] };
}

/**
 * Tells whether a code comes from a later version. A code begins with the number of its version.
 */
function isNewer(text: string): boolean {
  return /^([2-9]|[1-9][0-9])-[0-9a-z-]{1,60}$/.test(text);
}

function isSound({ seed, tolerance, kinds, patterns }: DrillSpec): boolean {
  return (
    seed < 2 ** 32 && tolerance > 0 && tolerance <= WIDEST && kinds.length * patterns.length > 0
  );
}

/** @returns null if a bit belongs to no pattern */
function patternsIn(mask: number): readonly PatternId[] | null {
  return mask < 2 ** BY_BIT.length ? ofMask(BY_BIT, mask) : null;
}

function maskOf<T>(all: readonly T[], some: readonly T[]): number {
  return all.reduce((mask, one, bit) => (some.includes(one) ? mask + 2 ** bit : mask), 0);
}

function ofMask<T>(all: readonly T[], mask: number): readonly T[] {
  return all.filter((_, bit) => Math.floor(mask / 2 ** bit) % 2 === 1);
}

/**
 * Returns six characters that identify what a chart prints: its lines' numbers at every speed, and
 * their naming. Charts that print the same get the same characters. Two charts that differ get the
 * same ones with a chance of 1 in 36⁶, where 36⁶ is about 2e9.
 */
export function printOf({ naming, document, lines }: Chart): string {
  const printed = lines.map(({ pattern, start, numbers }) => {
    const atSpeeds = SPEEDS.map((speed) => numbers[speed].printed);
    return [pattern, start, ...atSpeeds].join(' ');
  });
  const hash = hashOf([naming, document.printStep, ...printed].join('\n'));
  return (hash % 36 ** PRINT_LENGTH).toString(36).padStart(PRINT_LENGTH, '0');
}

/**
 * Returns the same drill for a different chart: it uses that chart's numbers, and the tolerance is
 * never finer than the chart's print step.
 */
export function fitted(spec: DrillSpec, chart: Chart): DrillSpec {
  const tolerance = toleranceFor(spec.tolerance, chart.document.printStep);
  return { ...spec, tolerance, print: printOf(chart) };
}
