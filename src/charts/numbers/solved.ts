/**
 * Solved numbers of a chart's patterns, kept so that they need not be solved again. They are kept
 * with a key made of the table and condition, so that they are not used for a different table.
 */

import {
  type LineNumbers,
  type Setting,
  type SolvedLine,
  SPEEDS,
  type Speed,
  solveStarts,
  UNREACHABLE,
  type Unreachable,
} from '../../table/index.ts';
import { type Decimal, toNumber } from '../document/decimal.ts';
import { digestOfValue } from '../document/digest.ts';
import { type ChartDocument, lastRevision, settingOf } from '../document/document.ts';
import { type PatternId, patternOf } from '../document/patterns.ts';
import { startsOf } from '../document/starts.ts';
import { bySpeed } from './by-speed.ts';

/** A number through the sight, in diamonds, or the reason why there is none. */
export type Aim =
  | { readonly aim: number; readonly why: null }
  | { readonly aim: null; readonly why: Unreachable };
export type Aims = Readonly<Record<Speed, Aim>>;

export interface Solved {
  /** The `solvedFrom` of the charts that have these numbers. */
  readonly from: string;
  /** The aims of each pattern, for each start in order. */
  readonly columns: ReadonlyMap<PatternId, readonly Aims[]>;
}

/**
 * Returns a key of everything that determines the computed numbers of a document's last revision.
 */
export function solvedFrom(document: ChartDocument): string {
  const { table, startStep } = document;
  return digestOfValue([table, startStep, lastRevision(document).condition]);
}

/** How many units there are in a diamond. One unit is about 30 nanometers. */
const UNIT = 1e7;

/**
 * Returns the aims at some of a pattern's starts, in order, rounded to ten-millionths of a diamond.
 * @param starts start diamonds
 */
export function solveAims(
  setting: Setting,
  id: PatternId,
  starts: readonly Decimal[],
): readonly Aims[] {
  const pattern = patternOf(id);
  return solveStarts(setting, pattern, starts.map(toNumber), pattern.stroke).map(aimsOf);
}

function aimsOf(numbers: LineNumbers): Aims {
  return bySpeed((speed) => aimOf(numbers[speed]));
}

/** Returns a line's aim, rounded to ten-millionths of a diamond. */
export function aimOf({ aim, why }: SolvedLine): Aim {
  return aim === null ? { aim, why } : { aim: Math.round(aim * UNIT) / UNIT, why };
}

/** Returns the numbers of all patterns of a document's last revision. */
export function solvedOf(document: ChartDocument): Solved {
  const setting = settingOf(document);
  const columns = lastRevision(document).patterns.map(
    (id) => [id, solveAims(setting, id, startsOf(document, patternOf(id)))] as const,
  );
  return { from: solvedFrom(document), columns: new Map(columns) };
}

/**
 * Solved numbers as plain data for a file. Each pattern's aims are in whole units, start by start,
 * in the order soft, medium, firm. A negative entry stands for a reason in `UNREACHABLE`: −1 is the
 * first, −2 the second.
 */
export interface PackedSolved {
  readonly from: string;
  readonly columns: Readonly<Record<string, readonly number[]>>;
}

export function packSolved({ from, columns }: Solved): PackedSolved {
  const packed = [...columns].map(([id, column]) => [id, column.flatMap(packedAims)]);
  return { from, columns: Object.fromEntries(packed) };
}

function packedAims(aims: Aims): readonly number[] {
  return SPEEDS.map((speed) => {
    const { aim, why } = aims[speed];
    return aim === null ? -1 - UNREACHABLE.indexOf(why) : Math.round(aim * UNIT);
  });
}

export function unpackSolved({ from, columns }: PackedSolved): Solved {
  const unpacked = Object.entries(columns).map(
    ([id, entries]) => [id as PatternId, inThrees(entries.map(unpackedAim))] as const,
  );
  return { from, columns: new Map(unpacked) };
}

function unpackedAim(entry: number): Aim {
  if (entry >= 0) return { aim: entry / UNIT, why: null };
  return { aim: null, why: UNREACHABLE[-1 - entry] as Unreachable };
}

function inThrees(aims: readonly Aim[]): readonly Aims[] {
  return Array.from({ length: aims.length / 3 }, (_, n) => {
    const [soft, medium, firm] = aims.slice(3 * n, 3 * n + 3) as [Aim, Aim, Aim];
    return { soft, medium, firm };
  });
}
