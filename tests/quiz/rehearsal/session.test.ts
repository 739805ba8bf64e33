import { type Signal, signal } from '@preact/signals';
import { beforeEach, describe, expect, it } from 'vitest';
import { type Card, cardsOf } from '../../../src/cards/index.ts';
import {
  computeChart,
  formatDecimal,
  HARBOUR_LANE,
  toDecimal,
  toNumber,
} from '../../../src/charts/index.ts';
import {
  createRehearsal,
  createStopwatch,
  newRehearsal,
  sourceOf,
  termsOf,
} from '../../../src/quiz/index.ts';
import type { Rehearsal, RehearsalPorts } from '../../../src/quiz/rehearsal/session.ts';
import {
  foldLog,
  type LogEvent,
  parseEvent,
  type RehearsalDraft,
  type RehearsedDraft,
} from '../../../src/scheduler/index.ts';
import { DEFAULT_SETTINGS } from '../../../src/store/index.ts';

const chart = computeChart(HARBOUR_LANE);
const cards = cardsOf(chart, toDecimal(0.1));
const TERMS = termsOf(chart, DEFAULT_SETTINGS);
const BEGAN = 1_795_600_000_000;

/** The player's clock, milliseconds. */
let time = 0;
let stored: Signal<RehearsalDraft | null>;
let written: LogEvent[] = [];
let sheets: string[] = [];
let refuse: Error | null = null;
let refuseEnd: Error | null = null;
let stopwatch = createStopwatch(() => time);
let session: Rehearsal;

beforeEach(() => {
  time = 0;
  written = [];
  sheets = [];
  refuse = null;
  refuseEnd = null;
  stopwatch = createStopwatch(() => time);
  stored = signal<RehearsalDraft | null>(null);
});

describe('a rehearsal', () => {
  it('writes each answer before the next question, and says nothing about it', async () => {
    begin(numberCards(3));
    const first = asked();
    await call(formatDecimal(first.question.truth[0]), 4000);
    expect(stored.value?.answers).toMatchObject([
      { card: first.card.id, kind: 'number', errors: [0], outcome: 'pocketed', ms: 4000 },
    ]);
    expect(asked().card.id).not.toBe(first.card.id);
    expect(asked()).toMatchObject({ texts: [''], problem: null });
    expect(session.showMe).toBeNull();
    expect(written).toEqual([]);
  });

  it('is written into the log once, as a whole, and can be read back', async () => {
    begin(numberCards(3));
    for (const text of ['1', '2']) await call(text, 1000);
    expect(written).toEqual([]);
    await call('3', 1000);
    expect(written).toHaveLength(1);
    expect(parseEvent(written[0])).toEqual({ ok: true, event: written[0] });
    expect(written[0]).toMatchObject({ type: 'rehearsed', began: BEGAN, clock: 25, counts: true });
    expect(written[0]).toHaveProperty('pictures', 'all');
    expect(foldLog(written).memories.size).toBe(3);
    expect(stored.value).toBeNull();
    expect(sheets).toEqual(['a:0']);
  });

  it('takes one answer from two presses', async () => {
    begin(numberCards(3));
    session.painted();
    session.type('1');
    await Promise.all([session.submit(), session.submit()]);
    expect(stored.value?.answers).toHaveLength(1);
  });

  it('takes time, but not the question, for an unreadable number', async () => {
    begin(numberCards(3));
    const { card } = asked();
    await call('1..5', 3000);
    expect(asked()).toMatchObject({ card, texts: ['1..5'] });
    expect(asked().problem).toContain('not a number');
    expect(stored.value?.answers).toEqual([]);
    for (let n = 0; n < 4; n++) session.erase();
    time += 2000;
    session.type('1');
    await session.submit();
    expect(stored.value?.answers).toMatchObject([{ card: card.id, ms: 5000 }]);
  });
});

describe('the shot clock', () => {
  it('stays full until the picture is on the screen', () => {
    begin(numberCards(3));
    time += 60_000;
    session.tick();
    expect(session.left.value).toBe(25_000);
    session.painted();
    time += 1500;
    session.tick();
    expect(session.left.value).toBe(23_500);
  });

  it('takes no time for a call before the picture is there, whatever the last call took', async () => {
    begin(numberCards(3));
    await call('1', 20_000);
    time += 20_000;
    session.type('1');
    await session.submit();
    expect(stored.value?.answers[1]).toMatchObject({ answer: [1], ms: 0, ranOut: false });
  });

  it('runs out: the question is off without an answer, and the next one has a full clock', async () => {
    begin(numberCards(3));
    const first = asked();
    session.painted();
    session.type('1');
    time += 25_300;
    session.tick();
    await settled();
    expect(stored.value?.answers).toMatchObject([
      { card: first.card.id, answer: null, errors: null, outcome: 'off', ranOut: true, ms: 25_000 },
    ]);
    // The right number is recorded, although no answer implies it.
    expect(stored.value?.answers[0]?.truth).toEqual(first.question.truth.map(toNumber));
    expect(asked().problem).toContain('The clock ran out');
    time += 60_000;
    session.tick();
    expect(session.left.value).toBe(25_000);
    expect(stored.value?.answers).toHaveLength(1);
  });

  it('has run out for a later call, even if nothing looked at it in between', async () => {
    begin(numberCards(3));
    await call('1', 25_000);
    expect(stored.value?.answers).toMatchObject([{ answer: null, ranOut: true }]);
  });

  it('allows a call just before it runs out', async () => {
    begin(numberCards(3));
    await call('1', 24_999);
    expect(stored.value?.answers).toMatchObject([{ answer: [1], ranOut: false, ms: 24_999 }]);
  });

  it('stands still while the page is hidden', () => {
    begin(numberCards(3));
    session.painted();
    time += 2000;
    stopwatch.pause();
    time += 90_000;
    session.tick();
    stopwatch.resume();
    time += 1000;
    session.tick();
    expect(session.left.value).toBe(22_000);
    expect(stored.value?.answers).toEqual([]);
  });

  it('never runs out if there is none', async () => {
    begin(numberCards(3), null);
    session.painted();
    time += 3_600_000;
    session.tick();
    expect(session.left.value).toBeNull();
    session.type('1');
    await session.submit();
    expect(stored.value?.answers).toMatchObject([{ answer: [1], ms: 3_600_000, ranOut: false }]);
  });
});

describe('a write that fails', () => {
  it('leaves the entry, stops the clock, and takes the same answer later', async () => {
    begin(numberCards(3));
    const { card } = asked();
    refuse = new DOMException('no room', 'QuotaExceededError');
    await call('1.2', 6000);
    expect(asked()).toMatchObject({ card, texts: ['1.2'] });
    expect(asked().problem).toContain('no room left');
    time += 60_000;
    session.tick();
    await settled();
    expect(asked().card).toBe(card);
    refuse = null;
    await session.submit();
    expect(stored.value?.answers).toMatchObject([{ answer: [1.2], ms: 6000, ranOut: false }]);
  });

  it('does not reopen a question whose clock ran out', async () => {
    begin(numberCards(3));
    session.painted();
    refuse = new Error('denied');
    time += 26_000;
    session.tick();
    await settled();
    expect(asked().problem).toContain('Not saved');
    refuse = null;
    session.type('1');
    await session.submit();
    expect(stored.value?.answers).toMatchObject([{ answer: null, ranOut: true, ms: 25_000 }]);
  });

  it('can be repeated at the end', async () => {
    begin(numberCards(1));
    refuseEnd = new Error('denied');
    await call('1', 1000);
    expect(session.phase.value).toMatchObject({ at: 'ending' });
    expect(session.phase.value).toHaveProperty('problem', expect.stringContaining('Not saved'));
    refuseEnd = null;
    await Promise.all([session.end(), session.end()]);
    expect(written).toHaveLength(1);
    expect(sheets).toEqual(['a:0']);
    // A second press must not look like another tab that has finished it.
    expect(session.phase.value.at).toBe('ending');
  });
});

describe('a player who leaves', () => {
  it('while the last answer is written is not taken to the sheet', async () => {
    begin(numberCards(1));
    const called = call('1', 1000);
    session.leave();
    await called;
    expect(written).toHaveLength(1);
    expect(sheets).toEqual([]);
  });
});

describe('an interrupted rehearsal', () => {
  it('repeats the very question that was open, with a full clock', async () => {
    begin(skillCards());
    await call('1', 1000);
    const stood = asked();
    session.painted();
    time += 20_000;
    const again = resume();
    expect(asked(again)).toMatchObject({ card: stood.card, mirror: stood.mirror });
    expect(asked(again).question).toEqual(stood.question);
    expect(asked(again).problem).toContain('fresh clock');
    expect(again.left.value).toBe(25_000);
    expect(stored.value?.answers).toHaveLength(1);
  });

  it('that was fully answered has only its end left', async () => {
    begin(numberCards(2));
    await call('1', 1000);
    const draft = stored.value as RehearsalDraft;
    const [answer] = draft.answers;
    stored.value = { ...draft, answers: [...draft.answers, answer as NonNullable<typeof answer>] };
    const again = resume();
    expect(again.phase.value.at).toBe('ending');
    await again.end();
    expect(written).toHaveLength(1);
  });

  it('leaves out a question that is no longer on the chart, and says so', async () => {
    const [gone, ...rest] = numberCards(3) as [Card, Card, Card];
    begin([gone, ...rest]);
    session = resumeWithout([gone]);
    expect(asked().card).toEqual(rest[0]);
    expect(asked().problem).toContain('left out');
  });

  it('that left something out ends only when the player says so, and once', async () => {
    const [gone, ...rest] = numberCards(3) as [Card, Card, Card];
    begin([gone, ...rest]);
    session = resumeWithout([gone]);
    await call('1', 1000);
    await call('1', 1000);
    await session.end();
    expect(session.phase.value).toMatchObject({ at: 'short', leftOut: 1 });
    expect(written).toEqual([]);
    // It stays left out after a reload.
    session = resume();
    await session.end();
    expect(session.phase.value).toMatchObject({ at: 'short', leftOut: 1 });
    await Promise.all([session.endShort(), session.endShort()]);
    expect(written).toHaveLength(1);
    expect(written[0]).toMatchObject({ questions: [{ card: rest[0]?.id }, { card: rest[1]?.id }] });
  });

  it('that left something out is over if another tab has ended it', async () => {
    const plan = numberCards(2);
    begin(plan);
    session = resumeWithout(plan.slice(1));
    await call('1', 1000);
    expect(session.phase.value).toMatchObject({ at: 'short', leftOut: 1 });
    stored.value = null;
    expect(session.phase.value).toEqual({ at: 'elsewhere', why: 'gone' });
    await session.endShort();
    expect(written).toEqual([]);
  });

  it('with nothing left on the chart writes nothing', async () => {
    begin(numberCards(2));
    session = resumeWithout(cards);
    await session.end();
    await session.endShort();
    expect(session.phase.value).toMatchObject({ at: 'short', leftOut: 2 });
    expect(written).toEqual([]);
  });

  it('keeps the naming of its numbers, even if the setting has changed', async () => {
    const opposite = computeChart(HARBOUR_LANE, 'opposite');
    const terms = termsOf(opposite, { ...DEFAULT_SETTINGS, pictures: 'one', tolerance: 2000 });
    const plan = sourceOf(opposite, terms).cards.filter(({ kind }) => kind === 'number');
    begin(plan.slice(0, 3), 25, terms);
    await call('1', 1000);
    const stood = asked();
    session = resume();
    expect(asked().card.id).toBe(plan[1]?.id);
    expect(asked().question).toEqual(stood.question);
    // As printed: MIRRORS[0] mirrors neither way (src/table/geometry.ts).
    expect(asked().mirror).toEqual({ leftRight: false, footHead: false });
    expect(asked().question.tolerance).toBe(toDecimal(0.2));
    await call('1', 1000);
    await call('1', 1000);
    expect(written[0]).toMatchObject({
      questions: plan.slice(0, 3).map(({ id }) => ({ card: id })),
    });
  });
});

describe('two tabs', () => {
  it('stop the one that is behind: it says so, takes no answer and runs no clock', async () => {
    begin(numberCards(3));
    const other = resume();
    other.painted();
    await call('1', 1000);
    expect(other.phase.value).toEqual({ at: 'elsewhere', why: 'further on' });
    time += 60_000;
    other.tick();
    other.type('2');
    await other.submit();
    expect(stored.value?.answers).toHaveLength(1);
  });

  it('agree that it is over when one of them finishes or drops it', async () => {
    begin(numberCards(1));
    const other = resume();
    await call('1', 1000);
    expect(other.phase.value).toEqual({ at: 'elsewhere', why: 'gone' });
    begin(numberCards(1));
    stored.value = null;
    expect(session.phase.value).toEqual({ at: 'elsewhere', why: 'gone' });
  });

  it('write nothing in the one that has not heard yet, and tell it then', async () => {
    begin(numberCards(3));
    const mine = signal(stored.value);
    const other = createRehearsal(
      {
        ...ports(),
        stored: mine,
        save: () => {
          mine.value = stored.value;
          return Promise.resolve(false);
        },
      },
      stored.value as RehearsalDraft,
    );
    await call('1', 1000);
    other.painted();
    other.type('2');
    await other.submit();
    expect(other.phase.value).toEqual({ at: 'elsewhere', why: 'further on' });
  });
});

/** Behaves as the store does: see tests/store/rehearsal.test.ts. */
function ports(): RehearsalPorts {
  return {
    source: sourceOf(chart, stored.value ?? TERMS),
    log: signal(foldLog([])),
    stored,
    stopwatch,
    now: () => BEGAN + time,
    today: () => 20_782,
    ended: ({ id }) => sheets.push(id),
    save: async (draft) => {
      await Promise.resolve();
      if (refuse) throw refuse;
      stored.value = draft;
      return true;
    },
    finish: async (id, draft: RehearsedDraft) => {
      await Promise.resolve();
      if (refuseEnd) throw refuseEnd;
      if (stored.value?.id !== id) return null;
      const seq = written.length;
      const event: LogEvent = { version: 1, id: `a:${seq}`, device: 'a', seq, ...draft };
      written.push(event);
      stored.value = null;
      return event;
    },
  };
}

function begin(plan: readonly Card[], clock: 25 | null = 25, terms = TERMS): void {
  const spec = { patterns: [], kinds: [], count: plan.length, clock, counts: true };
  const draft = newRehearsal(spec, terms, BEGAN, () => plan);
  stored.value = draft;
  session = createRehearsal(ports(), draft);
}

function resume(): Rehearsal {
  return createRehearsal(ports(), stored.value as RehearsalDraft);
}

/** Resumes with a chart that has lost some cards. */
function resumeWithout(gone: readonly Card[]): Rehearsal {
  const { source, ...rest } = ports();
  const ids = new Set(gone.map(({ id }) => id));
  const left = source.cards.filter(({ id }) => !ids.has(id));
  const draft = stored.value as RehearsalDraft;
  return createRehearsal({ ...rest, source: { ...source, cards: left } }, draft);
}

/** Types a number some time after the picture appeared, and calls it. */
async function call(text: string, ms: number): Promise<void> {
  session.painted();
  time += ms;
  for (const character of text) session.type(character);
  await session.submit();
}

function asked(one = session) {
  const phase = one.phase.value;
  if (phase.at !== 'asking') throw new Error(`nothing is asked: ${phase.at}`);
  return phase;
}

/** Resolves when all pending writes are done. */
function settled(): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, 0));
}

function numberCards(count: number): readonly Card[] {
  return cards.filter(({ kind }) => kind === 'number').slice(0, count);
}

function skillCards(): readonly Card[] {
  return cards.filter(({ kind }) => kind === 'rail ball').slice(0, 3);
}
