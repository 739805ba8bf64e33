import { describe, expect, it } from 'vitest';
import {
  drillLabel,
  drillOf,
  helpFor,
  introWords,
  listed,
  nameOf,
} from '../../../src/app/memory/not-sticking.ts';
import { cardsOf, isLineCard, KINDS, type LineCard } from '../../../src/cards/index.ts';
import { computeChart, HARBOUR_LANE, toDecimal, toNumber } from '../../../src/charts/index.ts';
import { drillCards, formatDrill, parseDrill, printOf } from '../../../src/quiz/index.ts';

const chart = computeChart(HARBOUR_LANE);
const tolerance = toDecimal(0.1);
const cards = cardsOf(chart, tolerance);
const lines = cards.filter(isLineCard);
const numbers = lines.filter(({ kind }) => kind === 'number');

function sibling(card: LineCard, kind: LineCard['kind']): LineCard {
  const found = lines.find((one) => one.lineId === card.lineId && one.kind === kind);
  if (!found) throw new Error(`${card.id} has no ${kind}`);
  return found;
}

describe('cards that do not stick', () => {
  const [first, ...rest] = numbers as [LineCard, ...LineCard[]];

  it('are listed in order, five at most, each line once, and only kinds that are asked', () => {
    const seven = [first, sibling(first, 'window'), ...rest.slice(0, 5)];
    expect(listed(seven, KINDS)).toEqual([first, ...rest.slice(0, 4)]);
    expect(listed([sibling(first, 'window'), first], ['number'])).toEqual([first]);
    expect(listed([], KINDS)).toEqual([]);
  });

  it('are introduced as one or as several, with what helps', () => {
    const window = sibling(first, 'window');
    expect(introWords([first])).toBe(
      'You forget this one despite many answers. Count from a neighbor, or drill.',
    );
    expect(introWords([window, first])).toMatch(/^You forget these .+ a neighbor, or drill\.$/);
    expect(introWords([window])).toBe(
      'You forget this one despite many answers. A drill may help.',
    );
  });

  it('have names that tell the cards of a line apart', () => {
    const names = cards.map(nameOf);
    expect(new Set(names).size).toBe(cards.length);
    expect(nameOf(sibling(first, 'window'))).toBe(`${nameOf(first)}, window`);
  });

  it('have help if they ask a number, from their own pattern', () => {
    for (const card of cards) {
      const help = helpFor(chart, card, tolerance);
      if (card.kind !== 'number') expect(help).toEqual([]);
      else if (numbers.filter(({ pattern }) => pattern === card.pattern).length > 1) {
        expect(help[0]).toMatch(/[Aa]nchor/);
        expect(help[1]).toMatch(/^From \d+\.\d to \d+\.\d: .+\.$/);
        const [from, to] = (/^From (\S+) to ([\d.]+):/.exec(help[1] ?? '') ?? [])
          .slice(1)
          .map(Number);
        const start = toNumber((card as LineCard).start);
        expect(from).toBeLessThanOrEqual(start);
        expect(to).toBeGreaterThanOrEqual(start);
      }
    }
  });

  it('have a drill that asks them', () => {
    for (const card of cards) {
      const spec = { ...drillOf(card), seed: 1, tolerance, given: true, print: printOf(chart) };
      const parsed = parseDrill(formatDrill(spec));
      expect(parsed.ok).toBe(true);
      const ids = drillCards(chart, spec).map(({ id }) => id);
      expect(ids, card.id).toContain(card.id);
      expect(drillLabel(card)).toMatch(/^Drill starts \d+\.\d–\d+\.\d$/);
    }
  });
});
