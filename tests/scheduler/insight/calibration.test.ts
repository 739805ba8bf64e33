import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  calibrationOf,
  PUBLISHED,
  type Step,
  sumCalibration,
} from '../../../src/scheduler/index.ts';
import { wilson } from '../../../src/scheduler/insight/calibration.ts';
import { dice } from '../../oracle/dice.ts';

describe('the interval of a part', () => {
  // Newcombe 1998 (Stat. Med. 17: 857), table I, the score method at 95 %; from memory.
  it.each([
    [81, 263, 0.2553, 0.3662],
    [15, 148, 0.0624, 0.1605],
    [0, 20, 0, 0.1611],
    [1, 29, 0.0061, 0.1718],
  ])('of %d in %d is %d–%d', (right, count, low, high) => {
    const [from, to] = wilson(right, count, 1.959964);
    expect(from).toBeCloseTo(low, 4);
    expect(to).toBeCloseTo(high, 4);
  });

  it('holds the part, within 0–1', () => {
    const arb = fc.integer({ min: 1, max: 500 }).chain((n) => fc.tuple(fc.nat(n), fc.constant(n)));
    fc.assert(
      fc.property(arb, ([right, count]) => {
        const [low, high] = wilson(right, count);
        expect(low).toBeGreaterThanOrEqual(0);
        expect(low).toBeLessThanOrEqual(right / count + 1e-12);
        expect(high).toBeGreaterThanOrEqual(right / count - 1e-12);
        expect(high).toBeLessThanOrEqual(1);
      }),
    );
  });
});

describe('calibration', () => {
  // Worked by hand: (0.2² + 0.2² + 0.8²) / 3, and −(2 ln 0.8 + ln 0.2) / 3.
  it('sums up Brier’s score, log loss, and predicted and right answers', () => {
    const sum = sumCalibration();
    sum.add(0.8, true);
    sum.add(0.8, true);
    sum.add(0.8, false);
    const total = sum.total();
    expect(total.brier).toBeCloseTo(0.24, 12);
    expect(total.logLoss).toBeCloseTo(-(2 * Math.log(0.8) + Math.log(0.2)) / 3, 12);
    expect(total).toMatchObject({ answers: 3, bins: [{ count: 3 }] });
    expect(total.predicted).toBeCloseTo(0.8, 12);
    expect(total.right).toBeCloseTo(2 / 3, 12);
    expect(total.binError).toBeCloseTo(0.8 - 2 / 3, 12);
  });

  it('of no answers is null', () => {
    const nothing = { bins: [], answers: 0, predicted: null, right: null };
    expect(calibrationOf([], PUBLISHED)).toMatchObject(nothing);
  });

  it('stays finite where a certainty fails', () => {
    const sum = sumCalibration();
    sum.add(1, false);
    sum.add(0, true);
    expect(sum.total().logLoss).toBeLessThan(20);
  });

  it('puts every answer into one bin, in rising order', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.double({ min: 0, max: 1, noNaN: true }), fc.boolean())),
        (all) => {
          const sum = sumCalibration();
          for (const [predicted, right] of all) sum.add(predicted, right);
          const { bins, answers } = sum.total();
          expect(bins.reduce((count, bin) => count + bin.count, 0)).toBe(all.length);
          expect(answers).toBe(all.length);
          const predictions = bins.map(({ predicted }) => predicted);
          expect(predictions).toEqual([...predictions].sort((a, b) => a - b));
        },
      ),
    );
  });

  // Forecasts that are true by construction.
  it('finds true forecasts true', () => {
    const roll = dice(3);
    const sum = sumCalibration();
    for (let n = 0; n < 40_000; n++) {
      const predicted = 0.3 + 0.7 * roll();
      sum.add(predicted, roll() < predicted);
    }
    const { bins, predicted, right, binError } = sum.total();
    expect(Math.abs((predicted ?? 0) - (right ?? 1))).toBeLessThan(0.01);
    expect(binError).toBeLessThan(0.015);
    expect(bins.length).toBeGreaterThan(5);
  });

  const memory = { stability: 10, difficulty: 5 };
  const step: Step = {
    card: 'a',
    kind: 'number',
    day: 100,
    days: 10,
    before: memory,
    outcome: 'off',
    how: 'asked',
    errors: null,
  };

  // By definition of stability: recall is 0.9 after as many days.
  it('takes what memory predicted before an answer', () => {
    const { predicted, right, answers } = calibrationOf([step], PUBLISHED);
    expect(predicted).toBeCloseTo(0.9, 7);
    expect([right, answers]).toEqual([0, 1]);
  });

  it.each([
    ['judged by the player', { how: 'judged' }],
    ['of placement', { how: 'proved' }],
    ['of the same day', { days: 0 }],
    ['of a card asked for the first time', { before: null, days: 0 }],
  ] as const)('leaves out an answer %s', (_, change) => {
    expect(calibrationOf([step, { ...step, ...change }], PUBLISHED).answers).toBe(1);
  });
});
