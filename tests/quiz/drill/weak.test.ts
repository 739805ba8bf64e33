import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Run, weakZones } from '../../../src/quiz/index.ts';
import type { Drilled } from '../../../src/scheduler/index.ts';
import { drilled, off, runOfQuestions } from './drilling.ts';

const TODAY = 20_000;

/** A run of today. */
function today(questions: readonly Drilled[], n = 0): Run {
  return runOfQuestions(`r${n}`, TODAY * 86_400_000 + n, questions);
}

const three = (error: number, what: Partial<Drilled> = {}) =>
  [0, 1, 2].map((n) => off(n, error, what));

describe('a weak zone', () => {
  // Root mean square, by hand: errors of 1, 2 and 2 tolerances give √((1 + 4 + 4)/3) = √3.
  it('has the root mean square of the errors in tolerances', () => {
    const [weak] = weakZones([today([off(0, 0.1), off(1, -0.2), off(2, 0.2)])], TODAY);
    expect(weak).toMatchObject({
      pattern: 'cross-side',
      kind: 'rail ball',
      zone: 'low',
      answers: 3,
    });
    expect(weak?.rms).toBeCloseTo(Math.sqrt(3), 12);
  });

  it('counts "show me" and a wrong verdict as two tolerances', () => {
    const shown = { answer: null, errors: null, outcome: 'off' } as const;
    const wrong = {
      kind: 'trust',
      tolerance: 0,
      answer: [2],
      errors: [1],
      outcome: 'off',
    } as const;
    const runs = [
      today([0, 1, 2].flatMap((n) => [drilled(2 * n, shown), drilled(2 * n + 1, wrong)])),
    ];
    expect(weakZones(runs, TODAY).map(({ rms }) => rms)).toEqual([2, 2]);
  });

  it('counts both fields of a window', () => {
    // By hand: 1 and 3 tolerances, a mean square of (1 + 9)/2 = 5.
    const window = { kind: 'window', answer: [0, 1], errors: [0.1, -0.3], outcome: 'off' } as const;
    const [weak] = weakZones([today([0, 1, 2].map((n) => drilled(n, window)))], TODAY);
    expect(weak?.rms).toBeCloseTo(Math.sqrt(5), 12);
  });

  it('needs three answers with the same pattern, kind and zone', () => {
    expect(weakZones([today(three(0.3).slice(1))], TODAY)).toEqual([]);
    const zones = [...three(0.3).slice(1), off(3, 0.3, { zone: 'high' })];
    expect(weakZones([today(zones)], TODAY)).toEqual([]);
  });

  it('has a miss, and a pattern that this version knows', () => {
    const unknown = three(0.3, { pattern: 'double-kiss' });
    const elsewhere = three(0.3, { zone: 'everywhere' });
    expect(weakZones([today(three(0)), today(unknown, 1), today(elsewhere, 2)], TODAY)).toEqual([]);
  });

  it('comes before those that are less weak', () => {
    const errorArb = fc.integer({ min: 1, max: 9000 }).map((units) => units / 10_000);
    const patterns = ['cross-side', 'cross-corner', 'up-and-back', 'three-cushion'] as const;
    fc.assert(
      fc.property(fc.tuple(errorArb, errorArb, errorArb, errorArb), (errors) => {
        const runs = errors.map((error, n) =>
          today(three(error, { pattern: patterns[n] ?? '' }), n),
        );
        const ranked = weakZones(runs, TODAY).map(({ pattern }) => pattern);
        const byHand = [...patterns.keys()].sort((a, b) => (errors[b] ?? 0) - (errors[a] ?? 0));
        expect(ranked.map((pattern) => errors[patterns.indexOf(pattern as 'cross-side')])).toEqual(
          byHand.map((n) => errors[n]),
        );
      }),
    );
  });

  it('is from the last ten drills, and from all of today', () => {
    const old = runOfQuestions('old', 1, three(0.9, { zone: 'high' }));
    const later = Array.from({ length: 10 }, (_, n) =>
      runOfQuestions(`l${n}`, 100 + n, three(0.1)),
    );
    expect(weakZones([old, ...later], TODAY).map(({ zone }) => zone)).toEqual(['low']);
    const ofToday = Array.from({ length: 12 }, (_, n) => today(three(n === 0 ? 0.9 : 0.1), n));
    expect(weakZones(ofToday, TODAY)[0]?.answers).toBe(36);
  });
});
