import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Card, cardsOf, isLineCard, KINDS, type LineCard } from '../../../src/cards/index.ts';
import { computeChart, HARBOUR_LANE, toDecimal } from '../../../src/charts/index.ts';
import {
  agendaFor,
  foldLog,
  heldOn,
  holdOf,
  type LogEvent,
  learnedOf,
  nextStep,
  planFor,
  planRequestOf,
  type QueueSettings,
} from '../../../src/scheduler/index.ts';
import { answer, base, said } from '../making.ts';

const cards = cardsOf(computeChart(HARBOUR_LANE), toDecimal(0.1));
const numbers = cards.filter((card): card is LineCard => card.kind === 'number');
const anchors = numbers.filter(({ interpolation }) => !interpolation);
const interpolated = numbers.filter(({ interpolation }) => interpolation);
const settings: QueueSettings = {
  targetRecall: 0.9,
  newLinesPerDay: 6,
  meetFirst: true,
  kinds: KINDS,
  anchorsOnly: true,
};

describe('a line between anchors', () => {
  it('is a common one', () => {
    expect(interpolated.length).toBeGreaterThan(anchors.length / 2);
  });

  it('is never met, however long the player learns, unlike its anchors and their skill', () => {
    const events = learn(60, settings);
    const { met, memories } = foldLog(events);
    for (const { lineId } of interpolated) expect(met.has(lineId)).toBe(false);
    for (const { lineId } of anchors) expect(met.has(lineId)).toBe(true);
    for (const { interpolation } of interpolated)
      expect(memories.has(interpolation?.skill ?? '')).toBe(true);
  });

  it('is worked out only on a day after both anchors were right', () => {
    const events = learn(60, settings);
    for (const { interpolation } of interpolated) {
      const first = firstDay(events, interpolation?.skill ?? '');
      for (const id of interpolation?.anchors ?? [])
        expect(firstDay(events, id)).toBeLessThan(first);
    }
  });

  it('is learned by heart after its anchors where the player wants every line', () => {
    const events = learn(60, { ...settings, anchorsOnly: false });
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

describe('a plan', () => {
  const plan = (events: readonly LogEvent[], today: number, day: number, answersADay = 20) => {
    const log = foldLog(events);
    const reply = planFor(
      planRequestOf(cards, log, today, settings, { day, answersADay, worth: () => 1 }),
    );
    return { log, reply, asked: { ...settings, plan: { ...reply.plan, next: null } } };
  };

  it('gives the agenda: its cards, and what was met or missed today', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 20 }),
        fc.integer({ min: 1, max: 30 }),
        (days, left) => {
          const events = learn(days, settings);
          const today = 100 + days;
          const { log, reply, asked } = plan(events, today, today + left);
          const { due, fresh } = agendaFor(cards, log, today, asked);
          const ids = [...due, ...fresh].map(({ id }) => id);
          expect(ids.every((id) => reply.plan.ask.includes(id))).toBe(true);
          // One card of a line a day is asked, one after the other.
          const lines = new Set(
            cards.filter(({ id }) => reply.plan.ask.includes(id)).map(({ lineId }) => lineId),
          );
          expect(new Set([...due, ...fresh].map(({ lineId }) => lineId))).toEqual(lines);
        },
      ),
      { numRuns: 8 },
    );
  });

  it('is done when all its cards were asked, and not before', () => {
    const before = learn(5, settings);
    const { reply, asked } = plan(before, 105, 120);
    const events = [...before];
    const steps = reply.plan.ask.length;
    let left = 200;
    for (;;) {
      const step = nextStep(cards, foldLog(events), 105, asked);
      if (!step || left === 0) break;
      left -= 1;
      events.push(eventOf(step, events.length, 105));
    }
    const answered = events.filter(({ type, day }) => type === 'answered' && day === 105);
    expect(answered).toHaveLength(steps);
  });

  it('of another day is not followed', () => {
    const { log, asked } = plan(learn(5, settings), 105, 120);
    expect(agendaFor(cards, log, 106, asked)).toEqual(agendaFor(cards, log, 106, settings));
  });
});

/** Plays days from 100 on with every answer right. */
function learn(days: number, some: QueueSettings): LogEvent[] {
  const events: LogEvent[] = [];
  for (let day = 100; day < 100 + days; day++) {
    let log = foldLog(events);
    for (;;) {
      const step = nextStep(cards, log, day, some);
      if (!step) break;
      events.push(eventOf(step, events.length, day));
      log = foldLog(events);
    }
  }
  return events;
}

function eventOf(
  { type, card }: { readonly type: 'meet' | 'ask'; readonly card: Card },
  seq: number,
  day: number,
): LogEvent {
  if (type === 'meet') return said(base(seq, day), 'met', { line: card.lineId });
  return { ...answer(seq, card.id, day), kind: card.kind };
}

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
