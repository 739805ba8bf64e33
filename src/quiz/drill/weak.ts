/** Finds where a player's drills go wrong: by pattern, kind and zone. */

import { type Kind, ZONES, type Zone } from '../../cards/index.ts';
import { isPatternId, type PatternId } from '../../charts/index.ts';
import type { Drilled } from '../../scheduler/index.ts';
import type { Run } from './run.ts';

export interface WeakZone {
  readonly pattern: PatternId;
  readonly kind: Kind;
  readonly zone: Zone;
  readonly answers: number;
  /** Root mean square of the errors, in tolerances. An error of 1 is as large as the tolerance. */
  readonly rms: number;
}

const LATEST = 10;
const LEAST_ANSWERS = 3;
/**
 * The error, in tolerances, that stands in for "show me" and for a wrong verdict, which have no
 * error to measure.
 */
const NO_NUMBER = 2;

/**
 * Returns the weak zones in the last ten drills and today's drills, weakest first. A zone without
 * errors is left out.
 * @param runs all runs, oldest first
 */
export function weakZones(runs: readonly Run[], today: number): readonly WeakZone[] {
  const taken = runs.filter((run, n) => n >= runs.length - LATEST || run.day === today);
  const groups = new Map<string, Drilled[]>();
  for (const question of taken.flatMap(({ questions }) => questions)) {
    const key = `${question.pattern}/${question.kind}/${question.zone}`;
    const group = groups.get(key);
    if (group) group.push(question);
    else groups.set(key, [question]);
  }
  return [...groups.values()]
    .filter((group) => group.length >= LEAST_ANSWERS)
    .flatMap(weakOf)
    .filter(({ rms }) => rms > 0)
    .sort((a, b) => b.rms - a.rms);
}

/**
 * Returns the weak zone for a group of answers; empty if this version does not know the pattern or
 * the zone.
 */
function weakOf(group: readonly Drilled[]): readonly WeakZone[] {
  const { pattern, kind, zone } = group[0] as Drilled;
  const known = ZONES.find((one) => one === zone);
  if (!isPatternId(pattern) || !known) return [];
  const squares = group.map(squareOf);
  const rms = Math.sqrt(squares.reduce((sum, square) => sum + square, 0) / group.length);
  return [{ pattern, kind, zone: known, answers: group.length, rms }];
}

/**
 * Returns the squared error of an answer, in tolerances; for two fields, the mean of their squares.
 */
function squareOf({ errors, tolerance, outcome }: Drilled): number {
  if (!errors || errors.length === 0) return NO_NUMBER ** 2;
  if (tolerance === 0) return outcome === 'off' ? NO_NUMBER ** 2 : 0;
  return errors.reduce((sum, error) => sum + (error / tolerance) ** 2, 0) / errors.length;
}
