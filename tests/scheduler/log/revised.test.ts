/** Revisions of a chart in the log: cards that move come back, and nothing else is relearned. */

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cardsOf, isLineCard, KINDS, type Move } from '../../../src/cards/index.ts';
import { computeChart, HARBOUR_LANE, toDecimal } from '../../../src/charts/index.ts';
import {
  dayAhead,
  foldLog,
  heldOn,
  type LogEvent,
  lastTruth,
  mergeLogs,
  nextStep,
  PUBLISHED,
  type Wish,
} from '../../../src/scheduler/index.ts';
import { historyArb } from '../histories.ts';
import { plain } from '../plain.ts';

const { remember } = PUBLISHED;

const cards = cardsOf(computeChart(HARBOUR_LANE), toDecimal(0.1)).filter(isLineCard);
const [card, other] = cards.filter(({ kind }) => kind === 'number');
if (!card || !other) throw new Error('no cards');
/** Without new lines. */
const wish: Wish = { kinds: KINDS, meetFirst: true, newLinesADay: 0, day: null, worth: () => 1 };
/** More steps than any of these days takes. */
const MOST = 50;

let made = 0;
const at = (day: number, device = 'a') => {
  made += 1;
  // Numbered in the order of the days, in whatever order a test makes them.
  const seq = day * 1000 + made;
  return { version: 1, id: `${device}:${seq}`, device, seq, day, at: made } as const;
};
/** An answer that gave the right number. */
const answered = (day: number, id = card.id, right = 3.2): LogEvent => ({
  ...at(day),
  type: 'answered',
  card: id,
  kind: 'number',
  answer: [right],
  errors: [0],
  outcome: 'pocketed',
  ms: 5000,
});
const met = (day: number): LogEvent => ({ ...at(day), type: 'met', line: card.lineId });
const revised = (day: number, moves: readonly Partial<Move>[], device = 'a'): LogEvent => ({
  ...at(day, device),
  type: 'revised',
  chart: HARBOUR_LANE.id,
  revision: 4,
  digest: '0123456789abcdef',
  moves: moves.map((move) => ({
    card: card.id,
    line: card.lineId,
    effect: 'moved',
    from: [3.2],
    to: [3.5],
    ...move,
  })),
});
const learned = () => [met(100), answered(100), answered(103), answered(110)];

describe('a number that moved', () => {
  const log = foldLog([...learned(), revised(112, [{}])]);

  it('comes on that day, shown with its new number and then asked', () => {
    expect(nextStep(cards, log, 112, wish)).toEqual({ step: { type: 'meet', card }, left: 1 });
    const shown = foldLog([...log.events, met(112)]);
    expect(nextStep(cards, shown, 112, wish)).toEqual({ step: { type: 'ask', card }, left: 1 });
    const over = foldLog([...shown.events, answered(112)]);
    expect(nextStep(cards, over, 112, wish)).toEqual({ step: null, left: 0 });
  });

  it('comes before any other card, whatever that would gain', () => {
    const others = cards.filter(
      ({ kind, lineId }, n) => kind === 'number' && lineId !== card.lineId && n % 7 === 0,
    );
    const all = foldLog([...log.events, ...others.map(({ id }) => answered(101, id))]);
    const worth: Wish['worth'] = (pattern) => (pattern === card.pattern ? 0.1 : 10);
    const { step } = nextStep(cards, all, 112, { ...wish, newLinesADay: null, worth });
    expect(others.length).toBeGreaterThan(5);
    expect(step?.card).toEqual(card);
  });

  it('is asked at once where lines are not shown first', () => {
    const straight = { ...wish, meetFirst: false };
    expect(nextStep(cards, log, 112, straight).step).toEqual({ type: 'ask', card });
  });

  it('is not known until it is answered, and then begins again', () => {
    expect(heldOn([card], log, 112).expected).toBe(0);
    const again = foldLog([...log.events, answered(112)]);
    expect(again.memories.get(card.id)).toMatchObject(remember(null, 0, 'pocketed'));
    expect(again.moved.size).toBe(0);
    expect(heldOn([card], again, 113).expected).toBeGreaterThan(0.5);
  });

  // A reviewer: an overdue window of the line, which has a memory, was asked before it.
  it('goes before its siblings', () => {
    const window = cards.find((one) => one.lineId === card.lineId && one.kind === 'window');
    const overdue = { ...answered(101, window?.id), kind: 'window' } as LogEvent;
    const both = foldLog([...log.events, overdue]);
    expect(dayAhead(cards, both, 300, wish, MOST).cards.map(({ id }) => id)).toEqual([card.id]);
  });

  it('keeps its history and does not count as a new line', () => {
    expect([...log.events].filter(({ type }) => type === 'answered')).toHaveLength(3);
    const again = foldLog([...log.events, met(112), answered(112)]);
    expect(again.memories.get(card.id)?.firstDay).toBe(100);
    const oneNew = { ...wish, newLinesADay: 1 };
    expect(dayAhead(cards, again, 112, oneNew, MOST).fresh).toHaveLength(1);
    // Nor does one that was never shown as new, before it is asked.
    const unmet = foldLog([answered(100), revised(112, [{}])]);
    const ahead = dayAhead(cards, unmet, 112, { ...oneNew, meetFirst: false }, MOST);
    expect(ahead.cards[0]).toEqual(card);
    expect(ahead.fresh).toHaveLength(1);
    expect(ahead.fresh).not.toContainEqual(card);
  });

  it('is as it was after an answer is taken back', () => {
    const answer = answered(112);
    const back: LogEvent = { ...at(112), type: 'taken back', answered: answer.id };
    const after = foldLog([...log.events, answer, back]);
    expect(after.moved).toEqual(log.moved);
    expect(plain(after).memories).toEqual(plain(log).memories);
  });
});

describe('a number that shifted', () => {
  const shift = { effect: 'shifted', to: [3.25] } as const;
  const log = foldLog([...learned(), revised(112, [shift])]);

  it('keeps its memory and waits to be shown once', () => {
    expect(plain(log).memories).toEqual(plain(foldLog([...log.events].slice(0, -1))).memories);
    expect(log.shifts.get(card.id)).toEqual({ from: [3.2], to: [3.25] });
    expect(foldLog([...log.events, answered(113)]).shifts.size).toBe(0);
  });

  it('is no longer a shift when it shifts back', () => {
    const back = { effect: 'unchanged', from: [3.2], to: [3.2] } as const;
    expect(foldLog([...log.events, revised(113, [back])]).shifts.size).toBe(0);
  });
});

describe('moves', () => {
  it('of one revision, received by two devices, count once', () => {
    const mine = [
      ...learned(),
      revised(112, [{}]),
      met(112),
      answered(112, card.id, 3.5),
      answered(114, card.id, 3.5),
    ];
    const theirs = revised(115, [{}], 'b');
    const both = foldLog(mergeLogs(mine, [theirs]));
    expect(plain(both).memories).toEqual(plain(foldLog(mine)).memories);
    expect(both.moved.size).toBe(0);
  });

  it('to a number, back and to it again count each time', () => {
    const back = revised(113, [{ from: [3.5], to: [3.2] }]);
    const events = [
      ...learned(),
      revised(112, [{}]),
      answered(112, card.id, 3.5),
      back,
      answered(113),
    ];
    const log = foldLog([...events, revised(114, [{}])]);
    expect(log.moved.get(card.id)).toMatchObject({ day: 114 });
  });

  // A tester: a slip, saved and corrected at once, made the player learn the card again.
  it('back to what was learned restore memory if they were not seen', () => {
    const back = revised(113, [{ effect: 'unchanged', from: [3.2], to: [3.2] }]);
    const log = foldLog([...learned(), revised(112, [{}]), back]);
    expect(log.moved.size).toBe(0);
    expect(plain(log).memories).toEqual(plain(foldLog(learned())).memories);
  });

  it('that follow unseen ones count from what was learned to the number now', () => {
    const on = revised(113, [{ from: [3.2], to: [3.7] }]);
    const log = foldLog([...learned(), revised(112, [{}]), on]);
    expect(log.moved.get(card.id)).toMatchObject({ from: [3.2], to: [3.7], shown: false });
  });

  it('that follow seen ones are to be learned, whatever the number', () => {
    const back = revised(113, [{ effect: 'unchanged', from: [3.2], to: [3.2] }]);
    const log = foldLog([...learned(), revised(112, [{}]), met(112), back]);
    expect(log.moved.get(card.id)).toMatchObject({ to: [3.2], shown: true });
  });

  // A tester: an answer to the old number, given on another device after this one received the
  // revision, made the card count as known with a number that was never learned.
  it('count again after another device answers with the old number', () => {
    const mine = [...learned(), revised(112, [{}])];
    const theirs = answered(114);
    const again = revised(115, [{}]);
    expect(foldLog([...mine, theirs]).moved.size).toBe(0);
    expect(foldLog([...mine, theirs, again]).moved.get(card.id)).toMatchObject({ to: [3.5] });
  });

  it('touch the card that they name and no other', () => {
    const before = foldLog([...learned(), answered(101, other.id)]);
    const after = foldLog([...before.events, revised(112, [{}])]);
    expect(after.memories.get(other.id)).toEqual(before.memories.get(other.id));
  });

  it('carry memory to another card that has none of its own', () => {
    const carry = { card: other.id, was: card.id, effect: 'unchanged', to: [3.2] } as const;
    const log = foldLog([...learned(), revised(112, [carry])]);
    expect(log.memories.get(other.id)).toEqual(log.memories.get(card.id));
    const own = foldLog([...learned(), answered(101, other.id), revised(112, [carry])]);
    expect(own.memories.get(other.id)?.answers).toBe(1);
  });

  // A reviewer: the other chart's memory was wiped by a chart that came to share it.
  it('from another card do not change existing memory', () => {
    const carry = { card: other.id, was: card.id, effect: 'moved', to: [3.5] } as const;
    const before = foldLog([...learned(), answered(101, other.id)]);
    const log = foldLog([...before.events, revised(112, [carry])]);
    expect(plain(log).memories).toEqual(plain(before).memories);
    expect(log.moved.size).toBe(0);
  });

  // A reviewer: a late move, from an older number, hid that the new one had been learned.
  it('that arrive late count from what was learned last', () => {
    const late = revised(115, [{ from: [3.2], to: [3.4] }]);
    const now = revised(116, [{ effect: 'unchanged', from: [3.5], to: [3.5] }]);
    const mine = [...learned(), revised(112, [{}]), met(112), answered(112, card.id, 3.5)];
    const log = foldLog([...mine, late]);
    expect(log.moved.get(card.id)).toMatchObject({ from: [3.5], to: [3.4] });
    expect(plain(foldLog([...mine, late, now])).memories).toEqual(plain(foldLog(mine)).memories);
  });

  it('from another card carry the marks of its line, too', () => {
    const said = { ...at(105), type: 'set aside', line: card.lineId, aside: true } as const;
    const note = { ...at(105), type: 'noted', line: card.lineId, text: 'hug the rail' } as const;
    const carry = { card: other.id, line: other.lineId, was: card.id, to: [3.2] } as const;
    const log = foldLog([said, note, revised(112, [{ ...carry, effect: 'unchanged' }])]);
    expect(log.aside.has(other.lineId)).toBe(true);
    expect(log.notes.get(other.lineId)).toBe('hug the rail');
  });

  it('are not undone by implied proofs', () => {
    const implied = { ...answered(113), type: 'proved', implied: true } as LogEvent;
    const log = foldLog([...learned(), revised(112, [{}]), implied]);
    expect(log.moved.has(card.id)).toBe(true);
    expect(log.memories.has(card.id)).toBe(false);
  });

  it('of a card that left its chart wait for its return', () => {
    const left = { effect: 'left', to: null } as const;
    const log = foldLog([...learned(), revised(112, [left])]);
    expect(log.memories.has(card.id)).toBe(true);
    expect(log.shifts.get(card.id)).toEqual({ from: [3.2], to: null });
  });
});

describe('the truth a card showed last', () => {
  const truthAfter = (events: readonly LogEvent[]) => {
    const memory = foldLog(events).memories.get(card.id);
    return memory && lastTruth(memory);
  };

  it('is its last answer minus the error', () => {
    const off = { ...answered(101), answer: [3.3], errors: [0.1] } as LogEvent;
    expect(truthAfter([answered(100), off])).toEqual([3.2]);
    expect(truthAfter([])).toBeUndefined();
  });

  it('is unchanged by an answer without numbers, unless that showed a change', () => {
    const shown = (day: number) =>
      ({ ...answered(day), answer: null, errors: null, outcome: 'off' }) as LogEvent;
    expect(truthAfter([shown(100)])).toBeNull();
    expect(truthAfter([answered(100), shown(101)])).toEqual([3.2]);
    const shift = revised(101, [{ effect: 'shifted', to: [3.25] }]);
    expect(truthAfter([answered(100), shift, shown(102)])).toEqual([3.25]);
  });
});

describe('table shots', () => {
  const shot = (day: number): LogEvent => ({
    ...at(day),
    type: 'table shot',
    chart: HARBOUR_LANE.id,
    pattern: 'cross-side',
    start: 6,
    speed: 'medium',
    aim: 4.9,
    miss: -0.5,
  });

  it('are kept in order and change no memory', () => {
    const [one, two] = [shot(101), shot(102)];
    const log = foldLog([two, ...learned(), one]);
    expect(log.shots).toEqual([one, two]);
    expect(log.memories.size).toBe(1);
  });

  it('can be taken back', () => {
    const [one, two] = [shot(101), shot(102)];
    const back: LogEvent = { ...at(103), type: 'taken back', answered: one.id };
    expect(foldLog([one, two, back]).shots).toEqual([two]);
  });
});

describe('how a chart is used', () => {
  it('is what the player chose last', () => {
    const use = (day: number, shares: string | null): LogEvent => ({
      ...at(day),
      type: 'chart used',
      chart: 'x',
      shares,
      level: 1,
    });
    const log = foldLog([use(102, null), use(101, 'y')]);
    expect(log.uses.get('x')).toEqual({ shares: null, level: 1 });
  });
});

describe('any history with revisions', () => {
  it('leaves no card both moved and remembered, and no shift without memory', () => {
    fc.assert(
      fc.property(historyArb, (events) => {
        const log = foldLog(events);
        for (const moved of log.moved.keys()) expect(log.memories.has(moved)).toBe(false);
        for (const shifted of log.shifts.keys()) expect(log.memories.has(shifted)).toBe(true);
      }),
    );
  });
});
