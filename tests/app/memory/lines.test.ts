import { describe, expect, it } from 'vitest';
import { linesHeld, weakestOf, yieldOf } from '../../../src/app/memory/lines.ts';
import { cardsOf, type LineCard } from '../../../src/cards/index.ts';
import { computeChart, HARBOUR_LANE, toDecimal } from '../../../src/charts/index.ts';
import { foldLog, numberCards } from '../../../src/scheduler/index.ts';
import { answer, base, said } from '../../scheduler/making.ts';

const chart = computeChart(HARBOUR_LANE);
const cards = cardsOf(chart, toDecimal(0.1));
const [a, b, c] = numberCards(cards) as readonly [LineCard, LineCard, LineCard];
const log = foldLog([answer(1, b.id, 80), answer(2, c.id, 90), answer(3, a.id, 99)]);

describe('the lines of a chart', () => {
  it('appear once each, held or not', () => {
    const lines = linesHeld(cards, log, 100);
    expect(lines).toHaveLength(chart.lines.length);
    expect(lines.filter(({ hold }) => hold !== null)).toHaveLength(3);
  });

  it('are weaker the longer ago they were answered, all else equal', () => {
    const weak = weakestOf(linesHeld(cards, log, 100), log, 10);
    expect(weak.map(({ card }) => card)).toEqual([b, c, a]);
    expect(weakestOf(linesHeld(cards, log, 100), log, 2)).toHaveLength(2);
  });

  it('are not weak while they are set aside', () => {
    const aside = foldLog([
      ...log.events,
      said(base(4, 100), 'set aside', { line: b.lineId, aside: true }),
    ]);
    const weak = weakestOf(linesHeld(cards, aside, 100), aside, 10);
    expect(weak.map(({ card }) => card)).toEqual([c, a]);
  });
});

describe('the yield of answers', () => {
  const weeks = (...answers: readonly number[]) =>
    answers.map((count, n) => ({ day: 100 + 7 * n, answers: count }));

  it('is answers for each line held', () => {
    expect(yieldOf(weeks(30, 20, 10), 12)).toEqual({ answers: 60, each: 5, trend: null });
  });

  it('is no ratio while less than one line is held', () => {
    expect(yieldOf(weeks(3), 0.9).each).toBeNull();
    expect(yieldOf([], 0)).toEqual({ answers: 0, each: null, trend: null });
  });

  it('compares four weeks with the four before', () => {
    expect(yieldOf(weeks(9, 40, 30, 20, 10, 5, 5, 5, 5), 10).trend).toEqual({
      last: 20,
      before: 100,
    });
  });
});
