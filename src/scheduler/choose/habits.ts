/** A player's own numbers, as the Memory page tells them. A forecast uses the same. */

import type { Kind } from '../../cards/index.ts';
import type { LogState } from '../log/state.ts';
import type { Tallies } from '../log/trials.ts';
import { kernelOf } from '../memory/kernel.ts';
import { CEILINGS, type Player, playerOf, recordOf, rightChance, sumOf } from './player.ts';

/** A part, 0–1, and the number of answers behind it. */
export interface Share {
  readonly part: number;
  readonly answers: number;
}

/** Answers on later days to cards of a kind that memory says are known for certain. */
export interface Fresh extends Share {
  /** The expected chance that such an answer is right: `part` with slips and guesses. */
  readonly right: number;
}

export interface Habits {
  /** Memory lasts this many times as long as FSRS says: the mean of the chances, geometric. */
  readonly factor: number;
  /** First answers that are right. */
  readonly first: Readonly<Record<Kind, Share>>;
  /** The expected ceiling. */
  readonly fresh: Readonly<Record<Kind, Fresh>>;
  /** The part of days without practice. */
  readonly missed: number;
  /** How far answers differ from every way of fading, 0–1. */
  readonly misfit: number;
  /** All answers to cards that were answered on an earlier day. Only these tell how memory lasts. */
  readonly answers: number;
}

/** @param today days before it are over */
export function habitsOf(log: Pick<LogState, 'trials' | 'model'>, today: number): Habits {
  const { kinds } = log.trials;
  const player = playerOf(log.trials, kernelOf(log.model.weights), today);
  const fresh = recordOf((kind): Fresh => {
    const part = ceilingOf(player, kind);
    return { part, right: rightChance(kind, part), answers: laterIn(kinds.get(kind)) };
  });
  return {
    factor: factorOf(player),
    first: recordOf((kind) => ({
      part: player.first[kind].part,
      answers: kinds.get(kind)?.all[0] ?? 0,
    })),
    fresh,
    missed: player.missed.part,
    misfit: player.misfit,
    answers: sumOf(Object.values(fresh).map(({ answers }) => answers)),
  };
}

function factorOf({ fadings }: Player): number {
  return Math.exp(sumOf(fadings.map(({ chance, factor }) => chance * Math.log(factor))));
}

function ceilingOf({ fadings, ceilings }: Player, kind: Kind): number {
  const given = ceilings[kind].map((chances) =>
    sumOf(chances.map((chance, n) => chance * (CEILINGS[n] as number))),
  );
  return sumOf(fadings.map(({ chance }, n) => chance * (given[n] as number)));
}

function laterIn(tallies: Tallies | undefined): number {
  return sumOf(tallies?.all.slice(1) ?? []);
}
