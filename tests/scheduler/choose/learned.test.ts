import { describe, expect, it } from 'vitest';
import { cardsOf, isLineCard, type LineCard } from '../../../src/cards/index.ts';
import { computeChart, HARBOUR_LANE, toDecimal } from '../../../src/charts/index.ts';
import { foldLog, heldOn, holdOf, type LogEvent, learnedOf } from '../../../src/scheduler/index.ts';
import { answer, base, said } from '../making.ts';
import { learn, WISH } from './playing.ts';

const cards = cardsOf(computeChart(HARBOUR_LANE), toDecimal(0.1));
const numbers = cards.filter((card): card is LineCard => card.kind === 'number');
const anchors = numbers.filter(({ interpolation }) => !interpolation);
const interpolated = numbers.filter(({ interpolation }) => interpolation);
const settings = WISH;
/** Forty days with every answer right. */
const longPractice = learn(cards, 40, settings);

describe('a line between anchors', () => {
  it('is a common one', () => {
    expect(interpolated.length).toBeGreaterThan(anchors.length / 2);
  });

  it('is never met, however long the player learns, unlike its anchors and their skill', () => {
    const events = longPractice;
    const { met, memories } = foldLog(events);
    for (const { lineId } of interpolated) expect(met.has(lineId)).toBe(false);
    for (const { lineId } of anchors) expect(met.has(lineId)).toBe(true);
    for (const { interpolation } of interpolated)
      expect(memories.has(interpolation?.skill ?? '')).toBe(true);
  });

  it('is worked out only on a day after both anchors were right', () => {
    const events = longPractice;
    for (const { interpolation } of interpolated) {
      const first = firstDay(events, interpolation?.skill ?? '');
      for (const id of interpolation?.anchors ?? [])
        expect(firstDay(events, id)).toBeLessThan(first);
    }
  });

  it('is learned by heart after its anchors where the player wants every line', () => {
    const events = learn(cards, 40, { ...settings, anchorsOnly: false });
    for (const { id, interpolation } of interpolated) {
      const first = firstDay(events, id);
      for (const anchor of interpolation?.anchors ?? []) {
        expect(firstDay(events, anchor)).toBeLessThanOrEqual(first);
      }
    }
  });

  it.each([
    ['an anchor is set aside', [aside(anchorOf(interpolated[0]))], settings],
    ['the skill is not asked', [], { ...settings, kinds: ['number', 'window'] as const }],
    ['it was asked before', [answer(1, interpolated[0]?.id ?? '', 100)], settings],
    [
      'it was met before',
      [said(base(1, 100), 'met', { line: interpolated[0]?.lineId ?? '' })],
      settings,
    ],
  ] as const)('is learned by heart if %s', (_why, events, some) => {
    const { workedOut } = learnedOf(cards, foldLog(events), some);
    expect(workedOut.has(interpolated[0]?.id ?? '')).toBe(false);
  });

  it('is known if both anchors and the skill are', () => {
    const [line] = interpolated as [LineCard];
    const { anchors, skill } = line.interpolation as NonNullable<LineCard['interpolation']>;
    const log = foldLog([...anchors, skill].map((id, n) => answer(n, id, 100 + n)));
    const wanted = [...anchors, skill].reduce((hold, id) => hold * holdOf(id, log, 120), 1);
    expect(wanted).toBeGreaterThan(0.1);
    expect(heldOn([line], log, 120).expected).toBe(wanted);
    expect(heldOn([line], foldLog(anchors.map((id, n) => answer(n, id, 100))), 120).expected).toBe(
      0,
    );
  });

  it('lets the cards after it wait for its anchors and skill instead', () => {
    const { cards: learned, workedOut } = learnedOf(cards, foldLog([]), settings);
    const asked = new Set(learned.map(({ id }) => id));
    expect(workedOut.size).toBe(interpolated.length);
    for (const { after } of learned) for (const id of after) expect(asked.has(id)).toBe(true);
  });
});

function firstDay(events: readonly LogEvent[], id: string): number {
  const first = events.find((event) => event.type === 'answered' && event.card === id);
  if (!first) throw new Error(`${id} was never asked`);
  return first.day;
}

function anchorOf(card: LineCard | undefined): string {
  const anchor = cards.filter(isLineCard).find(({ id }) => id === card?.interpolation?.anchors[0]);
  return anchor?.lineId ?? '';
}

function aside(line: string): LogEvent {
  return said(base(1, 100), 'set aside', { line, aside: true });
}
