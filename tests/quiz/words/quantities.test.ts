import { describe, expect, it } from 'vitest';
import { toDecimal } from '../../../src/charts/index.ts';
import { errorWords, lengthWords } from '../../../src/quiz/words/quantities.ts';

describe('words for errors and lengths', () => {
  it.each([
    [0.2, '0.2 high'],
    [-0.15, '0.15 low'],
    [0, 'exact'],
  ])('%d is %s', (error, words) => {
    expect(errorWords(toDecimal(error))).toBe(words);
  });

  it('round to half inches and whole centimetres', () => {
    expect(lengthWords(0.127, 'in')).toBe('5 inches');
    expect(lengthWords(0.0334, 'in')).toBe('1.5 inches');
    expect(lengthWords(0.127, 'cm')).toBe('13 cm');
  });
});
