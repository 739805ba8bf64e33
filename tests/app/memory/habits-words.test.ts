import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { habitSentences } from '../../../src/app/memory/habits-words.ts';
import { KINDS, type Kind } from '../../../src/cards/index.ts';
import type { Habits } from '../../../src/scheduler/index.ts';

function ofKinds<T>(of: (kind: Kind) => T): Record<Kind, T> {
  return Object.fromEntries(KINDS.map((kind) => [kind, of(kind)])) as Record<Kind, T>;
}

const SOUND = { part: 0.99, right: 0.96, answers: 100 };

const ORDINARY: Habits = {
  factor: 1,
  first: ofKinds(() => ({ part: 0.8, answers: 20 })),
  fresh: ofKinds(() => SOUND),
  missed: 0.15,
  misfit: 0.01,
  answers: 700,
};

function said(change: Partial<Habits>, ms = 14_300): readonly string[] {
  return habitSentences({ ...ORDINARY, ...change }, ms);
}

function saidOf(change: Partial<Habits>, about: RegExp): string | undefined {
  return said(change).find((words) => about.test(words));
}

describe('words for the habits of a player', () => {
  it('tell those of an ordinary one', () => {
    expect(said({})).toEqual([
      'Your memory lasts about as long as the average learner’s.',
      'First answers: 4 of 5 are right.',
      'You practice on 6 days of 7.',
      'A question takes you about 14 seconds.',
    ]);
  });

  it.each([
    [0.71, '0.7 times as long'],
    [0.84, '0.8 times as long'],
    [0.86, 'as long'],
    [1.14, 'as long'],
    [1.16, '1.2 times as long'],
    [1.42, '1.4 times as long'],
  ])('say of a factor of %d that memory lasts about %s', (factor, words) => {
    const expected = `Your memory lasts about ${words} as the average learner’s.`;
    expect(said({ factor })[0]).toBe(expected);
  });

  it('name the weakest kind, and no kind that was asked too seldom or is known well', () => {
    const weak = (part: number, answers: number) => ({ part, right: 0.97 * part, answers });
    const fresh = (some: Partial<Habits['fresh']>) => ({ fresh: { ...ORDINARY.fresh, ...some } });
    const about = /even when fresh/;
    expect(saidOf(fresh({ 'in between': weak(0.72, 20), arrival: weak(0.8, 90) }), about)).toBe(
      'In between: even when fresh, you miss 3 of 10.',
    );
    expect(saidOf(fresh({ 'in between': weak(0.72, 19) }), about)).toBeUndefined();
    expect(saidOf(fresh({ arrival: weak(0.85, 90) }), about)).toBeUndefined();
    // What is missed counts guesses: of verdicts, less than is unknown.
    expect(saidOf(fresh({ trust: { part: 0.5, right: 0.79, answers: 40 } }), about)).toBe(
      'Trust: even when fresh, you miss 1 of 5.',
    );
  });

  it('weigh the first answers of a kind by their number', () => {
    const first = ofKinds((kind) =>
      kind === 'number' ? { part: 0.9, answers: 30 } : { part: 0.8, answers: 0 },
    );
    expect(saidOf({ first }, /^First/)).toBe('First answers: 9 of 10 are right.');
    const few = { ...first, number: { part: 0.9, answers: 9 } };
    expect(saidOf({ first: few }, /^First/)).toBeUndefined();
    const all = { ...first, number: { part: 0.97, answers: 30 } };
    expect(saidOf({ first: all }, /^First/)).toBe('First answers: nearly all are right.');
    const none = { ...first, number: { part: 0.03, answers: 30 } };
    expect(saidOf({ first: none }, /^First/)).toBe('First answers: almost none are right.');
  });

  it.each([
    [0.02, 'You practice nearly every day.'],
    [0.43, 'You practice on 4 days of 7.'],
    [0.85, 'You practice on 1 day of 7.'],
    [0.98, 'You practice on less than one day a week.'],
  ])('say of %d days missed: %s', (missed, words) => {
    expect(saidOf({ missed }, /^You practice/)).toBe(words);
  });

  it('say that answers follow no usual curve only if they do not', () => {
    expect(saidOf({ misfit: 0.05 }, /curve/)).toBeUndefined();
    expect(saidOf({ misfit: 0.06 }, /curve/)).toBe(
      'Your answers do not follow the usual curve, so forecasts are wide.',
    );
  });

  it('tell nothing from fewer than 30 answers on later days', () => {
    const few = ['After about 30 reviews, this page compares your memory with the average.'];
    expect(said({ answers: 29, factor: 0.5, misfit: 0.3 })).toEqual(few);
    expect(said({ answers: 30 })).toHaveLength(4);
  });

  it('have at most 12 words in a sentence', () => {
    const part = fc.double({ min: 0, max: 1, noNaN: true });
    const counted = (more: object) => fc.record({ part, answers: fc.nat(60), ...more });
    const arb = fc.record({
      factor: fc.double({ min: 0.1, max: 4, noNaN: true }),
      first: counted({}).map((one) => ofKinds(() => one)),
      fresh: counted({ right: part }).map((one) => ofKinds(() => one as Habits['fresh'][Kind])),
      missed: part,
      misfit: part,
      answers: fc.nat(90),
    });
    fc.assert(
      fc.property(arb, fc.nat(200_000), (habits, ms) => {
        const sentences = habitSentences(habits, ms);
        expect(new Set(sentences).size).toBe(sentences.length);
        for (const words of sentences) {
          expect(words.split(' ').length, words).toBeLessThanOrEqual(12);
          expect(words).toMatch(/^[A-Z].*[^.]\.$/);
          expect(words).not.toMatch(/NaN|undefined|Infinity/);
        }
      }),
    );
  });
});
