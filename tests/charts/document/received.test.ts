import { describe, expect, it } from 'vitest';
import { sideOf } from '../../../src/charts/document/merge-states.ts';
import { KEEP_MINE, mergeWhy, receiptOf, settled } from '../../../src/charts/document/received.ts';
import { HARBOUR_LANE, HARBOUR_LANE_BAR, revise, toDecimal } from '../../../src/charts/index.ts';

const last = HARBOUR_LANE.revisions[2];
if (!last) throw new Error('the demo chart has three revisions');
const signed = { date: '2026-11-25', author: 'A player', why: 'It came out long.' };
const line = (medium: number) => [
  { pattern: 'cross-side' as const, start: toDecimal(6), medium: toDecimal(medium) },
];
const mine = revise(HARBOUR_LANE, { ...last, measured: line(4.6) }, signed);
const theirs = revise(HARBOUR_LANE, { ...last, measured: line(4.8) }, { ...signed, author: 'B' });

describe('a chart that comes from outside', () => {
  it('is new, or another version of the chart with its id', () => {
    expect(receiptOf([HARBOUR_LANE], HARBOUR_LANE_BAR, KEEP_MINE).at).toBe('new');
    const receipt = receiptOf([HARBOUR_LANE_BAR, HARBOUR_LANE], theirs, KEEP_MINE);
    expect(receipt).toMatchObject({ at: 'known', mine: HARBOUR_LANE });
  });

  it('is merged as settled', () => {
    const choice = 'number cross-side 60000 medium';
    const measured = (settling: typeof KEEP_MINE) => {
      const receipt = receiptOf([mine], theirs, settling, signed);
      if (receipt.at === 'new' || receipt.merge.outcome !== 'merged') return null;
      expect(receipt.merge.conflicts.map((one) => one.choice)).toEqual([choice]);
      return receipt.merge.document.revisions.at(-1)?.measured;
    };
    expect(measured(KEEP_MINE)).toEqual(line(4.6));
    expect(measured({ ...KEEP_MINE, keep: 'theirs' })).toEqual(line(4.8));
    expect(measured(settled(KEEP_MINE, choice, 'theirs'))).toEqual(line(4.8));
  });

  it('is named in the proposed reason', () => {
    expect(mergeWhy(theirs)).toBe('Taken in: revision 4 by B.');
    const longest = { ...signed, author: 'B'.repeat(80) };
    // A reason has at most 400 characters (src/charts/document/schema.ts).
    expect(mergeWhy(revise(HARBOUR_LANE, last, longest)).length).toBeLessThan(400);
  });
});

describe('settling conflicts one by one', () => {
  it('makes exceptions and takes them back', () => {
    const one = settled(KEEP_MINE, 'a', 'theirs');
    expect([sideOf(one, 'a'), sideOf(one, 'b')]).toEqual(['theirs', 'mine']);
    expect(settled(one, 'a', 'mine')).toEqual(KEEP_MINE);
    const other = settled({ keep: 'theirs', except: new Set() }, 'b', 'mine');
    expect([sideOf(other, 'a'), sideOf(other, 'b')]).toEqual(['theirs', 'mine']);
  });
});
