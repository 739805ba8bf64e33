import { describe, expect, it } from 'vitest';
import {
  type Asker,
  type Card,
  cardsOf,
  fieldsOf,
  isLineCard,
  type LineCard,
  parseAnswer,
  patternIn,
  pictureFor,
  type Question,
  questionOf,
} from '../../src/cards/index.ts';
import {
  anchorBound,
  anchorsOf,
  computeChart,
  type Decimal,
  HARBOUR_LANE,
  lastRevision,
  minus,
  patternOf,
  toDecimal,
  toNumber,
} from '../../src/charts/index.ts';

const chart = computeChart(HARBOUR_LANE);
const tolerance = toDecimal(0.1);
const asker: Asker = { chart, tolerance, speeds: ['medium'] };
const cards = cardsOf(chart, tolerance);
const lineCards = cards.filter(isLineCard);
const number = cardOf('number', 'foot-to-side');
const window_ = cardOf('window', 'foot-to-side');
const asked = questionFor(number);
const askedWindow = questionFor(window_);

describe('cards', () => {
  it('ask each line once for its number, its window and how far to trust it', () => {
    for (const kind of ['number', 'window', 'trust'] as const) {
      const lines = cards.filter((card) => card.kind === kind).map((card) => card.lineId);
      expect(new Set(lines).size).toBe(chart.lines.length);
      expect(lines).toHaveLength(chart.lines.length);
    }
    expect(new Set(cards.map((card) => card.id)).size).toBe(cards.length);
  });

  it('take work that grows with the lines, not with their square', () => {
    const reads = (each: number): number => {
      let count = 0;
      const counting = <T extends { readonly start: Decimal | null }>(one: T): T => {
        const { start } = one;
        return Object.defineProperty({ ...one }, 'start', {
          enumerable: true,
          get: () => {
            count += 1;
            return start;
          },
        });
      };
      const numbers = { soft: toDecimal(2), medium: toDecimal(2), firm: toDecimal(2) };
      const measured = chart.patterns.flatMap((pattern) =>
        Array.from({ length: each }, (_, n) => ({
          ...{ pattern, start: toDecimal(1 + Number((n / each).toFixed(4))), ...numbers },
        })),
      );
      const revision = { ...lastRevision(HARBOUR_LANE), measured };
      const many = computeChart({ ...HARBOUR_LANE, basis: 'measured', revisions: [revision] });
      const priorities = measured.map(({ pattern, start }) =>
        counting({ pattern, start, priority: 'last' as const }),
      );
      const watched = {
        ...many,
        state: { ...many.state, priorities },
        lines: many.lines.map(counting),
      };
      const made = cardsOf(watched, tolerance);
      expect(made.length).toBeGreaterThan(measured.length);
      return count;
    };
    // Sorting takes a little more than double.
    expect(reads(80) / reads(40)).toBeLessThan(2.3);
  });

  it('have ids that depend on what they ask only, so that memory outlives a correction', () => {
    const firmer = {
      ...HARBOUR_LANE,
      revisions: [
        { ...HARBOUR_LANE.revisions[0], patterns: chart.patterns, why: 'another condition' },
      ] as const,
    };
    // Some lines with several cushions cannot be reached in one condition or the other.
    const single = (all: readonly Card[]) =>
      all.filter(isLineCard).filter((card) => patternOf(card.pattern).cushions.length === 1);
    const again = single(cardsOf(computeChart(firmer), tolerance));
    const printed = (card: LineCard) => card.line.numbers.medium.printed;
    // The order may change, because anchors come before the lines between them.
    expect(again.map((card) => card.id).sort()).toEqual(
      single(cards)
        .map((card) => card.id)
        .sort(),
    );
    expect(again.map(printed)).not.toEqual(single(cards).map(printed));
    expect(number.id).toMatch(
      /^harbour-lane-9ft\/foot-to-side\/\d[\d.]*\/right-side\/medium\/number$/,
    );
  });

  it('ask lines with fewer cushions first, then anchors, then whole diamonds before halves', () => {
    const rank = (card: LineCard) =>
      4 * patternOf(card.pattern).cushions.length +
      2 * (card.interpolation ? 1 : 0) +
      (card.start % 10_000 === 0 ? 0 : 1);
    expect(lineCards.map(rank)).toEqual(lineCards.map(rank).sort((a, b) => a - b));
  });

  it('have their own memory in each naming', () => {
    const opposite = cardsOf(computeChart(HARBOUR_LANE, 'opposite'), tolerance);
    const through = new Set(cards.map((card) => card.id));
    expect(opposite).toHaveLength(cards.length);
    expect(opposite.some((card) => through.has(card.id))).toBe(false);
  });

  it('ask the middle of a pattern before its ends', () => {
    const wholes = lineCards.filter(
      (card) =>
        card.pattern === 'foot-to-side' && card.kind === 'number' && card.start % 10_000 === 0,
    );
    const fromMiddle = (some: readonly LineCard[]) =>
      some.map((card) => Math.abs(toNumber(card.start) - 4.5));
    for (const some of [
      wholes.filter(({ interpolation }) => interpolation),
      wholes.filter(({ interpolation }) => !interpolation),
    ]) {
      expect(some.length).toBeGreaterThan(1);
      expect(fromMiddle(some)).toEqual(fromMiddle(some).sort((a, b) => a - b));
    }
  });

  it('place every line between its two neighboring anchors, but no anchor', () => {
    const numbers = lineCards.filter(({ kind }) => kind === 'number');
    const of = new Map(numbers.map((card) => [card.id, card]));
    for (const pattern of chart.patterns) {
      const own = numbers.filter((card) => card.pattern === pattern);
      const { chosen } = anchorsOf(
        chart.lines.filter((line) => line.pattern === pattern),
        anchorBound(tolerance),
      );
      expect(own.filter(({ interpolation }) => !interpolation)).toHaveLength(chosen.length);
    }
    for (const { start, interpolation } of numbers) {
      if (!interpolation) continue;
      const [low, high] = interpolation.anchors.map((id) => of.get(id)) as [LineCard, LineCard];
      expect([low.interpolation, high.interpolation]).toEqual([null, null]);
      expect(low.start).toBeLessThan(start);
      expect(high.start).toBeGreaterThan(start);
      expect(cards.find(({ id }) => id === interpolation.skill)?.after).toEqual(
        expect.arrayContaining([...interpolation.anchors]),
      );
    }
  });

  it('give a window as the difference of printed numbers', () => {
    const { soft, medium, firm } = window_.line.numbers;
    expect(askedWindow.truth).toEqual([
      minus(soft.printed, medium.printed),
      minus(firm.printed, medium.printed),
    ]);
  });
});

describe('the pattern in a card’s id', () => {
  it('is that of the card', () => {
    for (const { id, pattern } of cardsOf(computeChart(HARBOUR_LANE), toDecimal(0.1)))
      expect(patternIn(id)).toBe(pattern);
  });

  it.each(['', '/', 'harbour-lane', 'harbour-lane/no-such-bank/10000/number', 'cross-sides/1'])(
    'is none in "%s"',
    (id) => expect(patternIn(id)).toBeNull(),
  );
});

describe('typed answers', () => {
  it('may have a point or a comma', () => {
    expect(parseAnswer(asked, ['2.3'])).toEqual({ ok: true, values: [toDecimal(2.3)] });
    expect(parseAnswer(asked, ['2,3'])).toEqual({ ok: true, values: [toDecimal(2.3)] });
    expect(parseAnswer(askedWindow, ['-0.1', '0,1'])).toEqual({
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
    const parsed = parseAnswer(asked, texts);
    if (parsed.ok) throw new Error('it should be refused');
    expect(parsed.error).toBe(error);
    expect(parsed.say).toMatch(/^[A-Z].*\.$/);
  });

  it('say which of two fields is wrong', () => {
    const parsed = parseAnswer(askedWindow, ['0.1', '']);
    expect(parsed.ok === false && parsed.field).toBe(1);
    expect(parsed.ok === false && parsed.say).toContain('firm');
  });

  it('are bounded by the rail in question', () => {
    expect(fieldsOf(asked)[0]?.most).toBe(toDecimal(4));
    const across = questionFor(cardOf('number', 'cross-side'));
    expect(fieldsOf(across)[0]?.most).toBe(toDecimal(8));
  });
});

describe('pictures', () => {
  it('come in all four mirror images in turn, and are the same again for the same turn', () => {
    const seen = [0, 1, 2, 3].map((times) => pictureFor(number.id, times));
    expect(new Set(seen.map((mirror) => JSON.stringify(mirror))).size).toBe(4);
    expect(pictureFor(number.id, 2)).toEqual(seen[2]);
  });
});

function cardOf(kind: LineCard['kind'], pattern: LineCard['pattern']): LineCard {
  const card = lineCards.find((one) => one.kind === kind && one.pattern === pattern);
  if (!card) throw new Error(`no ${kind} of ${pattern}`);
  return card;
}

function questionFor(card: Card): Question {
  const question = questionOf(asker, card, 0);
  if (!question) throw new Error(`nothing to ask of ${card.id}`);
  return question;
}
