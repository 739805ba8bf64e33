/** Simulated players: cards asked when they fall due, answered by a memory of known weights. */

import { OUTCOMES, type Outcome } from '../../src/cards/index.ts';
import {
  clippedWeights,
  DEFAULT_WEIGHTS,
  type Memory,
  type MemoryModel,
  PUBLISHED,
  type Step,
} from '../../src/scheduler/index.ts';
import { dice } from '../oracle/dice.ts';

export interface Playing {
  /** The player's true memory. */
  readonly truth: MemoryModel;
  readonly seed: number;
  readonly cards: number;
  /** Study-days of the whole history. */
  readonly length: number;
  /** So many cards are asked for the first time a day. */
  readonly newADay?: number;
  /** The part of days that the player misses. */
  readonly missed?: number;
  readonly target?: number;
}

/** Of right answers: rattled, pocketed, dead center; an assumption of ours. */
const RIGHT = [0.15, 0.7, 0.15] as const;

/**
 * The steps of a player, in order: cards due at the target by the published weights, each repeated
 * on the same day until it is right, at most three times. A first answer is right three times in
 * ten (an assumption of ours).
 */
export function played(playing: Playing): readonly Step[] {
  const { truth, seed, cards, length, newADay = 4, missed = 0.15, target = 0.9 } = playing;
  const roll = dice(seed);
  for (let n = 0; n < 10; n++) roll();
  const known = new Map<string, { felt: Memory; kept: Memory; day: number; due: number }>();
  const steps: Step[] = [];
  for (let day = 20_000; day < 20_000 + length; day++) {
    if (roll() < missed) continue;
    const due = [...known].filter(([, one]) => one.due <= day).map(([card]) => card);
    const begun = known.size;
    for (let n = begun; n < Math.min(cards, begun + newADay); n++) due.push(`line ${n}`);
    for (const card of due) {
      for (let turn = 0; turn < 3; turn++) {
        const before = known.get(card) ?? null;
        const days = before ? day - before.day : 0;
        const recall = before ? (days > 0 ? truth.recall(before.felt, days) : 0.9) : 0.3;
        const outcome = answerOf(roll() < recall, roll());
        const felt = truth.remember(before?.felt ?? null, days, outcome);
        const kept = PUBLISHED.remember(before?.kept ?? null, days, outcome);
        const errors = outcome === 'off' ? [0.3] : [0];
        steps.push({
          card,
          kind: 'number',
          day,
          days,
          before: before?.kept ?? null,
          outcome,
          how: 'asked',
          errors,
        });
        known.set(card, { felt, kept, day, due: day + PUBLISHED.interval(kept, target) });
        if (outcome !== 'off') break;
      }
    }
  }
  return steps;
}

function answerOf(right: boolean, roll: number): Outcome {
  if (!right) return 'off';
  const [rattled, pocketed] = RIGHT;
  if (roll < rattled) return 'rattled';
  return roll < rattled + pocketed ? 'pocketed' : (OUTCOMES[3] as Outcome);
}

/** The published weights, each times a factor whose logarithm has this standard deviation. */
export function weightsAround(seed: number, spread: number): readonly number[] {
  const roll = dice(seed);
  for (let n = 0; n < 10; n++) roll();
  return clippedWeights(DEFAULT_WEIGHTS.map((weight) => weight * Math.exp(spread * normal(roll))));
}

/** A standard normal number (Box & Muller 1958). */
export function normal(roll: () => number): number {
  const size = Math.sqrt(-2 * Math.log(1 - roll()));
  return size * Math.cos(2 * Math.PI * roll());
}

/** The same steps with other names of the cards, and the cards one after the other. */
export function shuffledCards(steps: readonly Step[], seed: number): readonly Step[] {
  const roll = dice(seed);
  const names = new Map<string, string>();
  const byCard = new Map<string, Step[]>();
  for (const step of steps) {
    const name = names.get(step.card) ?? `card ${roll()}`;
    names.set(step.card, name);
    byCard.set(name, [...(byCard.get(name) ?? []), { ...step, card: name }]);
  }
  return [...byCard].sort(([a], [b]) => (a < b ? -1 : 1)).flatMap(([, own]) => own);
}
