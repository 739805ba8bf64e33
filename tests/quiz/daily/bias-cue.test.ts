import { describe, expect, it } from 'vitest';
import { type Card, cardsOf } from '../../../src/cards/index.ts';
import { computeChart, HARBOUR_LANE, patternOf, toDecimal } from '../../../src/charts/index.ts';
import { biasCue } from '../../../src/quiz/daily/bias-cue.ts';

const chart = computeChart(HARBOUR_LANE);
const cards = cardsOf(chart, toDecimal(0.1));
const numbers = cards.filter(({ kind }) => kind === 'number');
const [first] = numbers;
if (!first) throw new Error('the chart has lines');
const siblings = numbers.filter(({ pattern }) => pattern === first.pattern);
const TODAY = 300;

const HIGH = [0.1, 0.1, 0.1, 0.1, 0, 0.1, 0.1, 0.1];

describe('a cue against a bias', () => {
  it('names the line, the size, the side and how often', () => {
    expect(cueFor(first, [first])).toBe('You tend to call this line 0.1 high: 7 of your last 8.');
  });

  it('names the pattern if the bias is the pattern’s', () => {
    const name = patternOf(first.pattern).name;
    expect(cueFor(first, siblings.slice(0, 4))).toBe(
      `You tend to call numbers on ${name} 0.1 high: 28 of your last 32.`,
    );
  });

  it('is null without a bias', () => {
    expect(cueFor(first, [])).toBeNull();
    const other = numbers.find(({ pattern }) => pattern !== first.pattern);
    expect(cueFor(other ?? first, [first])).toBeNull();
  });

  it('is null for a question that asks no number', () => {
    for (const card of cards.filter(
      ({ kind, pattern }) => kind !== 'number' && pattern === first.pattern,
    ))
      expect(cueFor(card, siblings.slice(0, 4))).toBeNull();
  });
});

/** The cue on a card, if these cards are called high. */
function cueFor(card: Card, high: readonly Card[]): string | null {
  const recent = HIGH.map((error, n) => ({ day: TODAY - 20 + n, errors: [error] }));
  const memories = new Map(high.map(({ id }) => [id, { recent }]));
  return biasCue(memories, cards, card, TODAY, chart);
}
