import { describe, expect, it } from 'vitest';
import { type Card, cardsOf, fieldsOf, parseAnswer, pictureFor } from '../../src/cards/index.ts';
import {
  computeChart,
  HARBOUR_LANE,
  minus,
  patternOf,
  toDecimal,
  toNumber,
} from '../../src/charts/index.ts';

const chart = computeChart(HARBOUR_LANE);
const cards = cardsOf(chart);
const number = cards.find((card) => card.kind === 'number' && card.pattern === 'foot-to-side');
const window_ = cards.find((card) => card.kind === 'window');
if (!number || !window_) throw new Error('both kinds should be there');

describe('cards', () => {
  it('ask each line for its number and its window, once', () => {
    expect(cards.length).toBe(2 * chart.lines.length);
    expect(new Set(cards.map((card) => card.id)).size).toBe(cards.length);
  });

  it('have ids made of what they ask, so that memory outlives a correction', () => {
    const firmer = {
      ...HARBOUR_LANE,
      revisions: [{ ...HARBOUR_LANE.revisions[0], why: 'another condition' }] as const,
    };
    // Some lines of more than one cushion are out of reach in one condition or the other.
    const single = (all: readonly Card[]) =>
      all.filter((card) => patternOf(card.pattern).cushions.length === 1);
    const again = single(cardsOf(computeChart(firmer)));
    expect(again.map((card) => card.id)).toEqual(single(cards).map((card) => card.id));
    expect(again.map((card) => card.truth)).not.toEqual(single(cards).map((card) => card.truth));
    expect(number.id).toMatch(
      /^harbour-lane-9ft\/foot-to-side\/\d[\d.]*\/right-side\/medium\/number$/,
    );
  });

  it('ask fewer cushions first, and among them whole diamonds before halves', () => {
    const rank = (card: Card) =>
      2 * patternOf(card.pattern).cushions.length + (card.start % 10_000 === 0 ? 0 : 1);
    expect(cards.map(rank)).toEqual(cards.map(rank).sort((a, b) => a - b));
  });

  it('have a memory of their own in each naming', () => {
    const opposite = cardsOf(computeChart(HARBOUR_LANE, 'opposite'));
    const through = new Set(cards.map((card) => card.id));
    expect(opposite).toHaveLength(cards.length);
    expect(opposite.some((card) => through.has(card.id))).toBe(false);
  });

  it('ask the middle of a pattern before its ends', () => {
    const starts = cards
      .filter((card) => card.pattern === 'foot-to-side' && card.kind === 'number')
      .map((card) => toNumber(card.start))
      .filter(Number.isInteger);
    expect(starts).toEqual([4, 5, 3, 6, 2, 7, 1, 8]);
  });

  it('take a window as the difference of what is printed', () => {
    const { soft, medium, firm } = window_.line.numbers;
    expect(window_.truth).toEqual([
      minus(soft.printed, medium.printed),
      minus(firm.printed, medium.printed),
    ]);
  });
});

describe('typed answers', () => {
  it('are read with a point or a comma', () => {
    expect(parseAnswer(number, ['2.3'])).toEqual({ ok: true, values: [toDecimal(2.3)] });
    expect(parseAnswer(number, ['2,3'])).toEqual({ ok: true, values: [toDecimal(2.3)] });
    expect(parseAnswer(window_, ['-0.1', '0,1'])).toEqual({
      ok: true,
      values: [toDecimal(-0.1), toDecimal(0.1)],
    });
  });

  it.each([
    [[''], 'empty'],
    [['abc'], 'not a number'],
    [['4.1'], 'out of range'],
    [['-1'], 'out of range'],
    [['1.2345'], 'too fine'],
    [['1'.repeat(5000)], 'too long'],
  ])('%j is refused with a sentence (%s)', (texts, error) => {
    const parsed = parseAnswer(number, texts);
    if (parsed.ok) throw new Error('it should be refused');
    expect(parsed.error).toBe(error);
    expect(parsed.say).toMatch(/^[A-Z].*\.$/);
  });

  it('say which of two fields is wrong', () => {
    const parsed = parseAnswer(window_, ['0.1', '']);
    expect(parsed.ok === false && parsed.field).toBe(1);
    expect(parsed.ok === false && parsed.say).toContain('firm');
  });

  it('have bounds from the rail that is asked', () => {
    expect(fieldsOf(number)[0]?.most).toBe(toDecimal(4));
    const across = cards.find((card) => card.pattern === 'cross-side' && card.kind === 'number');
    expect(across && fieldsOf(across)[0]?.most).toBe(toDecimal(8));
  });
});

describe('pictures', () => {
  it('come in all four mirrorings, in turn, and are the same again for the same turn', () => {
    const seen = [0, 1, 2, 3].map((times) => pictureFor(number.id, times));
    expect(new Set(seen.map((mirror) => JSON.stringify(mirror))).size).toBe(4);
    expect(pictureFor(number.id, 2)).toEqual(seen[2]);
  });
});
