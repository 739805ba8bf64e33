import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { cardsOf, isLineCard } from '../../../src/cards/index.ts';
import { computeChart, HARBOUR_LANE, toDecimal } from '../../../src/charts/index.ts';
import { type PlacementAnswer, placementPlan } from '../../../src/quiz/placement/placement.ts';
import {
  ENDS_WORDS,
  PROVED_WORDS,
  patternWords,
  placedWords,
  resultWords,
  stoppedWords,
} from '../../../src/quiz/placement/words.ts';

/** The words are the project's own; the tests hold that they agree with the numbers. */
describe('the words of placement', () => {
  it.each([
    [14, 9, [5, 30], 'Proven: 14 lines, 9 more follow from them; they come back in 5–30 days.'],
    [1, 1, [7, 15], 'Proven: 1 line, 1 more follows from it; they come back in 7–15 days.'],
    [1, 0, [15, 15], 'Proven: 1 line; it comes back in 15 days.'],
    [2, 0, [1, 1], 'Proven: 2 lines; they come back in 1 day.'],
  ] as const)('sum up %d proven and %d implied lines', (proven, implied, again, words) => {
    expect(placedWords({ patterns: [], proven, implied, again })).toBe(words);
  });

  it('sum up that nothing is proven', () => {
    const nothing = { patterns: [], proven: 0, implied: 0, again: null };
    expect(placedWords(nothing)).toMatch(/^Nothing proven/);
  });

  it('say when it stops that proven lines stay, if there are any', () => {
    expect(stoppedWords({ proven: 1, implied: 0 })).toMatch(/^What is proven stays\./);
    expect(stoppedWords({ proven: 0, implied: 0 })).not.toContain('stays');
  });

  it('say after an answer what is proven and what follows', () => {
    expect(resultWords({ right: true, follow: 0, last: false })).toBe('Proven.');
    expect(resultWords({ right: true, follow: 1, last: false })).toMatch(
      /1 line follows from it\.$/,
    );
    expect(resultWords({ right: true, follow: 4, last: true })).toMatch(
      /4 lines follow from it\.$/,
    );
    expect(resultWords({ right: false, follow: 0, last: false })).toMatch(/^Not proven/);
  });

  it('list the proven starts of a pattern, and count the others', () => {
    const cards = cardsOf(computeChart(HARBOUR_LANE, 'through'), toDecimal(0.1))
      .filter(isLineCard)
      .filter(({ pattern, kind }) => pattern === 'cross-side' && kind === 'number')
      .sort((a, b) => a.start - b.start);
    const [first, second, third, ...rest] = cards;
    if (!first || !second || !third) throw new Error('no lines');
    const base = { pattern: 'cross-side', finished: true } as const;
    const all = { ...base, proven: [first, third], implied: [second], left: rest };
    expect(patternWords(all)).toBe('proven from 5.0 and 6.0; 1 follows; 4 to be learned');
    expect(patternWords({ ...base, proven: [], implied: [], left: cards })).toBe('7 to be learned');
  });

  it('say that a pattern ends at two more misses than hits', () => {
    // An earlier text spoke of the beginning only, and of misses in a row: that is not the rule.
    expect(ENDS_WORDS).toMatch(/as soon as its misses are 2 more than its hits;/);
    expect(readFileSync('docs/manual/placement.md', 'utf8')).toContain(ENDS_WORDS);
    const lines = Array(9).fill('new');
    const anchors = [0, 1, 2, 3, 4, 5, 6, 7, 8];
    const ended = (answers: string): boolean => {
      const given: PlacementAnswer[] = [];
      for (const one of answers) {
        const { next } = placementPlan(lines, anchors, given);
        if (next !== null) given.push({ line: next, right: one === '+' });
      }
      return placementPlan(lines, anchors, given).next === null;
    };
    expect(ended('--')).toBe(true);
    expect(ended('+--')).toBe(false);
    expect(ended('-+-')).toBe(false);
    expect(ended('+-+--')).toBe(false);
    expect(ended('+-+---')).toBe(true);
  });

  it('name the days that a proven line begins with', () => {
    // 30, 15 and 6 days, and 7 for an implied line: common practice, no source.
    for (const days of ['15 days', 'for 30', 'for 6', 'for 7'])
      expect(PROVED_WORDS).toContain(days);
  });
});
