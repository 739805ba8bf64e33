import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Card,
  cardsOf,
  isSkill,
  KINDS,
  OUTCOMES,
  type Outcome,
} from '../../../src/cards/index.ts';
import { computeChart, HARBOUR_LANE, toDecimal } from '../../../src/charts/index.ts';
import {
  agendaFor,
  dueDay,
  foldLog,
  heldOn,
  type LogEvent,
  type NextStep,
  nextStep,
  PUBLISHED,
  type QueueSettings,
} from '../../../src/scheduler/index.ts';

const { recall } = PUBLISHED;

const cards = cardsOf(computeChart(HARBOUR_LANE), toDecimal(0.1));
const settings: QueueSettings = {
  targetRecall: 0.9,
  newLinesPerDay: 6,
  meetFirst: true,
  kinds: KINDS,
};

describe('a first session', () => {
  const session = play(100, [], () => 'pocketed', settings);

  it('meets each new line before it asks it, and asks it within the session', () => {
    const met = session.filter((step) => step.type === 'meet').map((step) => step.card.lineId);
    const asked = session.filter((step) => step.type === 'ask').map((step) => step.card.lineId);
    expect(met).toHaveLength(settings.newLinesPerDay);
    expect([...asked].sort()).toEqual([...met].sort());
    for (const line of met) {
      const first = session.findIndex((step) => step.card.lineId === line);
      expect(session[first]?.type).toBe('meet');
    }
  });

  it('puts other steps between meeting a line and asking it', () => {
    for (const step of session.filter((one) => one.type === 'ask').slice(0, -2)) {
      const asked = session.indexOf(step);
      const met = session.findIndex((one) => one.card.lineId === step.card.lineId);
      expect(asked - met).toBeGreaterThan(2);
    }
  });

  it('asks no windows yet: siblings are kept apart', () => {
    expect(session.every((step) => step.card.kind === 'number')).toBe(true);
  });

  it('can ask without showing first', () => {
    const straight = play(100, [], () => 'pocketed', { ...settings, meetFirst: false });
    expect(straight.every((step) => step.type === 'ask')).toBe(true);
    expect(straight).toHaveLength(settings.newLinesPerDay);
  });
});

describe('later sessions', () => {
  it('ask a line’s window or its worth once its number has been right, on a later day', () => {
    const events = log(play(100, [], () => 'pocketed', settings));
    const { due } = agendaFor(cards, foldLog(events), 101, settings);
    const further = due.filter((card) => card.kind === 'window' || card.kind === 'trust');
    expect(further).toHaveLength(settings.newLinesPerDay);
    const windows = { ...settings, kinds: ['number', 'window'] as const };
    const { due: some } = agendaFor(cards, foldLog(events), 101, windows);
    expect(some.map((card) => card.kind)).toEqual(Array(settings.newLinesPerDay).fill('window'));
  });

  it('do not flood the day after many lines were proven at once', () => {
    const proven = cards
      .filter((card) => card.kind === 'number')
      .map((card, seq): LogEvent => {
        const base = { version: 1 as const, id: `a:${seq}`, device: 'a', seq, day: 100, at: seq };
        const answer = { answer: [1], errors: [0], outcome: 'pocketed' as const, ms: 2000 };
        return {
          ...base,
          ...answer,
          type: 'proved',
          card: card.id,
          kind: 'number',
          implied: false,
        };
      });
    const { due } = agendaFor(cards, foldLog(proven), 101, settings);
    const further = due.filter((card) => !isSkill(card.kind));
    expect(further).toHaveLength(2 * settings.newLinesPerDay);
    expect(due.length - further.length).toBe(2);
    expect(proven.length).toBeGreaterThan(80);
  });

  it('ask a skill once all the lines that it works from have been right', () => {
    let events: LogEvent[] = [];
    const firstAsked = new Map<string, number>();
    for (let day = 100; day < 112; day++) {
      const state = foldLog(events);
      const begun = new Set<string>();
      const session = play(
        day,
        events,
        () => 'pocketed',
        settings,
        (step) => {
          if (step.type !== 'ask' || !isSkill(step.card.kind) || firstAsked.has(step.card.id))
            return;
          begun.add(step.card.id);
          firstAsked.set(step.card.id, day);
          for (const id of step.card.after) {
            expect(state.memories.get(id)).toMatchObject({ lastOutcome: 'pocketed' });
          }
        },
      );
      // Two a day: see NEW_SKILLS.
      expect(begun.size).toBeLessThanOrEqual(2);
      events = [...events, ...log(session, events.length)];
    }
    expect(firstAsked.size).toBeGreaterThan(4);
  });

  it('leave out lines set aside and kinds not chosen', () => {
    const events: LogEvent[] = [];
    for (const day of [100, 101, 102, 103, 104]) {
      events.push(
        ...log(
          play(day, events, () => 'pocketed', settings),
          events.length,
        ),
      );
    }
    const line = cards[0]?.lineId ?? '';
    const seq = events.length;
    const base = { version: 1 as const, device: 'a', day: 105, at: 105 * 86_400_000 + seq };
    const aside: LogEvent = { ...base, id: `a:${seq}`, seq, type: 'set aside', line, aside: true };
    const numbers = { ...settings, kinds: ['number'] as const };
    const asked = (list: readonly LogEvent[], some: QueueSettings) => {
      const { due, fresh } = agendaFor(cards, foldLog(list), 160, some);
      return [...due, ...fresh];
    };
    expect(asked(events, settings).some((card) => card.lineId === line)).toBe(true);
    expect(asked([...events, aside], settings).some((card) => card.lineId === line)).toBe(false);
    expect(asked(events, settings).some((card) => card.kind !== 'number')).toBe(true);
    expect(asked(events, numbers).every((card) => card.kind === 'number')).toBe(true);
  });

  it('come back to a missed card the same day, after others', () => {
    const asked: string[] = [];
    const steps: string[] = [];
    play(
      100,
      [],
      () => (asked.length === 1 ? 'off' : 'pocketed'),
      settings,
      (step) => {
        steps.push(step.card.id);
        if (step.type === 'ask') asked.push(step.card.id);
      },
    );
    const missed = asked[0];
    expect(asked.filter((id) => id === missed)).toHaveLength(2);
    const again = steps.lastIndexOf(missed ?? '');
    expect(again - steps.indexOf(missed ?? '', 1)).toBeGreaterThan(2);
  });

  it('ask one card of a line a day: an answer shows its sibling’s numbers', () => {
    let events: LogEvent[] = [];
    for (let day = 100; day < 115; day++) {
      const session = play(day, events, () => 'pocketed', settings);
      const lines = session.filter((step) => step.type === 'ask').map((step) => step.card.lineId);
      expect(new Set(lines).size).toBe(lines.length);
      events = [...events, ...log(session, events.length)];
    }
    expect(events.some((event) => event.type === 'answered' && event.card.endsWith('window'))).toBe(
      true,
    );
  });

  it('ask a card that is being forgotten before its sibling that was never asked', () => {
    const events = log(play(100, [], () => 'pocketed', settings));
    const { due } = agendaFor(cards, foldLog(events), 110, settings);
    const lines = due.filter((card) => card.after.length === 0 || !isSkill(card.kind));
    expect(lines).toHaveLength(settings.newLinesPerDay);
    expect(lines.every((card) => card.kind === 'number')).toBe(true);
  });

  it('leave a card missed three times in a row until tomorrow, and continue', () => {
    const session = play(100, [], () => 'off', settings);
    const met = session.filter((step) => step.type === 'meet');
    expect(met).toHaveLength(settings.newLinesPerDay);
    expect(session.filter((step) => step.type === 'ask')).toHaveLength(3 * met.length);
    const { due } = agendaFor(cards, foldLog(log(session)), 101, settings);
    expect(due).toHaveLength(met.length);
  });

  it('are not disturbed by an answer dated ahead by a wrong clock', () => {
    const events = log(play(100, [], () => 'pocketed', settings));
    const ahead = events.map((event, n) =>
      n === 7 ? { ...event, day: 500, at: 500 * 86_400_000 } : event,
    );
    const patterns: string[] = [];
    const asked: string[] = [];
    play(
      101,
      ahead,
      () => 'off',
      settings,
      (step) => {
        patterns.push(step.card.pattern);
        asked.push(step.card.id);
      },
    );
    expect(new Set(patterns).size).toBeGreaterThan(3);
    expect(new Set(asked).size).toBeGreaterThan(8);
  });

  it('hand out no second ration of new lines when the day boundary is moved', () => {
    const events = log(play(100, [], () => 'pocketed', settings));
    expect(agendaFor(cards, foldLog(events), 99, settings).fresh).toEqual([]);
  });

  it('ask the most forgotten card first', () => {
    const events = log(play(100, [], () => 'pocketed', settings));
    const state = foldLog(events);
    const { due } = agendaFor(cards, state, 140, settings);
    const holds = due.map((card) => {
      const memory = state.memories.get(card.id);
      return memory ? recall(memory, 140 - memory.lastDay) : 0;
    });
    expect(holds).toEqual([...holds].sort((a, b) => a - b));
  });
});

describe('laws of the queue', () => {
  it('never asks two cards of a pattern in a row while another pattern is due', () => {
    fc.assert(
      fc.property(historyArb, (history) => {
        let events: LogEvent[] = [];
        for (const [n, day] of history.days.entries()) {
          const outcomes = history.outcomes[n] ?? [];
          const session = play(
            day,
            events,
            (_card, step) => outcomes[step % outcomes.length] ?? 'pocketed',
            settings,
            (step, state, last) => {
              const { due } = agendaFor(cards, state, day, settings);
              if (last && due.some((card) => card.pattern !== last)) {
                expect(step.card.pattern).not.toBe(last);
              }
            },
          );
          events = [...events, ...log(session, events.length)];
        }
      }),
      { numRuns: 25 },
    );
  });

  it('never meets more new lines on a day than allowed', () => {
    for (const limit of [0, 1, 3, 20]) {
      const session = play(100, [], () => 'pocketed', { ...settings, newLinesPerDay: limit });
      expect(session.filter((step) => step.type === 'meet')).toHaveLength(limit);
    }
  });

  it('returns to the same step after a reload: it depends on the log alone', () => {
    const events = log(play(100, [], () => 'pocketed', settings).slice(0, 7));
    expect(nextStep(cards, foldLog([...events].reverse()), 100, settings)).toEqual(
      nextStep(cards, foldLog(events), 100, settings),
    );
  });

  it('is done when nothing is left', () => {
    const events = log(play(100, [], () => 'pocketed', settings));
    expect(nextStep(cards, foldLog(events), 100, settings)).toBeNull();
  });

  it('has cards fall due when predicted recall reaches the target', () => {
    const state = foldLog(log(play(100, [], () => 'pocketed', settings)));
    for (const memory of state.memories.values()) {
      const day = dueDay(memory, 0.9, PUBLISHED);
      expect(day).toBeGreaterThan(memory.lastDay);
      expect(recall(memory, day - memory.lastDay)).toBeLessThan(0.95);
    }
  });
});

describe('the lines a player knows', () => {
  it('are none before the first answer, and the sum of recalls after', () => {
    expect(heldOn(cards, foldLog([]), 100)).toMatchObject({
      expected: 0,
      low: 0,
      of: cards.filter(({ kind }) => kind === 'number').length,
    });
    const state = foldLog(log(play(100, [], () => 'pocketed', settings)));
    const now = heldOn(cards, state, 100);
    expect(now.expected).toBeCloseTo(settings.newLinesPerDay, 9);
    const later = heldOn(cards, state, 130);
    expect(later.expected).toBeLessThan(now.expected);
    expect(later.low).toBeLessThanOrEqual(later.expected);
    expect(later.high).toBeGreaterThanOrEqual(later.expected);
  });
});

function lastShown(events: readonly LogEvent[]): Card | undefined {
  const last = events.at(-1);
  if (last?.type === 'answered') return cards.find((card) => card.id === last.card);
  return last?.type === 'met' ? cards.find((card) => card.lineId === last.line) : undefined;
}

interface Played {
  readonly type: 'meet' | 'ask';
  readonly card: Card;
  readonly day: number;
  readonly outcome: Outcome;
}

/** Plays a day to its end with a made-up player. */
function play(
  day: number,
  before: readonly LogEvent[],
  answer: (card: Card, step: number) => Outcome,
  withSettings: QueueSettings,
  look: (step: NextStep, state: ReturnType<typeof foldLog>, last: string | null) => void = () => {},
): Played[] {
  const session: Played[] = [];
  for (let n = 0; n < 200; n++) {
    const state = foldLog([...before, ...log(session, before.length)]);
    const next = nextStep(cards, state, day, withSettings);
    if (!next) return session;
    const shown = session.at(-1)?.card ?? lastShown(before);
    look(next, state, shown?.pattern ?? null);
    session.push({ ...next, day, outcome: answer(next.card, n) });
  }
  throw new Error('the session did not end');
}

function log(session: readonly Played[], from = 0): LogEvent[] {
  return session.map((step, n) => {
    const seq = from + n;
    const base = {
      version: 1 as const,
      id: `a:${seq}`,
      device: 'a',
      seq,
      day: step.day,
      at: step.day * 86_400_000 + seq,
    };
    if (step.type === 'meet') return { ...base, type: 'met', line: step.card.lineId };
    return {
      ...base,
      type: 'answered',
      card: step.card.id,
      kind: step.card.kind,
      answer: [0],
      errors: [0],
      outcome: step.outcome,
      ms: 3000,
    };
  });
}

const historyArb = fc.record({
  days: fc.array(fc.integer({ min: 1, max: 20 }), { minLength: 1, maxLength: 5 }).map((gaps) => {
    let day = 100;
    return gaps.map((gap) => (day += gap));
  }),
  outcomes: fc.array(
    fc
      .array(fc.constantFrom(...OUTCOMES), { minLength: 3, maxLength: 9 })
      .filter((list) => list.includes('pocketed')),
    { minLength: 5, maxLength: 5 },
  ),
});
