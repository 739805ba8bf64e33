import { describe, expect, it } from 'vitest';
import type { LineCard } from '../../../src/cards/index.ts';
import { nextByEar } from '../../../src/quiz/ear/cards.ts';
import { foldLog, type LogEvent, PUBLISHED, type Wish } from '../../../src/scheduler/index.ts';
import { answer, base, judged, said } from '../../scheduler/making.ts';
import { cards, TODAY } from './device.ts';

const { recall } = PUBLISHED;

const settings: Wish = {
  newLinesADay: null,
  meetFirst: true,
  kinds: ['number', 'window', 'trust'],
  day: null,
  worth: () => 1,
};
const plain: Wish = { ...settings, kinds: ['number'] };
/** Lines that count the same. */
const numbers = cards.filter(
  (card): card is LineCard => card.kind === 'number' && card.priority === cards[0]?.priority,
);
const [first, second, third, fourth] = numbers as [LineCard, LineCard, LineCard, LineCard];
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

  it('is a line not asked for long before one asked yesterday', () => {
    const events = [answer(0, first.id, TODAY - 60), answer(1, second.id, TODAY - 1)];
    expect(next(events, plain)).toEqual({ type: 'ask', card: first });
  });

  it('is the weaker of two memories first, and each line once a day', () => {
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

  it('is a missed line again after two others', () => {
    const waiting = [answer(0, fourth.id, TODAY - 1)];
    const missed = [...waiting, judged(1, first.id, TODAY, false)];
    const others = [judged(2, second.id, TODAY, true), judged(3, third.id, TODAY, true)];
    expect(next([...missed, ...others.slice(0, 1)], plain)).toEqual({ type: 'ask', card: fourth });
    expect(next([...missed, ...others], plain)).toEqual({ type: 'ask', card: first });
  });

  it('is no line that was missed three times today', () => {
    const misses = [0, 1, 2].map((n) => judged(n, first.id, TODAY, false));
    expect(next(misses.slice(0, 2), plain)).toEqual({ type: 'ask', card: first });
    expect(next(misses, plain)).toEqual({ type: 'all asked' });
    expect(nextByEar(cards, foldLog(misses), TODAY + 1, plain)).toEqual({
      type: 'ask',
      card: first,
    });
  });

  it.each([null, 20, 0])('is never a line that was not met, with %s new lines a day', (limit) => {
    const log = [answer(0, first.id, TODAY)];
    expect(next(log, { ...settings, newLinesADay: limit })).toEqual({ type: 'all asked' });
    // A line that was met may be asked, even if no new ones are wanted.
    const wish = { ...settings, newLinesADay: limit };
    expect(next([met(0, second, TODAY)], wish)).toEqual({ type: 'ask', card: second });
  });

  it('is no line that is set aside', () => {
    const aside = said(base(1, TODAY), 'set aside', { line: first.lineId, aside: true });
    expect(next([answer(0, first.id, TODAY - 60), aside])).toEqual({ type: 'all asked' });
  });

  // A line that was never shown as new has no "met" event, only a memory of its number.
  it.each<readonly [string, (card: LineCard, n: number) => LogEvent]>([
    ['met', (card: LineCard, n: number) => met(n, card, TODAY - 1)],
    ['answered', (card: LineCard, n: number) => answer(n, card.id, TODAY - 1)],
  ])('is a number, or a window after its number was right, of lines that were %s', (_, begin) => {
    const lines = numbers.slice(0, 6);
    const events: LogEvent[] = lines.map(begin);
    const kinds = new Set<string>();
    // A month in which every line is asked every day and judged "had it".
    for (let day = TODAY; day < TODAY + 30; day++) {
      for (;;) {
        const log = foldLog(events);
        const step = nextByEar(cards, log, day, settings);
        if (step.type !== 'ask') break;
        const { id, lineId, kind } = step.card;
        kinds.add(kind);
        const number = lines.find((card) => card.lineId === lineId);
        expect(number).toBeDefined();
        if (kind === 'window') {
          const { firstDay, lastOutcome } = log.memories.get(number?.id ?? '') ?? {};
          expect(firstDay).toBeLessThan(day);
          expect(lastOutcome).toBe('pocketed');
        }
        events.push({ ...judged(events.length, id, day, true), kind });
      }
    }
    expect([...kinds].sort()).toEqual(['number', 'window']);
  });

  it('is no window if windows are not wanted', () => {
    const window = cards.find(({ lineId, kind }) => lineId === first.lineId && kind === 'window');
    const asked = { ...answer(1, window?.id ?? '', TODAY - 60), kind: 'window' } as const;
    const events = [answer(0, first.id, TODAY - 1), asked];
    expect(next(events)).toEqual({ type: 'ask', card: first });
    expect(next(events, plain)).toEqual({ type: 'ask', card: first });
  });
});
