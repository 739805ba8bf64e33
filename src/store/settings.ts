/** A player's settings, validated. Each field that is not valid falls back to its own default. */

import * as v from 'valibot';
import { KINDS, type Kind } from '../cards/index.ts';
import { type Decimal, HARBOUR_LANE } from '../charts/index.ts';
import { PICTURES } from '../scheduler/index.ts';
import { NAMINGS } from '../table/index.ts';

const oneOf = <const T extends readonly (string | number)[]>(options: T, fallback: T[number]) =>
  v.fallback(v.picklist(options), fallback as never);

/** Ten-thousandths of a diamond: strict, usual, loose. */
export const TOLERANCES = [500, 1000, 2000] as const;
/** The most new lines a day. */
export const NEW_LINES = [0, 2, 4, 6, 8, 12, 20] as const;
/** How often a pattern's lines come up at the player's table. */
export const USES = ['seldom', 'now and then', 'often'] as const;
export type Use = (typeof USES)[number];
/** Between the question and its number in eyes-free practice, seconds. */
export const PAUSES = [2, 3, 4, 6, 8] as const;
/** Minutes a day. */
export const MINUTES = [3, 5, 10, 20] as const;
/** Multiples of the voice's own speed. */
export const VOICE_RATES = [0.8, 1, 1.2] as const;

export const BY_HEART = ['anchors', 'every line'] as const;
/** Practice a day until the day that counts, minutes. */
export const LEAST_MINUTES = 2;
export const MOST_MINUTES = 180;
/** Characters of its name. */
export const LONGEST_OCCASION = 60;

const occasion = v.object({
  name: v.pipe(v.string(), v.maxLength(LONGEST_OCCASION)),
  /** Study-day. */
  day: v.pipe(v.number(), v.integer(), v.minValue(0), v.maxValue(200_000)),
  minutes: v.pipe(v.number(), v.integer(), v.minValue(LEAST_MINUTES), v.maxValue(MOST_MINUTES)),
});

/** A day that counts: a tournament, a league final. */
export type Occasion = Readonly<v.InferOutput<typeof occasion>>;

/** Patterns, and characters of a name; this app writes fewer. */
const MOST_USES = 50;
const LONGEST_NAME = 60;

const schema = v.object({
  version: v.literal(1),
  /** Local hour at which a study-day begins. */
  dayBoundaryHour: v.fallback(v.pipe(v.number(), v.integer(), v.minValue(0), v.maxValue(23)), 4),
  /** The most new lines a day; null for no limit. */
  newLinesADay: v.fallback(v.nullable(v.picklist(NEW_LINES)), null),
  tolerance: oneOf(TOLERANCES, 1000),
  /** All four mirror images of a line, or the printed one only. */
  pictures: oneOf(PICTURES, 'all'),
  meetFirst: v.fallback(v.boolean(), true),
  theme: oneOf(['system', 'light', 'dark'], 'system'),
  units: oneOf(['in', 'cm'], 'in'),
  /** Which point a number on the first cushion names. */
  naming: oneOf(NAMINGS, 'through'),
  /** The kinds asked in the daily quiz, always including the number. */
  kinds: v.fallback(v.pipe(v.unknown(), v.transform(kindsOf)), KINDS),
  /** By the pattern's id; a pattern without an entry has the usual use. */
  use: v.fallback(v.pipe(v.unknown(), v.transform(usesOf)), {}),
  pauseSeconds: oneOf(PAUSES, 4),
  /** How long the player practices a day, minutes. */
  minutes: oneOf(MINUTES, 10),
  /** Do drills show the known numbers. */
  given: v.fallback(v.boolean(), true),
  voiceRate: oneOf(VOICE_RATES, 1),
  /** Id of the chart in use. */
  chart: v.fallback(v.pipe(v.string(), v.maxLength(64)), HARBOUR_LANE.id),
  /** The player's name under revisions, as typed. */
  author: v.fallback(v.pipe(v.string(), v.maxLength(80)), ''),
  /** What is learned by heart: the anchors, between which the player interpolates, or every line. */
  byHeart: oneOf(BY_HEART, 'anchors'),
  /** The day that counts, which is practiced for; null if there is none. */
  occasion: v.fallback(v.nullable(occasion), null),
});

/** In the order of KINDS, without kinds that this version does not know. */
function kindsOf(stored: unknown): readonly Kind[] {
  if (!Array.isArray(stored)) return KINDS;
  return KINDS.filter((kind) => kind === 'number' || stored.includes(kind));
}

/** Every object or function has a property of this name, so no pattern may. */
function isBuiltIn(name: string): boolean {
  return name in Object.prototype || name === 'prototype';
}

/** The entries that fit. */
function usesOf(stored: unknown): Readonly<Record<string, Use>> {
  if (typeof stored !== 'object' || stored === null || Array.isArray(stored)) return {};
  const fitting = Object.entries(stored).filter(
    (entry): entry is [string, Use] =>
      entry[0].length <= LONGEST_NAME && !isBuiltIn(entry[0]) && USES.includes(entry[1]),
  );
  return Object.fromEntries(fitting.slice(0, MOST_USES));
}

export type Settings = Readonly<v.InferOutput<typeof schema>>;

/** The changed fields, or a function that makes them from the present settings. */
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
  voiceRate: 1,
  chart: HARBOUR_LANE.id,
  author: '',
  byHeart: 'anchors',
  occasion: null,
});

/** The defaults if `data` is not settings at all. */
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

/** Are these of a version that this app does not know, which it must not overwrite. */
export function isNewerSettings(data: unknown): boolean {
  const version = (data as { version?: unknown } | null | undefined)?.version;
  return typeof version === 'number' && version > 1;
}

/** Is this settings at all; single fields may still fall back. */
export function isSettings(data: unknown): boolean {
  return v.safeParse(schema, data).success;
}
