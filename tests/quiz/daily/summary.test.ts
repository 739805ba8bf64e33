import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Card } from '../../../src/cards/index.ts';
import { answersOn, holdsLonger } from '../../../src/quiz/daily/summary.ts';
import { stepsADay, wishOf } from '../../../src/quiz/index.ts';
import {
  type CardMemory,
  daysUntilBack,
  foldLog,
  isAnswer,
  type LogEvent,
} from '../../../src/scheduler/index.ts';
import { DEFAULT_SETTINGS } from '../../../src/store/index.ts';
import { historyArb, inTurn } from '../../scheduler/histories.ts';
import { answer } from '../../scheduler/making.ts';

/** The cards of the generator of histories, and less important ones, more than there is time for. */
const CARDS = [
  ...['p/a', 'p/b', 'q/c', 'q/skill'].map((id) => cardOf(id, 0)),
  ...Array.from({ length: 80 }, (_, n) => cardOf(`${n}/other`, 2)),
];
const dayArb = fc.integer({ min: 95, max: 160 });
const SETTINGS = { ...DEFAULT_SETTINGS, minutes: 3 } as const;

describe('answers of a day', () => {
  it('are its events that still count', () => {
    fc.assert(
      fc.property(historyArb, dayArb, (events, day) => {
        const log = foldLog(events);
        const plain = [...log.events].filter(
          (event) => event.day === day && isAnswer(event) && !log.takenBack.has(event.id),
        );
        expect(answersOn(log, day)).toEqual(plain);
      }),
      { numRuns: 500 },
    );
  });

  it('are found without looking further back than the day before', () => {
    const today = answer(3, 'p/a', 101);
    const events = [unseen(), answer(2, 'p/a', 100), today, answer(4, 'p/a', 102)];
    expect(answersOn({ ...foldLog([]), events }, 101)).toEqual([today]);
  });
});

describe('what holds longer', () => {
  it('is the difference between the logs with and without today', () => {
    let found = 0;
    fc.assert(
      fc.property(historyArb, fc.nat(), (history, n) => {
        // Weights taken today count for earlier days, too.
        const events = inTurn(history.filter(({ type }) => type !== 'weights taken'));
        const log = foldLog(events);
        const today = [...log.events][n % events.length]?.day ?? 100;
        const longer = holdsLonger(CARDS, log, today, SETTINGS);
        expect(longer).toEqual(plainly(events, today));
        found += longer.length;
      }),
      { numRuns: 200 },
    );
    expect(found).toBeGreaterThan(30);
  });

  it('needs no earlier answer to a card that was not answered today', () => {
    const other = Object.defineProperty(answer(1, 'q/c', 99), 'outcome', {
      get: () => {
        throw new Error('weighed');
      },
    });
    const own = [answer(2, 'p/a', 100), answer(3, 'p/a', 103)];
    const log = foldLog(own);
    const longer = holdsLonger(CARDS, { ...log, events: [other, ...log.events] }, 103, SETTINGS);
    expect(longer.map(({ card }) => card.id)).toEqual(['p/a']);
  });
});

function cardOf(id: string, priority: number): Card {
  const [lineId] = id.split('/');
  const card = { id, lineId, kind: 'number', pattern: 'cross-side', priority, after: [] };
  return card as unknown as Card;
}

/** By its definition: folds both logs completely. */
function plainly(events: readonly LogEvent[], today: number) {
  const now = foldLog(events);
  const before = foldLog(events.filter((event) => event.day < today));
  const steps = stepsADay(SETTINGS, now, today);
  const ids = new Set(CARDS.map(({ id }) => id));
  const back = daysUntilBack(CARDS, now, today, wishOf(SETTINGS), steps, ids);
  const daysSince = (memory: CardMemory | undefined) => (memory ? today - memory.lastDay : null);
  const answered = [...now.events].filter(isAnswer).filter(({ id }) => !now.takenBack.has(id));
  return CARDS.filter(({ lineId }) => !now.aside.has(lineId))
    .filter(({ id }) => answered.some((one) => one.day === today && one.card === id))
    .filter(({ id }) => now.memories.get(id)?.lastOutcome !== 'off')
    .map((card) => ({
      card,
      before: daysSince(before.memories.get(card.id)),
      now: back.get(card.id) ?? null,
    }))
    .filter((one) => one.now === null || (one.now > 1 && one.now > (one.before ?? 1)))
    .sort((a, b) => gainOf(b) - gainOf(a));
}

/** Days gained; a card that does not come back for long gains most. */
function gainOf({ before, now }: { readonly before: number | null; readonly now: number | null }) {
  return (now ?? Number.MAX_SAFE_INTEGER) - (before ?? 0);
}

/** An event that throws if anything looks at it. */
function unseen(): LogEvent {
  return new Proxy({} as LogEvent, {
    get: (_, part) => {
      throw new Error(`looked at: ${String(part)}`);
    },
  });
}
