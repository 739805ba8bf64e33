import { describe, expect, it } from 'vitest';
import { namedLines } from '../../../src/app/charts/line-names.ts';
import { cardsOf } from '../../../src/cards/index.ts';
import { computeChart, HARBOUR_LANE, toDecimal } from '../../../src/charts/index.ts';

const cards = cardsOf(computeChart(HARBOUR_LANE), toDecimal(0.1));
const chart = HARBOUR_LANE.id;

function named(...ids: readonly string[]) {
  return namedLines(new Set(ids), cards);
}

describe('names of lines', () => {
  it('name each of the chart’s lines once, even with several cards', () => {
    const id = `${chart}/cross-side/6/left-side`;
    expect(named(id)).toEqual([{ id, name: 'Cross-side from 6.0', elsewhere: false }]);
  });

  it('are in the order of the chart’s questions', () => {
    const [first, last] = [cards[0], cards[cards.length - 1]];
    if (!first || !last) throw new Error('no cards');
    expect(named(last.lineId, first.lineId).map(({ id }) => id)).toEqual([
      first.lineId,
      last.lineId,
    ]);
  });

  it.each([
    ['of the other naming', `${chart}/cross-side/6/left-side/opposite`, 'Cross-side from 6.0'],
    ['of another chart', 'elsewhere/cross-corner/2.25/foot-left', 'Cross-corner from 2.25'],
    [
      'a skill of another chart',
      'elsewhere/cross-side/low/rail ball',
      'Cross-side, rail ball, starts 5.0–5.9',
    ],
    [
      'of a pattern that is not known',
      'elsewhere/no-such/2/foot-left',
      'elsewhere/no-such/2/foot-left',
    ],
    ['that is no such id', 'a', 'a'],
    ['with a start that is none', 'elsewhere/cross-side/x/y', 'elsewhere/cross-side/x/y'],
  ])('%s are still there', (_what, id, name) => {
    expect(named(id)).toEqual([{ id, name, elsewhere: true }]);
  });
});
