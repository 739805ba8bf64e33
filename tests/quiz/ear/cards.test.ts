import { describe, expect, it } from 'vitest';
import type { LineCard } from '../../../src/cards/index.ts';
import { nextByEar } from '../../../src/quiz/ear/cards.ts';
import {
  foldLog,
  type LogEvent,
  PUBLISHED,
  type QueueSettings,
} from '../../../src/scheduler/index.ts';
import { answer, base, judged, said } from '../../scheduler/making.ts';
import { cards, TODAY } from './device.ts';

const { recall } = PUBLISHED;

const settings: QueueSettings = {
  targetRecall: 0.9,
  newLinesPerDay: 6,
  meetFirst: true,
  kinds: ['number', 'window', 'trust'],
};
/** Without windows, which become due the day after their number was right. */
const plain: QueueSettings = { ...settings, kinds: ['number'] };
const numbers = cards.filter((card): card is LineCard => card.kind === 'number');
const [first, second, third] = numbers as [LineCard, LineCard, LineCard];
const met = (seq: number, card: LineCard, day: number) =>
  said(base(seq, day), 'met', { line: card.lineId });
const next = (events: readonly LogEvent[], wanted = settings) =>
  nextByEar(cards, foldLog(events), TODAY, wanted);

describe('the next card by ear', () => {
  it('is none while the player has met no line', () => {
    expect(next([])).toEqual({ type: 'none met' });
  });

  it('is a line that was met but not asked yet', () => {
    expect(next([met(0, second, TODAY)])).toEqual({ type: 'ask', card: second });
  });

  it('is not a line that moved until the player has seen its new number', () => {
    const moves = [
      {
        card: first.id,
        line: first.lineId,
        effect: 'moved' as const,
        from: [3.2],
        to: [3.5],
      },
    ];
    const what = { chart: 'x', revision: 2, digest: '0123456789abcdef', moves };
    const events = [answer(0, first.id, TODAY - 60), said(base(1, TODAY), 'revised', what)];
    expect(next([...events, met(2, second, TODAY)], plain)).toEqual({ type: 'ask', card: second });
    expect(next([...events, met(2, first, TODAY)], plain)).toEqual({ type: 'ask', card: first });
  });

  it('is a due card before one that is not due', () => {
    // A first "rattled" falls due in days, a "pocketed" after it is held longer: FSRS-6.
    const events = [answer(0, first.id, TODAY - 60), answer(1, second.id, TODAY - 1)];
    expect(next(events, plain)).toEqual({ type: 'ask', card: first });
  });

  it('is then the weakest memory of the lines not asked today', () => {
    // A first "dead center" is held for 8 days: S0(4) = w3 = 8.2956 of FSRS-6.
    const sure = (seq: number, card: LineCard, day: number) =>
      ({ ...answer(seq, card.id, day), outcome: 'dead center' }) as const;
    const events = [sure(0, second, TODAY - 4), sure(1, third, TODAY - 1)];
    const { memories } = foldLog(events);
    const hold = (card: LineCard, days: number) => recall(memories.get(card.id) as never, days);
    expect(hold(second, 4)).toBeLessThan(hold(third, 1));
    expect(hold(second, 4)).toBeGreaterThan(0.9);
    expect(next(events, plain)).toEqual({ type: 'ask', card: second });
    const after = [...events, judged(2, second.id, TODAY, true)];
    expect(next(after, plain)).toEqual({ type: 'ask', card: third });
    expect(next([...after, judged(3, third.id, TODAY, true)], plain)).toEqual({
      type: 'all asked',
    });
  });

  it('is another card between two attempts at a missed one, or the missed one if there is no other', () => {
    const missed = [answer(0, third.id, TODAY - 1), judged(1, first.id, TODAY, false)];
    expect(next(missed, plain)).toEqual({ type: 'ask', card: third });
    expect(next(missed.slice(1), plain)).toEqual({ type: 'ask', card: first });
  });

  it('is never a line that was not met, however many new lines a day are allowed', () => {
    const log = [answer(0, first.id, TODAY)];
    expect(next(log, { ...settings, newLinesPerDay: 20 })).toEqual({ type: 'all asked' });
  });

  it('is no line that is set aside', () => {
    const aside = said(base(1, TODAY), 'set aside', { line: first.lineId, aside: true });
    expect(next([answer(0, first.id, TODAY - 60), aside])).toEqual({ type: 'all asked' });
  });

  it('is a window once its number was right on an earlier day, if windows are wanted', () => {
    const window = cards.find((card) => card.lineId === first.lineId && card.kind === 'window');
    const events = [answer(0, first.id, TODAY - 1)];
    expect(next(events)).toEqual({ type: 'ask', card: window });
    expect(next(events, plain)).toEqual({ type: 'ask', card: first });
  });

  it('is always a number or a window', () => {
    // A month in which every line met is asked every day and judged "had it".
    const events: LogEvent[] = numbers.slice(0, 6).map((card, n) => met(n, card, TODAY));
    const kinds = new Set<string>();
    for (let day = TODAY; day < TODAY + 30; day++) {
      for (;;) {
        const step = nextByEar(cards, foldLog(events), day, settings);
        if (step.type !== 'ask') break;
        kinds.add(step.card.kind);
        expect(numbers.slice(0, 6).map((card) => card.lineId)).toContain(step.card.lineId);
        events.push({ ...judged(events.length, step.card.id, day, true), kind: step.card.kind });
      }
    }
    expect([...kinds].sort()).toEqual(['number', 'window']);
  });
});
