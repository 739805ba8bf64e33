import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { KINDS, type Kind } from '../../../src/cards/index.ts';
import { CEILINGS, fadedTo, type Player, playerOf } from '../../../src/scheduler/choose/player.ts';
import { countDay, noTrials, type Trial } from '../../../src/scheduler/log/trials.ts';
import { shuffled } from '../histories.ts';
import { kernel, laterAnswers, trialArb, trialsOf } from './trialing.ts';

/** What is learned is the project's own model. Its oracles are players made by that model. */
function factorOf({ fadings }: Player): number {
  return Math.exp(fadings.reduce((sum, one) => sum + one.chance * Math.log(one.factor), 0));
}

/** The expected part that is known of what memory is sure of. */
function ceilingOf({ fadings, ceilings }: Player, kind: Kind): number {
  return fadings.reduce((sum, { chance }, n) => {
    const own = ceilings[kind][n] ?? [];
    return sum + chance * own.reduce((total, one, at) => total + one * (CEILINGS[at] ?? 0), 0);
  }, 0);
}

describe('a player', () => {
  it('is ordinary without answers', () => {
    const player = playerOf(noTrials(), kernel, 100);
    expect(factorOf(player)).toBeCloseTo(1, 1);
    for (const kind of KINDS) {
      expect(player.first[kind].part).toBeCloseTo(0.8, 9);
      expect(ceilingOf(player, kind)).toBeGreaterThan(0.98);
    }
    expect(player.pattern('cross-side')).toBe(1);
    expect(player.missed.part).toBeCloseTo(0.15, 9);
    expect(player.misfit).toBe(0);
  });

  it('is the same in whatever order the answers came', () => {
    fc.assert(
      fc.property(fc.array(trialArb, { maxLength: 60 }), fc.nat(), (list, seed) => {
        const one = playerOf(trialsOf(list), kernel, 100);
        const other = playerOf(trialsOf(shuffled(list, seed)), kernel, 100);
        expect(factorOf(other)).toBeCloseTo(factorOf(one), 9);
        for (const kind of KINDS)
          expect(other.first[kind].part).toBeCloseTo(one.first[kind].part, 9);
      }),
      { numRuns: 30 },
    );
  });

  it('has chances that sum to one', () => {
    fc.assert(
      fc.property(fc.array(trialArb, { maxLength: 60 }), (list) => {
        const { fadings, ceilings } = playerOf(trialsOf(list), kernel, 100);
        const sum = (values: readonly number[]) => values.reduce((total, one) => total + one, 0);
        expect(sum(fadings.map(({ chance }) => chance))).toBeCloseTo(1, 9);
        for (const kind of KINDS)
          for (const own of ceilings[kind]) expect(sum(own)).toBeCloseTo(1, 9);
      }),
      { numRuns: 20 },
    );
  });

  it.each([0.3, 0.5, 2])('whose memory lasts %d times as long is found out', (factor) => {
    const fading = { factor, tail: 0 };
    const chance = (stability: number, days: number) =>
      0.97 * fadedTo(kernel, fading, stability, days);
    const found = factorOf(playerOf(trialsOf(laterAnswers('number', 3000, chance)), kernel, 100));
    expect(Math.abs(Math.log(found / factor))).toBeLessThan(0.35);
  });

  it('who is weak at one kind is weak at that alone', () => {
    const weak = (stability: number, days: number) => 0.5 * kernel.recall(stability, days);
    const sound = (stability: number, days: number) => 0.97 * kernel.recall(stability, days);
    const list = [...laterAnswers('in between', 300, weak), ...laterAnswers('number', 300, sound)];
    const player = playerOf(trialsOf(list), kernel, 100);
    expect(ceilingOf(player, 'in between')).toBeLessThan(0.62);
    expect(ceilingOf(player, 'number')).toBeGreaterThan(0.95);
  });

  it('who is right about as often as by guessing knows little', () => {
    const list = laterAnswers('trust', 300, () => 52 / 87);
    const asNumbers = list.map((one) => ({ ...one, kind: 'number' as const }));
    const guessing = ceilingOf(playerOf(trialsOf(list), kernel, 100), 'trust');
    const knowing = ceilingOf(playerOf(trialsOf(asNumbers), kernel, 100), 'number');
    expect(guessing).toBeLessThan(0.25);
    expect(knowing).toBeGreaterThan(0.5);
  });

  it('has first answers that are shrunken to those of all kinds', () => {
    const first = (kind: Kind, right: boolean): Trial => ({
      kind,
      pattern: null,
      right,
      before: null,
    });
    const list = [
      ...Array.from({ length: 40 }, () => first('number', true)),
      ...Array.from({ length: 10 }, () => first('in between', false)),
    ];
    const player = playerOf(trialsOf(list), kernel, 100);
    // All kinds: (40 + 0.8 · 8) / (50 + 8) = 0.8. In between: (0 + 0.8 · 6) / (10 + 6) = 0.3.
    expect(player.first['in between'].part).toBeCloseTo(0.3, 9);
    expect(player.first.window.part).toBeCloseTo(0.8, 9);
    expect(player.first.number.part).toBeCloseTo((40 + 0.8 * 6) / 46, 9);
  });

  it('misses the part of days that had no answer, today not counted', () => {
    const trials = noTrials();
    for (const day of [90, 91, 95, 99, 100]) countDay(trials, day);
    // Of the ten days from 90 to 99, six were missed: (6 + 0.15 · 8) / (10 + 8).
    expect(playerOf(trials, kernel, 100).missed.part).toBeCloseTo(7.2 / 18, 9);
  });

  it('has a pattern that keeps badly, compared with the others', () => {
    const bad = laterAnswers('number', 200, () => 0.4).map((one) => ({
      ...one,
      pattern: 'up-and-back',
    }));
    const good = laterAnswers('number', 800, () => 0.9);
    const player = playerOf(trialsOf([...bad, ...good]), kernel, 100);
    expect(player.pattern('up-and-back')).toBeLessThan(0.75);
    expect(player.pattern('cross-side')).toBeGreaterThan(0.95);
  });

  it('who forgets as no fading says has a misfit, and one who does as it says has nearly none', () => {
    const odd = (stability: number) => (stability > 10 ? 0.95 : 0.1);
    const plain = (stability: number, days: number) => 0.97 * kernel.recall(stability, days);
    const misfit = (chance: Parameters<typeof laterAnswers>[2]) =>
      playerOf(trialsOf(laterAnswers('number', 600, chance)), kernel, 100).misfit;
    expect(misfit(odd)).toBeGreaterThan(0.1);
    expect(misfit(plain)).toBeLessThan(0.05);
  });
});
