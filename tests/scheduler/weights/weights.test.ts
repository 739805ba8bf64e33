import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { OUTCOMES } from '../../../src/cards/index.ts';
import {
  areWeights,
  DEFAULT_WEIGHTS,
  fitWeights,
  foldLog,
  lossOf,
  type Memory,
  memoryModel,
  PUBLISHED,
  type Sequence,
  scoredIn,
  trainingOf,
} from '../../../src/scheduler/index.ts';
import { placeOf, weightsAt } from '../../../src/scheduler/weights/scale.ts';
import { answer } from '../making.ts';
import { played, shuffledCards, weightsAround } from '../players.ts';
import { oracleLoss, oracleStates, oracleWeights } from './oracle.ts';

/** Weights of other players, each off by a factor of about e^±0.3. */
const OTHERS = [1, 2, 3].map((seed) => weightsAround(seed, 0.3));

const historyArb = fc.array(
  fc.record({ days: fc.oneof(fc.constant(0), fc.integer({ min: 1, max: 200 })), grade: fc.nat(3) }),
  { minLength: 1, maxLength: 12 },
);

const asAnswers = (items: readonly { readonly days: number; readonly grade: number }[]) =>
  items
    .map(({ days, grade }) => ({ days, outcome: OUTCOMES[grade] ?? 'off' }))
    // Implementations of FSRS-6 differ in a same-day second grade: whether it may lower stability.
    .filter(({ days, outcome }, n) => n === 0 || days > 0 || outcome !== 'rattled');

describe('memory against an independent implementation', () => {
  // The oracle has single precision: 24 bits, over a dozen steps.
  it.each([DEFAULT_WEIGHTS, ...OTHERS])(
    'has the same states within 1e-5, weights %#',
    (...weights) => {
      const { remember } = memoryModel(weights);
      fc.assert(
        fc.property(historyArb, (items) => {
          const answers = asAnswers(items);
          let memory: Memory | null = null;
          const states = answers.map(({ days, outcome }, n) => {
            memory = remember(memory, n === 0 ? 0 : days, outcome);
            return memory;
          });
          for (const [n, state] of oracleStates(weights, answers).entries()) {
            expect(apart(states[n]?.stability, state.stability)).toBeLessThan(1e-5);
            expect(apart(states[n]?.difficulty, state.difficulty)).toBeLessThan(1e-5);
          }
        }),
        { numRuns: 300 },
      );
    },
  );

  it('has the same states in the fold of a log', () => {
    fc.assert(
      fc.property(historyArb, (items) => {
        const answers = asAnswers(items);
        let day = 100;
        const events = answers.map(({ days, outcome }, seq) => {
          day += seq === 0 ? 0 : days;
          return { ...answer(seq, 'p/a', day), outcome };
        });
        const memory = foldLog(events).memories.get('p/a');
        const state = oracleStates(DEFAULT_WEIGHTS, answers).at(-1);
        expect(apart(memory?.stability, state?.stability)).toBeLessThan(1e-5);
        expect(apart(memory?.difficulty, state?.difficulty)).toBeLessThan(1e-5);
      }),
      { numRuns: 100 },
    );
  });

  it.each([DEFAULT_WEIGHTS, ...OTHERS])(
    'has the same log loss within 1e-6, weights %#',
    (...weights) => {
      const answers = gameOf(1, 40, 60).filter(hasNoSameDayRattled);
      expect(scoredIn(answers)).toBeGreaterThan(100);
      const ours = lossOf(answers, memoryModel(weights)) / scoredIn(answers);
      expect(apart(ours, oracleLoss(weights, answers))).toBeLessThan(1e-6);
    },
  );
});

describe('fitted weights', () => {
  // Within 0.001 nats: the trainer stops early and weighs later answers more, ours all alike.
  it.each([1, 2, 3])('fit no worse than those of the native trainer, player %d', async (seed) => {
    const answers = gameOf(seed, 120, 150);
    const theirs = memoryModel(await oracleWeights(answers));
    const ours = fitWeights(answers).loss ?? Number.NaN;
    expect(ours).toBeLessThan(lossOf(answers, theirs) / scoredIn(answers) + 0.001);
  });

  it.each([1, 2, 3])(
    'predict fresh answers better than the published, and close to the true ones, player %d',
    (seed) => {
      const { weights } = fitWeights(gameOf(seed, 200, 250));
      const fresh = gameOf(seed, 200, 250, seed + 100);
      const lossBy = (by: readonly number[]) => lossOf(fresh, memoryModel(by)) / scoredIn(fresh);
      const best = lossBy(OTHERS[seed - 1] ?? []);
      const gap = lossBy(DEFAULT_WEIGHTS) - best;
      expect(lossBy(weights) - best).toBeLessThan(0.5 * gap);
    },
  );

  it('are valid and depend on the answers alone', () => {
    const steps = played({ truth: PUBLISHED, seed: 4, cards: 40, length: 60 });
    const first = fitWeights(trainingOf(steps));
    expect(areWeights(first.weights)).toBe(true);
    expect(fitWeights(trainingOf(steps))).toEqual(first);
    expect(fitWeights(trainingOf(shuffledCards(steps, 5)))).toEqual(first);
  });

  // Law: for any answers, the loss never exceeds that of the published weights.
  it('never fit worse than the published weights', () => {
    const sequenceArb = fc.array(fc.array(fc.record({ days: fc.nat(30), grade: fc.nat(3) })), {
      maxLength: 8,
    });
    fc.assert(
      fc.property(sequenceArb, (cards) => {
        const sequences = cards.map((items, n) => ({
          card: `card ${n}`,
          on: items.map((_, k) => k),
          days: items.map(({ days }, k) => (k === 0 ? 0 : days)),
          outcomes: items.map(({ grade }) => OUTCOMES[grade] ?? 'off'),
        }));
        const { loss, startLoss, weights } = fitWeights(sequences);
        expect(areWeights(weights)).toBe(true);
        expect(loss === null).toBe(scoredIn(sequences) === 0);
        expect(loss ?? 0).toBeLessThanOrEqual((startLoss ?? 0) + 1e-12);
      }),
      { numRuns: 30 },
    );
  });

  it('are the published ones where nothing is scored', () => {
    expect(fitWeights([])).toEqual({ weights: DEFAULT_WEIGHTS, loss: null, startLoss: null });
  });

  it('report progress from 0 to 1 and never back', () => {
    const reported: number[] = [];
    fitWeights(gameOf(1, 60, 60), (done) => reported.push(done));
    expect(reported).toEqual([...reported].sort((a, b) => a - b));
    expect(reported.at(-1)).toBe(1);
    expect(Math.min(...reported)).toBeGreaterThanOrEqual(0);
  });
});

describe('the scale of weights', () => {
  it.each([DEFAULT_WEIGHTS, ...OTHERS])('converts there and back, weights %#', (...weights) => {
    const back = weightsAt(placeOf(weights));
    for (const [n, weight] of weights.entries()) expect(apart(back[n], weight)).toBeLessThan(1e-12);
  });

  it('always gives weights that FSRS-6 allows', () => {
    const place = fc.array(fc.double({ min: -50, max: 50, noNaN: true }), {
      minLength: 21,
      maxLength: 21,
    });
    fc.assert(fc.property(place, (at) => areWeights(weightsAt(at))));
  });
});

/** The answers of a player with other weights. */
function gameOf(player: number, cards: number, length: number, seed = player) {
  const truth = memoryModel(OTHERS[player - 1] ?? []);
  return trainingOf(played({ truth, seed, cards, length, newADay: 1 + cards / 25 }));
}

/** Implementations of FSRS-6 differ in a same-day second grade: whether it may lower stability. */
function hasNoSameDayRattled({ days, outcomes }: Sequence): boolean {
  return days.every((passed, n) => n === 0 || passed > 0 || outcomes[n] !== 'rattled');
}

/** Relative difference. */
function apart(a = Number.NaN, b = Number.NaN): number {
  return Math.abs(a - b) / Math.abs(b);
}
