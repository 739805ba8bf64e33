/** Sums over simulated players, with bootstrap intervals (Efron 1979). */

import { createDice } from '../src/cards/index.ts';
import type { Season } from './learners-season.ts';

export interface Trial {
  /** Answers a day, ascending. */
  readonly budgets: readonly number[];
  /** By budget and player. */
  readonly seasons: readonly (readonly Season[])[];
}

/** A value with its 95 % interval. */
export interface Band {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

const RESAMPLES = 400;

/** @param of the value for a list of players by number; a player may occur more than once */
export function bandOf(players: number, of: (who: readonly number[]) => number): Band {
  const { next } = createDice(players);
  const all = Array.from({ length: players }, (_, n) => n);
  const values = Array.from({ length: RESAMPLES }, () =>
    of(all.map(() => Math.floor(next() * players))),
  ).sort((a, b) => a - b);
  const at = (part: number) => values[Math.round(part * (RESAMPLES - 1))] ?? Number.NaN;
  return { value: of(all), low: at(0.025), high: at(0.975) };
}

export function heldPer100({ answers, held }: Season): number {
  return (100 * held) / answers;
}

/**
 * The fewest answers any trial needs for so many lines known, interpolated linearly between budgets.
 * Below the first budget the line starts at nothing known for no answer, which overstates the answers.
 * Infinite if no trial reaches so many lines.
 */
export function answersFor(trials: readonly Trial[], held: number, who: readonly number[]): number {
  return Math.min(...trials.map((trial) => answersOf(trial, held, who)));
}

function answersOf({ seasons }: Trial, held: number, who: readonly number[]): number {
  let before: Season = { answers: 0, held: 0 };
  for (const all of seasons) {
    let [answers, sum] = [0, 0];
    for (const player of who) {
      const season = all[player] as Season;
      answers += season.answers / who.length;
      sum += season.held / who.length;
    }
    if (sum >= held) {
      const part = sum > before.held ? (held - before.held) / (sum - before.held) : 1;
      return before.answers + Math.max(0, part) * (answers - before.answers);
    }
    before = { answers, held: sum };
  }
  return Number.POSITIVE_INFINITY;
}
