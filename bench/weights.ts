/**
 * Personal weights and bias, on simulated players: the cost of a fit, its gain on unseen answers, and
 * how often a player without bias is warned of one.
 */

import { cardsOf, isLineCard } from '../src/cards/index.ts';
import { computeChart, HARBOUR_LANE, toDecimal } from '../src/charts/index.ts';
import {
  biasesOf,
  DEFAULT_WEIGHTS,
  type Erred,
  fitWeights,
  lossOf,
  memoryModel,
  PUBLISHED,
  personalWeights,
  type Sequence,
  scoredIn,
  trainingOf,
} from '../src/scheduler/index.ts';
import { weightsAt } from '../src/scheduler/weights/scale.ts';
import { dice } from '../tests/oracle/dice.ts';
import { normal, played, weightsAround } from '../tests/scheduler/players.ts';

export interface FitTime {
  readonly answers: number;
  readonly ms: number;
  /** The same time in passes that sum the log loss of the answers. */
  readonly folds: number;
}

/** Cards and study days that make about 10,000 and 100,000 answers. */
const LOGS = [
  [800, 500],
  [6200, 1000],
] as const;

export function benchFit(): readonly FitTime[] {
  return LOGS.map(([cards, length]) => {
    const sequences = game(memoryModel(weightsAround(3, 0.3)), 1, cards, length);
    const answers = sequences.reduce((sum, { days }) => sum + days.length, 0);
    lossOf(sequences, PUBLISHED);
    const began = performance.now();
    lossOf(sequences, PUBLISHED);
    const folded = performance.now();
    fitWeights(sequences);
    const ms = performance.now() - folded;
    return { answers, ms, folds: ms / (folded - began) };
  });
}

/** What fits gain on a second, unseen history of each player. */
export interface Gains {
  /** Scored answers of a player's log, on average. */
  readonly answers: number;
  readonly players: number;
  /** Mean log loss saved by the fitted weights, adopted or not, and by the true ones; nats. */
  readonly fitted: number;
  readonly best: number;
  /** Players whom the fitted weights helped, adopted or not. */
  readonly helped: number;
  /** Players whose fit was judged better, and those of them whom it harmed. */
  readonly taken: number;
  readonly harmed: number;
}

const PLAYERS = 20;

/** Cards and study days of a player's log. */
const SIZES = [
  [60, 100],
  [100, 150],
  [160, 250],
  [300, 400],
] as const;

/** True weights: spread around the published ones as usual, or the published ones themselves. */
export function benchGains(which: 'around' | 'published'): readonly Gains[] {
  return SIZES.map(([cards, length]) => {
    const one = { answers: 0, fitted: 0, best: 0, helped: 0, taken: 0, harmed: 0 };
    for (let player = 0; player < PLAYERS; player++) {
      const truth = memoryModel(which === 'around' ? someWeights(player) : DEFAULT_WEIGHTS);
      const answered = game(truth, 2 * player + 1, cards, length);
      const fresh = game(truth, 2 * player + 1000, 150, length);
      one.answers += scoredIn(answered) / PLAYERS;
      const result = personalWeights(answered, PUBLISHED);
      if (result.verdict === 'too little') continue;
      const gain = gained(fresh, result.weights);
      one.fitted += gain / PLAYERS;
      one.best += gained(fresh, truth.weights) / PLAYERS;
      if (gain > 0) one.helped += 1;
      if (result.verdict === 'better') one.taken += 1;
      if (result.verdict === 'better' && gain < 0) one.harmed += 1;
    }
    return { ...one, players: PLAYERS };
  });
}

function gained(fresh: readonly Sequence[], weights: readonly number[]): number {
  return (lossOf(fresh, PUBLISHED) - lossOf(fresh, memoryModel(weights))) / scoredIn(fresh);
}

function someWeights(seed: number): readonly number[] {
  const roll = rolled(77 * seed + 5);
  return weightsAt(DEFAULT_WEIGHTS.map(() => 0.7 * normal(roll)));
}

function game(truth: typeof PUBLISHED, seed: number, cards: number, length: number) {
  return trainingOf(played({ truth, seed, cards, length, newADay: 1 + cards / 25 }));
}

/** The share of players without bias who are warned of one. */
export function benchFalseAlarms(): { readonly players: number; readonly part: number } {
  const players = 1000;
  const cards = cardsOf(computeChart(HARBOUR_LANE), toDecimal(0.1))
    .filter(isLineCard)
    .filter(({ kind }) => kind === 'number');
  let told = 0;
  for (let player = 0; player < players; player++) {
    const roll = rolled(7919 * player + 3);
    const spread = [0.05, 0.08, 0.12, 0.3][player % 4] ?? 0;
    const memories = new Map(cards.map(({ id }) => [id, { recent: errorsOf(roll, spread) }]));
    if (biasesOf(memories, cards, 400, toDecimal(0.1)).length > 0) told += 1;
  }
  return { players, part: told / players };
}

/** Up to a dozen errors around 0, rounded as printed, sometimes two a day. */
function errorsOf(roll: () => number, spread: number): readonly Erred[] {
  let day = 100;
  return Array.from({ length: 2 + Math.floor(11 * roll()) }, () => {
    if (roll() < 0.7) day += 1 + Math.floor(9 * roll());
    return { day, errors: [Math.round(10 * spread * normal(roll)) / 10] };
  });
}

/** Dice without their first numbers, which are similar for similar seeds. */
function rolled(seed: number): () => number {
  const roll = dice(seed);
  for (let n = 0; n < 20; n++) roll();
  return roll;
}
