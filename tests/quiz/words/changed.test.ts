/** How a revision changed a number, in words. */
import { describe, expect, it } from 'vitest';
import { changedWords, changeOf } from '../../../src/quiz/words/changed.ts';
import { foldLog } from '../../../src/scheduler/index.ts';
import { answer, base, said } from '../../scheduler/making.ts';

const digest = '0123456789abcdef';
const move = { card: 'x/number', line: 'x', effect: 'moved', from: [3.2], to: [3.5] } as const;
const learned = (card: string) => ({ ...answer(0, card, 100), answer: [3.2] });
const revised = (change: object) =>
  said(base(1, 101), 'revised', {
    chart: 'x',
    revision: 2,
    digest,
    moves: [{ ...move, ...change }],
  });

describe('a change', () => {
  it('shows until the card has been answered', () => {
    const events = [learned(move.card), revised({})];
    const log = foldLog(events);
    expect(changeOf(log, move.card)).toEqual({ from: [3.2], to: [3.5], elsewhere: false });
    expect(changeOf(log, 'another')).toBeNull();
    expect(changeOf(foldLog([...events, answer(2, move.card, 102)]), move.card)).toBeNull();
  });

  it('shows if the number only shifted, too; not for a card that left the chart', () => {
    const shift = foldLog([learned(move.card), revised({ effect: 'shifted', to: [3.25] })]);
    expect(changeOf(shift, move.card)).toEqual({ from: [3.2], to: [3.25], elsewhere: false });
    const gone = foldLog([learned(move.card), revised({ effect: 'left', to: null })]);
    expect(changeOf(gone, move.card)).toBeNull();
  });

  // Found by a tester: shared memory of another table was called a revision of a chart that had none.
  it('is not called a revision if the line is known from another table', () => {
    const log = foldLog([learned('y/number'), revised({ was: 'y/number' })]);
    const change = changeOf(log, move.card);
    expect(change && changedWords('number', change)).toBe(
      'You know this number from another table as 3.2; here it is 3.5.',
    );
  });
});

describe('the words for a change', () => {
  const of = (from: readonly number[], to: readonly number[]) => ({ from, to, elsewhere: false });
  it('depend on the kind', () => {
    expect(changedWords('number', of([3.2], [3.5]))).toBe(
      'The chart was revised: this number was 3.2 and is 3.5.',
    );
    expect(changedWords('window', of([-0.1, 0.2], [0, 0.3]))).toBe(
      'The chart was revised: this window was soft −0.1, firm +0.2 and is soft 0.0, firm +0.3.',
    );
    expect(changedWords('trust', of([0], [2]))).toBe(
      'The chart was revised: the verdict on this line was “banks” and is “kick only”.',
    );
  });
});
