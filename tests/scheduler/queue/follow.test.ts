import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Card,
  cardsOf,
  createDice,
  isLineCard,
  KINDS,
  OUTCOMES,
} from '../../../src/cards/index.ts';
import { computeChart, HARBOUR_LANE, toDecimal } from '../../../src/charts/index.ts';
import {
  addToLog,
  agendaFor,
  foldLog,
  followQueue,
  type LogEvent,
  type LogState,
  nextStep,
  type QueueSettings,
} from '../../../src/scheduler/index.ts';

const all = cardsOf(computeChart(HARBOUR_LANE), toDecimal(0.1));
const some = all.filter(({ pattern }) =>
  ['cross-side', 'cross-corner', 'up-and-back'].includes(pattern),
);

const settingsArb = fc.record({
  targetRecall: fc.constantFrom(0.8, 0.9, 0.95),
  newLinesPerDay: fc.constantFrom(0, 2, 6, 20),
  meetFirst: fc.boolean(),
  kinds: fc.constantFrom(KINDS, ['number', 'in between'] as const, ['number', 'trust'] as const),
  anchorsOnly: fc.boolean(),
});

/** What a player does besides answering. */
const oddArb = fc.constantFrom(
  'nothing',
  'nothing',
  'nothing',
  'nothing',
  'takes back',
  'sets aside',
  'answers another',
  'notes',
);

describe('following a log', () => {
  it('gives the same at every step as looking at every card', () => {
    fc.assert(
      fc.property(
        settingsArb,
        fc.integer(),
        fc.array(fc.tuple(fc.nat(3), fc.nat(3), oddArb), { minLength: 60, maxLength: 140 }),
        fc.boolean(),
        (settings, seed, story, planned) => {
          const run = runOf(some, seed, settings, planned);
          for (const [step, [pause, grade, odd]] of story.entries()) {
            run.expectSame();
            if (step % 25 === 24) run.sleep(1 + 3 * pause);
            run.goOn(grade, odd);
          }
        },
      ),
      { numRuns: 25 },
    );
  });

  it('starts again where a log does not continue the one it followed', () => {
    const settings = { ...PLAIN, newLinesPerDay: 20 };
    const follow = followQueue(some);
    const run = runOf(some, 7, settings, false);
    const states: LogState[] = [];
    for (let n = 0; n < 30; n++) {
      states.push(run.log());
      run.goOn(2, 'nothing');
    }
    // Earlier and later states, to test the chain of touched cards.
    for (const n of [29, 3, 12, 12, 28, 0])
      expect(follow(states[n] as LogState, 100, settings).next).toEqual(
        nextStep(some, states[n] as LogState, 100, settings),
      );
  });
});

const PLAIN: QueueSettings = {
  targetRecall: 0.9,
  newLinesPerDay: 6,
  meetFirst: true,
  kinds: KINDS,
};

/** An event without its place in the log. */
type Said = LogEvent extends infer E
  ? E extends LogEvent
    ? Omit<E, 'version' | 'id' | 'device' | 'seq' | 'day' | 'at'>
    : never
  : never;

/** A player whose log grows event by event and is followed. */
function runOf(cards: readonly Card[], seed: number, wanted: QueueSettings, planned: boolean) {
  const follow = followQueue(cards);
  const dice = createDice(seed);
  let [today, seq, settings] = [100, 0, settingsOn(100)];
  let log = foldLog([]);
  function settingsOn(day: number): QueueSettings {
    const ask = cards.filter(() => dice.next() < 0.3).map(({ id }) => id);
    return planned ? { ...wanted, plan: { today: day, ask, next: null } } : wanted;
  }
  const add = (said: Said): void => {
    const base = { version: 1, id: `d:${seq}`, device: 'd', seq, day: today, at: seq } as const;
    log = addToLog(log, { ...said, ...base } as LogEvent);
    seq += 1;
  };
  const answer = (card: Card, grade: number): void =>
    add({
      type: 'answered',
      card: card.id,
      kind: card.kind,
      answer: [2],
      errors: [0],
      outcome: OUTCOMES[grade] ?? 'off',
      ms: 3000,
    });
  return {
    log: () => log,
    sleep: (days: number) => {
      today += days;
      settings = settingsOn(today);
    },
    goOn: (grade: number, odd: string) => {
      const any = cards[Math.floor(dice.next() * cards.length)] as Card;
      const last = [...log.events].at(-1);
      if (odd === 'takes back' && last) add({ type: 'taken back', answered: last.id });
      if (odd === 'sets aside') add({ type: 'set aside', line: any.lineId, aside: grade > 0 });
      if (odd === 'answers another') answer(any, grade);
      if (odd === 'notes') add({ type: 'noted', line: any.lineId, text: 'x' });
      const next = nextStep(cards, log, today, settings);
      if (next?.type === 'meet') add({ type: 'met', line: next.card.lineId });
      else if (next) answer(next.card, grade);
      if (isLineCard(any) && odd === 'answers another') answer(any, 3);
    },
    expectSame: () => {
      const followed = follow(log, today, settings);
      const { due, fresh } = agendaFor(cards, log, today, settings);
      expect(followed.next).toEqual(nextStep(cards, log, today, settings));
      expect(followed.waiting).toBe(due.length + fresh.length);
    },
  };
}
