import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { KINDS } from '../../../src/cards/index.ts';
import { fadedTo, playerOf } from '../../../src/scheduler/choose/player.ts';
import { type Habits, habitsOf } from '../../../src/scheduler/index.ts';
import { countDay, noTrials, type Trial, type Trials } from '../../../src/scheduler/log/trials.ts';
import { PUBLISHED } from '../../../src/scheduler/memory/memory.ts';
import { kernel, laterAnswers, trialArb, trialsOf } from './trialing.ts';

const TODAY = 100;

function habits(trials: Trials): Habits {
  return habitsOf({ trials, model: PUBLISHED }, TODAY);
}

describe('the habits of a player', () => {
  it('without answers are ordinary', () => {
    const { factor, first, fresh, missed, misfit, answers } = habits(noTrials());
    expect(factor).toBeCloseTo(1, 1);
    for (const kind of KINDS) {
      expect(first[kind].part).toBeCloseTo(0.8, 9);
      expect(first[kind].answers).toBe(0);
      expect(fresh[kind].part).toBeGreaterThan(0.98);
      expect(fresh[kind].answers).toBe(0);
    }
    expect(missed).toBeCloseTo(0.15, 9);
    expect([misfit, answers]).toEqual([0, 0]);
  });

  it('count first answers apart from answers on later days, and second ones of a day not at all', () => {
    fc.assert(
      fc.property(fc.array(trialArb, { maxLength: 60 }), (list) => {
        const { first, fresh, answers } = habits(trialsOf(list));
        const laterOnes = list.filter(({ before }) => before !== null && before.days > 0);
        expect(answers).toBe(laterOnes.length);
        for (const kind of KINDS) {
          const own = (all: readonly Trial[]) => all.filter((one) => one.kind === kind).length;
          expect(first[kind].answers).toBe(own(list.filter(({ before }) => before === null)));
          expect(fresh[kind].answers).toBe(own(laterOnes));
        }
      }),
      { numRuns: 30 },
    );
  });

  it('are the numbers of the player from whom forecasts are made', () => {
    fc.assert(
      fc.property(fc.array(trialArb, { maxLength: 60 }), (list) => {
        const trials = trialsOf(list);
        const found = habits(trials);
        const player = playerOf(trials, kernel, TODAY);
        // The geometric mean, as a product of powers.
        const factor = player.fadings.reduce((all, one) => all * one.factor ** one.chance, 1);
        expect(found.factor).toBeCloseTo(factor, 9);
        expect(found.missed).toBe(player.missed.part);
        expect(found.misfit).toBe(player.misfit);
        for (const kind of KINDS) expect(found.first[kind].part).toBe(player.first[kind].part);
      }),
      { numRuns: 20 },
    );
  });

  it.each([0.4, 3])('say that a memory lasts %d times as long if it does', (factor) => {
    const chance = (stability: number, days: number) =>
      0.97 * fadedTo(kernel, { factor, tail: 0 }, stability, days);
    const found = habits(trialsOf(laterAnswers('number', 3000, chance)));
    // What is expected before any answer draws it to 1.
    const share = Math.log(found.factor) / Math.log(factor);
    expect(share).toBeGreaterThan(0.6);
    expect(share).toBeLessThan(1.2);
  });

  it('say which kind is weak even when fresh, and how often it is right', () => {
    const weak = (stability: number, days: number) => 0.6 * kernel.recall(stability, days);
    const sound = (stability: number, days: number) => 0.97 * kernel.recall(stability, days);
    const list = [...laterAnswers('in between', 400, weak), ...laterAnswers('number', 400, sound)];
    const { fresh } = habits(trialsOf(list));
    expect(fresh['in between'].right).toBeGreaterThan(0.5);
    expect(fresh['in between'].right).toBeLessThan(0.7);
    expect(fresh.number.right).toBeGreaterThan(0.92);
    // Three slips in a hundred, and no guessing of a number.
    for (const kind of ['in between', 'number'] as const)
      expect(fresh[kind].right).toBeCloseTo(0.97 * fresh[kind].part, 9);
    // A player who always says "banks" is right 52 times in 87.
    expect(fresh.trust.right).toBeCloseTo(52 / 87 + (35 / 87) * 0.97 * fresh.trust.part, 9);
  });

  it('say how many days were missed', () => {
    const trials = noTrials();
    for (const day of [90, 91, 95, 99]) countDay(trials, day);
    // Of the ten days from 90 to 99, six were missed: (6 + 0.15 · 8) / (10 + 8).
    expect(habits(trials).missed).toBeCloseTo(7.2 / 18, 9);
  });
});
