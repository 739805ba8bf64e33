import { describe, expect, it } from 'vitest';
import { type Card, cardsOf } from '../../../src/cards/index.ts';
import { computeChart, HARBOUR_LANE, toDecimal } from '../../../src/charts/index.ts';
import {
  agendaFor,
  foldLog,
  type LogEvent,
  type QueueSettings,
} from '../../../src/scheduler/index.ts';
import { answer, base, GIVEN, said } from '../making.ts';

const cards = cardsOf(computeChart(HARBOUR_LANE, 'through'), toDecimal(0.1));
const numbers = cards.filter((card) => card.kind === 'number');
const settings: QueueSettings = {
  targetRecall: 0.9,
  newLinesPerDay: 6,
  meetFirst: true,
  kinds: ['number', 'window'],
};

/** A day's room is the project's own rule: common practice, no source. */
describe('after placement', () => {
  const placed = numbers.slice(0, 9).map((card, n) => proof(n, card, n % 2 === 0));
  const agenda = agendaFor(cards, foldLog(placed), 100, settings);

  it('proven and implied lines are neither new nor due', () => {
    const shown = new Set([...agenda.fresh, ...agenda.due].map(({ lineId }) => lineId));
    for (const { lineId } of numbers.slice(0, 9)) expect(shown).not.toContain(lineId);
  });

  it('as many new lines may be met as on any other day', () => {
    expect(agenda.fresh).toHaveLength(settings.newLinesPerDay);
  });

  it('lines met or asked the same day still count as new', () => {
    const [met, asked] = numbers.slice(20) as [Card, Card];
    const events = [
      ...placed,
      said(base(20, 100), 'met', { line: met.lineId }),
      answer(21, asked.id, 100),
    ];
    const { fresh } = agendaFor(cards, foldLog(events), 100, settings);
    expect(fresh).toHaveLength(settings.newLinesPerDay - 2);
  });
});

function proof(seq: number, card: Card, implied: boolean): LogEvent {
  return said(base(seq, 100), 'proved', { ...GIVEN, card: card.id, implied });
}
