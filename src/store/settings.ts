/** A player's settings, validated; a field that does not fit falls back to its default alone. */

import * as v from 'valibot';
import type { Decimal } from '../charts/index.ts';
import { NAMINGS } from '../table/index.ts';

const oneOf = <const T extends readonly (string | number)[]>(options: T, fallback: T[number]) =>
  v.fallback(v.picklist(options), fallback as never);

export const TARGETS = [0.8, 0.85, 0.9, 0.95] as const;
/** Ten-thousandths of a diamond: strict, usual, loose. */
export const TOLERANCES = [500, 1000, 2000] as const;
export const NEW_LINES = [0, 2, 4, 6, 8, 12, 20] as const;

const schema = v.object({
  version: v.literal(1),
  /** Local hour at which a study-day begins. */
  dayBoundaryHour: v.fallback(v.pipe(v.number(), v.integer(), v.minValue(0), v.maxValue(23)), 4),
  newLinesPerDay: oneOf(NEW_LINES, 6),
  targetRecall: oneOf(TARGETS, 0.9),
  tolerance: oneOf(TOLERANCES, 1000),
  /** All four mirror pictures of a line, or the printed one only. */
  pictures: oneOf(['all', 'one'], 'all'),
  meetFirst: v.fallback(v.boolean(), true),
  theme: oneOf(['system', 'light', 'dark'], 'system'),
  units: oneOf(['in', 'cm'], 'in'),
  /** What a number on the first cushion names. */
  naming: oneOf(NAMINGS, 'through'),
});

export type Settings = Readonly<v.InferOutput<typeof schema>>;

export const DEFAULT_SETTINGS: Settings = v.parse(schema, {
  version: 1,
  dayBoundaryHour: 4,
  newLinesPerDay: 6,
  targetRecall: 0.9,
  tolerance: 1000,
  pictures: 'all',
  meetFirst: true,
  theme: 'system',
  units: 'in',
  naming: 'through',
});

/** Stored or imported settings; the defaults if it is not settings at all. */
export function parseSettings(data: unknown): Settings {
  const result = v.safeParse(schema, data);
  return result.success ? result.output : DEFAULT_SETTINGS;
}

export function toleranceOf(settings: Settings): Decimal {
  return settings.tolerance as number as Decimal;
}

/** Settings of a version that this app does not know: they are not to be written over. */
export function isNewerSettings(data: unknown): boolean {
  const version = (data as { version?: unknown } | null | undefined)?.version;
  return typeof version === 'number' && version > 1;
}

/** Is this settings at all; single fields may still fall back. */
export function isSettings(data: unknown): boolean {
  return v.safeParse(schema, data).success;
}
