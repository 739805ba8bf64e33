import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Decimal, toDecimal, toNumber } from '../../../src/charts/index.ts';
import { earWords, type SpokenQuestion, spokenNumber } from '../../../src/quiz/ear/spoken.ts';

const d = toDecimal;

// How players say numbers: common practice, no source.
describe('a spoken number', () => {
  it.each([
    [1.4, 'one point four'],
    [2, 'two'],
    [-0.1, 'minus point one'],
    [0.5, 'point five'],
    [0, 'zero'],
    [0.05, 'point zero five'],
    [1.25, 'one point two five'],
    [-1.5, 'minus one point five'],
    [8.3, 'eight point three'],
    [12, 'one two'],
  ])('%s is "%s"', (value, words) => {
    expect(spokenNumber(d(value))).toBe(words);
  });

  it.each([
    [0.2, 'plus point two'],
    [-0.2, 'minus point two'],
    [0, 'zero'],
  ])('a movement of %s is "%s"', (value, words) => {
    expect(spokenNumber(d(value), true)).toBe(words);
  });

  it('is heard as the same number, for every ten-thousandth from −9 to 9', () => {
    fc.assert(
      fc.property(fc.integer({ min: -90_000, max: 90_000 }), (units) => {
        expect(heard(spokenNumber(units as Decimal))).toBeCloseTo(toNumber(units as Decimal), 9);
      }),
    );
  });
});

const line = {} as SpokenQuestion['line'];
const base = { line, start: d(3), speed: 'medium', tolerance: d(0.1) } as const;

describe('a spoken question', () => {
  it('for a number has the pattern, the start and the speed, and nothing else', () => {
    const words = earWords({
      ...base,
      kind: 'number',
      pattern: 'cross-corner',
      truth: [d(1.4)],
    });
    expect(words).toMatchObject({
      question: 'Cross-corner. From three. Medium.',
      answer: 'One point four.',
      from: 'from 3.0',
      asked: 'medium',
      written: ['1.4'],
    });
  });

  it('for a window asks how far both speeds move it; the answer has their signs', () => {
    const words = earWords({
      ...base,
      start: d(1.5),
      kind: 'window',
      pattern: 'up-and-back',
      truth: [d(-0.1), d(0.2)],
    });
    expect(words).toMatchObject({
      question: 'Up and back. From one point five. How far do soft and firm move it?',
      answer: 'Soft, minus point one. Firm, plus point two.',
      written: ['soft −0.1', 'firm +0.2'],
    });
    // To a reader without a voice, "soft and firm" alone did not say what was asked.
    expect(words.question.endsWith(`. ${words.asked}`)).toBe(true);
    expect(words.asked).toMatch(/^How far .*\?$/);
  });

  it('for a window that a speed does not move is answered with "the same"', () => {
    const words = earWords({ ...base, kind: 'window', pattern: 'cross-side', truth: [d(0), d(0)] });
    expect(words.answer).toBe('Soft, the same. Firm, the same.');
    expect(words.written).toEqual(['soft same', 'firm same']);
  });
});

/** A listener who writes down digits: the inverse, implemented independently. */
function heard(words: string): number {
  const names = 'zero one two three four five six seven eight nine'.split(' ');
  const text = words
    .split(' ')
    .map((word) => ({ minus: '-', point: '.' })[word] ?? String(names.indexOf(word)));
  return Number(text.join(''));
}
