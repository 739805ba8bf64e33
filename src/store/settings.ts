/** Reads and validates a player's settings. Each invalid field falls back to its own default. */

import * as v from 'valibot';
import { KINDS, type Kind } from '../cards/index.ts';
import { type Decimal, HARBOUR_LANE } from '../charts/index.ts';
import { PICTURES } from '../scheduler/index.ts';
import { NAMINGS } from '../table/index.ts';

const oneOf = <const T extends readonly (string | number)[]>(options: T, fallback: T[number]) =>
  v.fallback(v.picklist(options), fallback as never);

/** How far off an answer may be: strict, usual, and loose, in ten-thousandths of a diamond. */
export const TOLERANCES = [500, 1000, 2000] as const;
/** The most new lines a day. */
export const NEW_LINES = [0, 2, 4, 6, 8, 12, 20] as const;
/** How often a pattern's lines come up at the player's table. */
export const USES = ['seldom', 'now and then', 'often'] as const;
export type Use = (typeof USES)[number];
/** How long eyes-free practice pauses between the question and its number, in seconds. */
export const PAUSES = [2, 3, 4, 6, 8] as const;
/** How long the player practices a day, in minutes. */
export const MINUTES = [3, 5, 10, 20] as const;
/** How fast the voice may speak, as multiples of its own speed. */
export const VOICE_RATES = [0.8, 1, 1.2] as const;

export const BY_HEART = ['anchors', 'every line'] as const;
/** The least and the most practice per day until the day that counts, in minutes. */
export const LEAST_MINUTES = 2;
export const MOST_MINUTES = 180;
/** The longest name of the day that counts, in characters. */
export const LONGEST_OCCASION = 60;

const occasion = v.object({
  name: v.pipe(v.string(), v.maxLength(LONGEST_OCCASION)),
  /** The study day on which the occasion takes place. */
  day: v.pipe(v.number(), v.integer(), v.minValue(0), v.maxValue(200_000)),
  minutes: v.pipe(v.number(), v.integer(), v.minValue(LEAST_MINUTES), v.maxValue(MOST_MINUTES)),
});

/** A day that counts, such as a tournament or a league final. */
export type Occasion = Readonly<v.InferOutput<typeof occasion>>;

/** The most patterns in `use`, and the most characters in a pattern's id. The app writes fewer. */
const MOST_USES = 50;
const LONGEST_NAME = 60;

const schema = v.object({
  version: v.literal(1),
  /** The local hour at which a study day begins. */
  dayBoundaryHour: v.fallback(v.pipe(v.number(), v.integer(), v.minValue(0), v.maxValue(23)), 4),
  /** The most new lines a day; null for no limit. */
  newLinesADay: v.fallback(v.nullable(v.picklist(NEW_LINES)), null),
  tolerance: oneOf(TOLERANCES, 1000),
  /** Whether to ask all four mirror images of a line or only the printed one. */
  pictures: oneOf(PICTURES, 'all'),
  meetFirst: v.fallback(v.boolean(), true),
  theme: oneOf(['system', 'light', 'dark'], 'system'),
  units: oneOf(['in', 'cm'], 'in'),
  /** Which point a number on the first cushion names. */
  naming: oneOf(NAMINGS, 'through'),
  /** The kinds of questions in the daily quiz. They always include the number. */
  kinds: v.fallback(v.pipe(v.unknown(), v.transform(kindsOf)), KINDS),
  /**
   * How often each pattern comes up, by pattern id. One without an entry comes up as often as usual.
   */
  use: v.fallback(v.pipe(v.unknown(), v.transform(usesOf)), {}),
  pauseSeconds: oneOf(PAUSES, 4),
  /** How long the player practices a day, in minutes. */
  minutes: oneOf(MINUTES, 10),
  /** Whether drills show the known numbers. */
  given: v.fallback(v.boolean(), true),
  /** Whether a drill's first answer of each skill counts as an answer to its card. */
  drillsCount: v.fallback(v.boolean(), true),
  voiceRate: oneOf(VOICE_RATES, 1),
  /** The id of the chart in use. */
  chart: v.fallback(v.pipe(v.string(), v.maxLength(64)), HARBOUR_LANE.id),
  /** The name that the player signs revisions with, as typed. */
  author: v.fallback(v.pipe(v.string(), v.maxLength(80)), ''),
  /**
   * What the player learns by heart: every line, or only the anchors, which are the lines that the
   * player interpolates between.
   */
  byHeart: oneOf(BY_HEART, 'anchors'),
  /** The day that counts, which is practiced for; null if there is none. */
  occasion: v.fallback(v.nullable(occasion), null),
});

/** Returns the stored kinds in the order of KINDS, without kinds that this version does not know. */
function kindsOf(stored: unknown): readonly Kind[] {
  if (!Array.isArray(stored)) return KINDS;
  return KINDS.filter((kind) => kind === 'number' || stored.includes(kind));
}

/**
 * Returns whether every object or function has a property of this name. No pattern may have such an
 * id.
 */
function isBuiltIn(name: string): boolean {
  return name in Object.prototype || name === 'prototype';
}

/** Returns the valid entries of the stored object. */
function usesOf(stored: unknown): Readonly<Record<string, Use>> {
  if (typeof stored !== 'object' || stored === null || Array.isArray(stored)) return {};
  const fitting = Object.entries(stored).filter(
    (entry): entry is [string, Use] =>
      entry[0].length <= LONGEST_NAME && !isBuiltIn(entry[0]) && USES.includes(entry[1]),
  );
  return Object.fromEntries(fitting.slice(0, MOST_USES));
}

export type Settings = Readonly<v.InferOutput<typeof schema>>;

/** The changed fields, or a function that computes them from the current settings. */
export type SettingsChange = Partial<Settings> | ((now: Settings) => Partial<Settings>);

export const DEFAULT_SETTINGS: Settings = v.parse(schema, {
  version: 1,
  dayBoundaryHour: 4,
  newLinesADay: null,
  tolerance: 1000,
  pictures: 'all',
  meetFirst: true,
  theme: 'system',
  units: 'in',
  naming: 'through',
  kinds: KINDS,
  use: {},
  pauseSeconds: 4,
  minutes: 10,
  given: true,
  drillsCount: true,
  voiceRate: 1,
  chart: HARBOUR_LANE.id,
  author: '',
  byHeart: 'anchors',
  occasion: null,
});

/** Returns the settings; the defaults if `data` is not settings at all. */
export function parseSettings(data: unknown): Settings {
  const result = v.safeParse(schema, withoutOldNames(data));
  return result.success ? result.output : DEFAULT_SETTINGS;
}

/** Older settings had a number of new lines a day for everyone. Only none at all was surely a wish. */
function withoutOldNames(data: unknown): unknown {
  const old = data as { newLinesPerDay?: unknown; newLinesADay?: unknown } | null | undefined;
  const none = old?.newLinesPerDay === 0 && old.newLinesADay === undefined;
  return none ? { ...old, newLinesADay: 0 } : data;
}

export function withChange(stored: unknown, change: SettingsChange): Settings {
  const now = parseSettings(stored);
  return parseSettings({ ...now, ...(typeof change === 'function' ? change(now) : change) });
}

export function toleranceOf(settings: Settings): Decimal {
  return settings.tolerance as number as Decimal;
}

/** Returns whether a newer version wrote these settings. This version must not overwrite them. */
export function isNewerSettings(data: unknown): boolean {
  const version = (data as { version?: unknown } | null | undefined)?.version;
  return typeof version === 'number' && version > 1;
}

/** Returns whether this is settings at all. Single fields may still fall back to their defaults. */
export function isSettings(data: unknown): boolean {
  return v.safeParse(schema, data).success;
}
