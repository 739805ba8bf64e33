/** What a revision does to memory: the whole rule as a table, and effects on whole charts. */
import { describe, expect, it } from 'vitest';
import { effectOf } from '../../src/cards/effect.ts';
import { cardsOf, effectsOf, isLineCard } from '../../src/cards/index.ts';
import type { Effect } from '../../src/cards/move.ts';
import {
  type Chart,
  computeChart,
  type Decimal,
  HARBOUR_LANE,
  lastRevision,
  type MeasuredLine,
  sharedLines,
  toDecimal,
  toNumber,
} from '../../src/charts/index.ts';

const TENTH = toDecimal(0.1);

describe('the rule of revisions', () => {
  type Row = readonly [string, readonly number[], readonly number[] | null, number, Effect];
  // The rule: if the printed number stays, nothing; within the tolerance, memory stays and the change is
  // shown once; beyond it, due now and relearned. In exact decimals, the tolerance itself is within it.
  const rows: readonly Row[] = [
    ['a number printed as before', [3.2], [3.2], 0.1, 'unchanged'],
    ['a number within the tolerance', [3.2], [3.25], 0.1, 'shifted'],
    ['a number moved down within the tolerance', [3.2], [3.15], 0.1, 'shifted'],
    ['a number moved by the tolerance', [3.2], [3.3], 0.1, 'shifted'],
    ['0.1 + 0.2, which is 0.3', [0.3], [0.1 + 0.2], 0.05, 'unchanged'],
    ['a number moved a step beyond the tolerance', [3.2], [3.35], 0.1, 'moved'],
    ['a number moved within a loose tolerance', [3.2], [3.4], 0.2, 'shifted'],
    ['a number moved beyond a strict tolerance', [3.2], [3.3], 0.05, 'moved'],
    ['a window as before', [-0.1, 0.2], [-0.1, 0.2], 0.1, 'unchanged'],
    ['a window with one side that shifts', [-0.1, 0.2], [-0.1, 0.3], 0.1, 'shifted'],
    ['a window with one side that moves', [-0.1, 0.2], [-0.3, 0.2], 0.1, 'moved'],
    ['a window that shifts on one side and moves on the other', [0, 0], [0.1, 0.2], 0.1, 'moved'],
    ['a verdict as before', [0], [0], 0, 'unchanged'],
    ['another verdict', [0], [1], 0, 'moved'],
    ['a card that leaves the chart', [3.2], null, 0.1, 'left'],
  ];
  it.each(rows)('%s', (_name, from, to, tolerance, effect) => {
    const decimals = (values: readonly number[]) => values.map(toDecimal);
    expect(effectOf(decimals(from), to && decimals(to), toDecimal(tolerance))).toBe(effect);
  });
});

const chart = computeChart(HARBOUR_LANE);
const cards = cardsOf(chart, TENTH).filter(isLineCard);
const all = {
  has: () => true,
  marked: () => false,
  standsFor: () => null,
  pending: () => null,
};
const place = { pattern: 'cross-side', start: toDecimal(6) } as const;
const line = chart.lines.find((one) => one.pattern === place.pattern && one.start === place.start);
if (!line) throw new Error('no line');
const number = cards.find((card) => card.line === line && card.kind === 'number');

/** Rounds off what binary fractions add. */
const tenths = (value: number) => toNumber(toDecimal(value));

/** The demo chart with one line measured, all its numbers moved by this much. */
function movedBy(by: number): Chart {
  const given = (printed: Decimal) => toDecimal(toNumber(printed) + by);
  const { soft, medium, firm } = (line as NonNullable<typeof line>).numbers;
  const measured: MeasuredLine = {
    ...place,
    soft: given(soft.printed),
    medium: given(medium.printed),
    firm: given(firm.printed),
  };
  const last = { ...lastRevision(HARBOUR_LANE), measured: [measured] };
  return computeChart({ ...HARBOUR_LANE, revisions: [last] });
}

describe('a revision of a chart', () => {
  it('that changes nothing touches nothing', () => {
    const effects = effectsOf(chart, chart, TENTH, all);
    expect(effects).toEqual({
      moves: [],
      moved: 0,
      shifted: 0,
      left: 0,
      untouched: chart.lines.length,
      unlearned: 0,
    });
  });

  it('affects the line that it moves and no other', () => {
    const effects = effectsOf(chart, movedBy(0.4), TENTH, all);
    expect(effects).toMatchObject({ moved: 1, shifted: 0, untouched: chart.lines.length - 1 });
    const printed = toNumber(line.numbers.medium.printed);
    const move = effects.moves.find(({ card }) => card === number?.id);
    expect(move).toMatchObject({ effect: 'moved', from: [printed], to: [tenths(printed + 0.4)] });
    // A window is relative to medium, and all three numbers moved alike.
    expect(effects.moves.every(({ line: moved }) => moved === number?.lineId)).toBe(true);
    expect(effects.moves.some(({ card }) => card.endsWith('/window'))).toBe(false);
  });

  it('affects nothing that is not remembered', () => {
    const none = { ...all, has: () => false };
    const effects = effectsOf(chart, movedBy(0.4), TENTH, none);
    expect(effects).toMatchObject({ moves: [], moved: 0, unlearned: chart.lines.length });
  });

  // To a player who learned the first number, two shifts of 0.08 that were never shown are 0.16.
  it('measures from what memory stands for, so that small shifts add up', () => {
    const printed = toNumber(line.numbers.medium.printed);
    const effects = effectsOf(chart, movedBy(0.1), TENTH, {
      ...all,
      standsFor: (card) => (card === number?.id ? [printed - 0.1] : null),
    });
    const move = effects.moves.find(({ card }) => card === number?.id);
    expect(move).toMatchObject({ effect: 'moved', from: [tenths(printed - 0.1)] });
  });

  it('reports a number that returns to what memory stands for', () => {
    const printed = toNumber(line.numbers.medium.printed);
    const shifted = tenths(printed + 0.1);
    const stands = {
      ...all,
      standsFor: (card: string) => (card === number?.id ? [printed] : null),
      pending: (card: string) => (card === number?.id ? [shifted] : null),
    };
    const effects = effectsOf(movedBy(0.1), chart, TENTH, stands);
    expect(effects.moves.find(({ card }) => card === number?.id)?.effect).toBe('unchanged');
    expect(effects.shifted).toBe(0);
  });

  it('keeps the memory of lines that leave the chart', () => {
    const { patterns } = chart;
    const last = {
      ...lastRevision(HARBOUR_LANE),
      patterns: patterns.filter((id) => id !== 'cross-side'),
    };
    const effects = effectsOf(
      chart,
      computeChart({ ...HARBOUR_LANE, revisions: [last] }),
      TENTH,
      all,
    );
    const gone = chart.lines.filter(({ pattern }) => pattern === 'cross-side').length;
    expect(effects).toMatchObject({ left: gone, moved: 0, untouched: chart.lines.length - gone });
    expect(effects.moves.every(({ to, effect }) => to === null && effect === 'left')).toBe(true);
  });

  it('carries memory over when a line’s card passes to another chart', () => {
    const other = { ...HARBOUR_LANE, id: 'other' } as const;
    const shared = computeChart(other, 'through', sharedLines(other, HARBOUR_LANE));
    const { moves } = effectsOf(computeChart(other), shared, TENTH, all);
    const carried = moves.find(({ card }) => card === number?.id);
    expect(carried).toMatchObject({
      effect: 'unchanged',
      was: number?.id.replace(/^[^/]+/, 'other'),
    });
    // How far to trust a line depends on each table.
    expect(moves.some(({ card }) => card.endsWith('/trust'))).toBe(false);
  });
});
