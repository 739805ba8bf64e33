import { describe, expect, it } from 'vitest';
import { sparedWords } from '../../../src/app/charts/spared-words.ts';

describe('what anchors save', () => {
  it.each([
    [0, 0, 'No line to remember yet.'],
    [1, 1, 'Remember its one number.'],
    [3, 3, 'Remember all 3 numbers: interpolating between them saves none.'],
    [2, 3, 'Remember 2 numbers instead of 3: the anchors of each pattern'],
  ])('%d anchors for %d lines: %s', (anchors, lines, words) => {
    const { before, count, after } = sparedWords(anchors, lines);
    expect(before + count + after).toContain(words);
  });
});
