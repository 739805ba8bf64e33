import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { effectWords } from '../../../../src/app/parts/changes/effect-words.ts';

const NONE = { moved: 0, shifted: 0, left: 0, untouched: 0, unlearned: 0 };

describe('what a revision does to memory, in words', () => {
  it.each([
    [
      { moved: 3, shifted: 5, left: 2, untouched: 40, unlearned: 12 },
      'Of the 50 lines that you have learned, 3 move beyond your tolerance and come back today, 5 shift slightly, 2 leave the chart and keep their memory, 40 are untouched; 12 you have not learned yet. This counts from the numbers that you learned, not from those that were printed last.',
    ],
    [
      { ...NONE, moved: 1, untouched: 1 },
      'Of the 2 lines that you have learned, 1 moves beyond your tolerance and comes back today, 1 is untouched. This counts from the numbers that you learned, not from those that were printed last.',
    ],
    [
      { ...NONE, shifted: 1 },
      'Of the 1 line that you have learned, 1 shifts slightly. This counts from the numbers that you learned, not from those that were printed last.',
    ],
    [
      { ...NONE, left: 1, unlearned: 4 },
      'Of the 1 line that you have learned, 1 leaves the chart and keeps its memory; 4 you have not learned yet.',
    ],
    [
      { ...NONE, untouched: 7, unlearned: 80 },
      'Nothing that you have learned changes: 7 lines; 80 you have not learned yet.',
    ],
    [
      { ...NONE, unlearned: 87 },
      'You have learned none of its 87 lines yet: nothing changes for you.',
    ],
  ])('%o', (effects, words) => {
    expect(effectWords(effects)).toBe(words);
  });

  it('names every count except zero', () => {
    const count = fc.integer({ min: 0, max: 9 }).map((n) => (n === 0 ? 0 : n + 100));
    const counts = fc.record({
      moved: count,
      shifted: count,
      left: count,
      untouched: count,
      unlearned: count,
    });
    fc.assert(
      fc.property(counts, (effects) => {
        const { unlearned, ...learned } = effects;
        const sum = Object.values(learned).reduce((total, one) => total + one, 0);
        const said = new Set((effectWords(effects).match(/\d+/g) ?? []).map(Number));
        const due = sum === 0 ? [unlearned] : [sum, ...Object.values(effects).filter((n) => n > 0)];
        expect(said).toEqual(new Set(due));
      }),
    );
  });
});
