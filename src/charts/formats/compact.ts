/**
 * Writes and reads the short form of a chart document, for links: lists without field names. Starts
 * and numbers are written as differences from the line before, in the largest unit that divides
 * them all.
 */

import * as v from 'valibot';
import { type Condition, SPEEDS } from '../../table/index.ts';
import { BASES, type ChartDocument, PRIORITIES, type Revision } from '../document/document.ts';
import { MOST_LINES } from '../document/limits.ts';
import type { PatternId } from '../document/patterns.ts';
import { type ChartRefusal, type ParsedChart, readChart } from '../document/read.ts';
import { type Column, differences, type Entry, runsOf, startsIn, sums, unitOf } from './columns.ts';

/**
 * The letter of each pattern. A letter never changes, so that old links stay readable. A new
 * pattern takes the next letter.
 */
const LETTERS: Readonly<Record<PatternId, string>> = {
  'foot-to-side': 'a',
  'foot-to-far-corner': 'b',
  'cross-side': 'c',
  'cross-corner': 'd',
  'long-rail-to-side': 'e',
  'long-rail-to-far-corner': 'f',
  'up-and-back': 'g',
  'short-long-to-side': 'h',
  'short-long-to-corner': 'i',
  'long-short-to-side': 'j',
  'long-short-to-corner': 'k',
  'three-cushion': 'l',
};
const BY_LETTER = new Map(Object.entries(LETTERS).map(([id, letter]) => [letter, id]));

const column = v.pipe(v.array(v.nullable(v.number())), v.maxLength(MOST_LINES));
const words = v.pipe(v.array(v.string()), v.maxLength(MOST_LINES));
/**
 * Consecutive entries of one pattern: the pattern's letter, the entries' starts, and a column of
 * their values.
 */
const run = <T extends v.GenericSchema<unknown, readonly unknown[]>>(values: T) =>
  v.pipe(
    v.strictTuple([v.string(), column, values]),
    v.check(([, starts, { length }]) => length === starts.length),
  );
const measuredRun = v.pipe(
  v.strictTuple([v.string(), column, column, column, column]),
  v.check(([, starts, ...rest]) => rest.every(({ length }) => length === starts.length)),
);
const revisionSchema = v.strictTuple([
  v.strictTuple([v.number(), v.string(), v.string(), v.string()]),
  v.array(v.number()),
  v.pipe(v.string(), v.maxLength(BY_LETTER.size)),
  v.number(),
  v.array(measuredRun),
  v.array(run(column)),
  v.array(run(words)),
  v.nullable(v.strictTuple([v.array(v.string()), v.array(run(column))])),
]);
const schema = v.strictTuple([
  v.string(),
  v.string(),
  v.string(),
  v.strictTuple([v.number(), v.number(), v.number()]),
  v.array(v.string()),
  v.array(revisionSchema),
]);
type ShortRevision = v.InferOutput<typeof revisionSchema>;

export function formatCompact(document: ChartDocument): string {
  const { id, name, table, startStep, printStep, basis, earlier, revisions } = document;
  const choices = [startStep, printStep, BASES.indexOf(basis)];
  return JSON.stringify([id, name, table, choices, earlier, revisions.map(shortRevision)]);
}

function shortRevision(revision: Revision): unknown {
  const { number, date, author, why, patterns, measured, priorities, remarks, levels } = revision;
  const unit = unitOf(revision);
  const short = <T extends Entry, C>(entries: readonly T[], valueIn: (one: T) => C) =>
    runsOf(entries).map((one) => [letterOf(one), startsIn(one, unit), one.map(valueIn)]);
  return [
    [number, date, author, why],
    shortCondition(revision.condition),
    patterns.map((id) => LETTERS[id]).join(''),
    unit,
    runsOf(measured).map((one) => [
      letterOf(one),
      startsIn(one, unit),
      ...SPEEDS.map((speed) =>
        differences(
          one.map((line) => line[speed] ?? null),
          unit,
        ),
      ),
    ]),
    short(priorities, ({ priority }) => PRIORITIES.indexOf(priority)),
    short(remarks, ({ text }) => text),
    levels && [levels.names, short(levels.lines, ({ level }) => level)],
  ];
}

function shortCondition({ speeds, ...rest }: Condition): readonly number[] {
  const { restitution, noseFriction, slideFriction, rollFriction, spinDecay } = rest;
  const { soft, medium, firm } = speeds;
  return [restitution, noseFriction, slideFriction, rollFriction, spinDecay, soft, medium, firm];
}

function letterOf([{ pattern }]: readonly [Entry, ...Entry[]]): string {
  return LETTERS[pattern];
}

const DAMAGED: ChartRefusal = { ok: false, code: 'damaged', say: 'is damaged' };

/** Reads a document from its short form and validates it. */
export function readCompact(text: string): ParsedChart {
  const result = v.safeParse(schema, jsonOf(text), { abortEarly: true });
  if (!result.success) return DAMAGED;
  const [id, name, table, [startStep, printStep, basis], earlier, revisions] = result.output;
  return readChart({
    kind: 'throughline-chart',
    version: 2,
    ...{ id, name, table, startStep, printStep, basis: BASES[basis], earlier },
    revisions: revisions.map(longRevision),
  });
}

function jsonOf(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}

/** Expands a revision without validating it; `readChart` refuses what is missing or wrong. */
function longRevision(short: ShortRevision): unknown {
  const [[number, date, author, why], condition, letters, unit, measured, ...rest] = short;
  const [priorities, remarks, levels] = rest;
  return {
    ...{ number, date, author, why, condition: longCondition(condition) },
    patterns: [...letters].map((letter) => BY_LETTER.get(letter)),
    measured: measured.flatMap((one) => longMeasured(one, unit)),
    priorities: long(priorities, unit, (rank) => ({ priority: PRIORITIES[rank ?? -1] })),
    remarks: long(remarks, unit, (text) => ({ text })),
    levels: levels && {
      names: levels[0],
      lines: long(levels[1], unit, (level) => ({ level })),
    },
  };
}

function longCondition(short: readonly number[]): unknown {
  const [restitution, noseFriction, slideFriction, rollFriction, spinDecay, ...rest] = short;
  const [soft, medium, firm] = rest;
  return {
    ...{ restitution, noseFriction, slideFriction, rollFriction, spinDecay },
    speeds: { soft, medium, firm },
  };
}

function long<C>(
  short: readonly (readonly [string, Column, readonly C[]])[],
  unit: number,
  fieldOf: (value: C) => object,
): readonly object[] {
  return short.flatMap(([letter, starts, values]) =>
    placesOf(letter, starts, unit).map((place, n) => ({ ...place, ...fieldOf(values[n] as C) })),
  );
}

function placesOf(letter: string, starts: Column, unit: number) {
  const pattern = BY_LETTER.get(letter);
  return sums(starts, unit).map((start) => ({ pattern, start }));
}

function longMeasured(
  [letter, starts, ...columns]: v.InferOutput<typeof measuredRun>,
  unit: number,
): readonly object[] {
  const whole = columns.map((steps) => sums(steps, unit));
  return placesOf(letter, starts, unit).map((place, n) => {
    const numbers = SPEEDS.map((speed, which) => [speed, whole[which]?.[n] ?? null] as const);
    return { ...place, ...Object.fromEntries(numbers.filter(([, number]) => number !== null)) };
  });
}
