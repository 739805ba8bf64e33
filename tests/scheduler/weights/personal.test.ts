import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { OUTCOMES } from '../../../src/cards/index.ts';
import {
  areWeights,
  LEAST_ANSWERS,
  memoryModel,
  PUBLISHED,
  personalWeights,
  scoredIn,
  trainingOf,
} from '../../../src/scheduler/index.ts';
import { isBetter } from '../../../src/scheduler/weights/personal.ts';
import { dice } from '../../oracle/dice.ts';
import { normal, played, shuffledCards, weightsAround } from '../players.ts';

describe('personal weights', () => {
  it('need at least so many answers', () => {
    expect(personalWeights([], PUBLISHED)).toEqual({
      verdict: 'too little',
      answers: 0,
      needed: LEAST_ANSWERS,
    });
  });

  it('say how many answers are still needed', () => {
    const answers = trainingOf(played({ truth: PUBLISHED, seed: 2, cards: 20, length: 40 }));
    const result = personalWeights(answers, PUBLISHED);
    const there = scoredIn(answers);
    expect(there).toBeLessThan(LEAST_ANSWERS);
    expect(result).toEqual({
      verdict: 'too little',
      answers: there,
      needed: LEAST_ANSWERS - there,
    });
  });

  // A player who remembers four times as long as published, and gains more each time.
  it('are found better for a player who differs, on answers they have not seen', () => {
    const truth = memoryModel(
      PUBLISHED.weights.map((weight, n) => (n < 4 ? 4 * weight : n === 8 ? weight + 0.8 : weight)),
    );
    const answers = trainingOf(played({ truth, seed: 2, cards: 400, length: 250, newADay: 9 }));
    const result = personalWeights(answers, PUBLISHED);
    if (result.verdict !== 'better') throw new Error(result.verdict);
    expect(areWeights(result.weights)).toBe(true);
    expect(result.after.logLoss).toBeLessThan(result.before.logLoss ?? 0);
    expect(result.before.answers).toBe(result.answers);
    expect(result.after.answers).toBe(result.answers);
    expect(result.answers + result.fittedTo).toBe(scoredIn(answers));
    const gap = ({ predicted, right }: typeof result.after) =>
      Math.abs((predicted ?? 0) - (right ?? 1));
    expect(gap(result.after)).toBeLessThan(gap(result.before));
  });

  it('depend neither on the cards’ names nor on chance', () => {
    const steps = played({ truth: PUBLISHED, seed: 3, cards: 80, length: 120, newADay: 5 });
    const first = personalWeights(trainingOf(steps), PUBLISHED);
    expect(first.verdict).not.toBe('too little');
    expect(personalWeights(trainingOf(steps), PUBLISHED)).toEqual(first);
    const other = personalWeights(trainingOf(shuffledCards(steps, 7)), PUBLISHED);
    if (first.verdict === 'too little' || other.verdict === 'too little')
      throw new Error('too little');
    expect(other.weights).toEqual(first.weights);
    expect(other.verdict).toBe(first.verdict);
  });

  // Law: better only if the later answers are predicted better, which some of these players' are.
  it('are never called better without a gain on the later answers', () => {
    const verdicts = new Set<string>();
    for (let player = 0; player < 24; player++) {
      const truth = memoryModel(weightsAround(player, 0.2 * (player % 4)));
      const steps = played({ truth, seed: player, cards: 110, length: 130, newADay: 6 });
      const result = personalWeights(trainingOf(steps), PUBLISHED);
      verdicts.add(result.verdict);
      if (result.verdict === 'better')
        expect(result.after.logLoss).toBeLessThan(result.before.logLoss ?? 0);
    }
    expect(verdicts).toContain('better');
    expect(verdicts).toContain('no better');
  });

  // Law, over logs of any answers: each answer is either fitted to or tested.
  it('count each answer once', () => {
    const cardArb = fc.array(fc.record({ days: fc.nat(9), grade: fc.nat(3) }), {
      minLength: 10,
      maxLength: 50,
    });
    fc.assert(
      fc.property(fc.array(cardArb, { minLength: 12, maxLength: 25 }), (cards) => {
        const sequences = cards.map((items, n) => {
          let on = 0;
          const days = items.map((item, k) => (k === 0 ? 0 : item.days));
          return {
            card: `card ${n}`,
            days,
            on: days.map((passed) => (on += passed)),
            outcomes: items.map(({ grade }) => OUTCOMES[grade] ?? 'off'),
          };
        });
        const result = personalWeights(sequences, PUBLISHED);
        const all = scoredIn(sequences);
        if (result.verdict === 'too little') {
          expect(result.answers).toBe(all);
          expect(result.needed).toBeGreaterThan(0);
          return;
        }
        expect(all).toBeGreaterThanOrEqual(LEAST_ANSWERS);
        expect(result.answers + result.fittedTo).toBe(all);
        if (result.verdict === 'better')
          expect(result.after.logLoss).toBeLessThan(result.before.logLoss ?? 0);
      }),
      { numRuns: 20 },
    );
  });

  it('are not called better when they are those in use', () => {
    const answers = trainingOf(
      played({ truth: PUBLISHED, seed: 5, cards: 80, length: 120, newADay: 5 }),
    );
    const first = personalWeights(answers, PUBLISHED);
    if (first.verdict === 'too little') throw new Error('too little');
    const again = personalWeights(answers, memoryModel(first.weights));
    expect(again.verdict).toBe('no better');
  });
});

describe('the test of a gain', () => {
  it('finds no gain where there is none', () => {
    expect(isBetter([])).toBe(false);
    expect(isBetter([1])).toBe(false);
    expect(isBetter([0, 0, 0])).toBe(false);
    expect(isBetter([-1, -2, -1.5])).toBe(false);
  });

  // Student's t at 5 %, one-sided, 9 degrees of freedom: 1.833 (printed tables).
  it('draws the line where Student does', () => {
    const spread = [-3, -2, -1, -1, 0, 0, 1, 1, 2, 3];
    const error = Math.sqrt(spread.reduce((sum, one) => sum + one * one, 0) / 9 / 10);
    expect(isBetter(spread.map((one) => one + 1.82 * error))).toBe(false);
    expect(isBetter(spread.map((one) => one + 1.845 * error))).toBe(true);
  });

  // 5 % of 4000 are 200; ± 4 standard deviations of that count (13.8).
  it('is wrong one time in twenty where there is no gain', () => {
    const roll = dice(12);
    let wrong = 0;
    for (let n = 0; n < 4000; n++)
      if (isBetter(Array.from({ length: 20 }, () => normal(roll)))) wrong += 1;
    expect(wrong).toBeGreaterThan(144);
    expect(wrong).toBeLessThan(256);
  });
});
