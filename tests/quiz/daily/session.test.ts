import { type Signal, signal } from '@preact/signals';
import { beforeEach, describe, expect, it } from 'vitest';
import { cardsOf } from '../../../src/cards/index.ts';
import {
  computeChart,
  formatDecimal,
  HARBOUR_LANE,
  toDecimal,
  toNumber,
} from '../../../src/charts/index.ts';
import type { Session } from '../../../src/quiz/daily/session.ts';
import { holdsLonger } from '../../../src/quiz/daily/summary.ts';
import {
  createSession,
  createStopwatch,
  minutesFor,
  type QuizPorts,
  questionsIn,
} from '../../../src/quiz/index.ts';
import {
  type EventDraft,
  foldLog,
  type LogEvent,
  type LogState,
  mergeLogs,
} from '../../../src/scheduler/index.ts';
import { DEFAULT_SETTINGS, type Settings } from '../../../src/store/index.ts';

const chart = computeChart(HARBOUR_LANE);
const cards = cardsOf(chart, toDecimal(0.1));

let time = 0;
let clock = 0;
let disk: LogEvent[] = [];
let refuse: Error | null = null;
let session: Session;
let ports: QuizPorts;

beforeEach(() => {
  time = 0;
  clock = 1_728_000_000_000;
  disk = [];
  refuse = null;
  ports = portsFor({ ...DEFAULT_SETTINGS, meetFirst: false, newLinesADay: 6 });
  session = createSession(ports);
});

describe('a session', () => {
  it('shows the outcome at once, and moves on when the answer is written', async () => {
    const card = asked();
    session.painted();
    time += 1500;
    type(formatDecimal(askedFor().truth[0] ?? (0 as never)));
    const submitted = session.submit();
    expect(session.phase.value).toMatchObject({
      at: 'saving',
      result: { given: { grade: { outcome: 'pocketed', errors: [0] } } },
    });
    expect(disk).toHaveLength(0);
    session.next();
    expect(session.phase.value.at).toBe('saving');
    await submitted;
    expect(disk).toMatchObject([
      { type: 'answered', card: card.id, outcome: 'pocketed', ms: 1500, errors: [0] },
    ]);
    expect(session.phase.value).toMatchObject({ at: 'answered', eventId: disk[0]?.id });
  });

  it('moves to another card, of another pattern', async () => {
    const first = asked();
    await call('1');
    session.next();
    expect(asked().pattern).not.toBe(first.pattern);
    expect(session.progress.value.answered).toBe(1);
  });

  it('takes one answer from two presses', async () => {
    type('1');
    await Promise.all([session.submit(), session.submit(), session.showMe()]);
    expect(disk).toHaveLength(1);
  });

  it('keeps the typed text if it cannot be read', async () => {
    type('9');
    await session.submit();
    expect(session.phase.value).toMatchObject({ at: 'asking', texts: ['9'] });
    expect(session.phase.value).toHaveProperty(
      'problem',
      expect.stringContaining('counts from 0 to'),
    );
    session.erase();
    expect(session.phase.value).toMatchObject({ texts: [''], problem: null });
    expect(disk).toHaveLength(0);
  });

  it('limits a field to eight characters', () => {
    type('123456789012345');
    expect(session.phase.value).toMatchObject({ texts: ['12345678'] });
  });

  it('keeps the answer if the disk is full, and writes it once there is room', async () => {
    refuse = new DOMException('no room', 'QuotaExceededError');
    type('1.2');
    await session.submit();
    expect(session.phase.value).toMatchObject({ at: 'asking', texts: ['1.2'] });
    expect(session.phase.value).toHaveProperty('problem', expect.stringContaining('no room left'));
    refuse = null;
    await session.submit();
    expect(disk).toHaveLength(1);
  });

  it('asks a taken-back card again, as if it had not been answered', async () => {
    const before = session.phase.value;
    await call('1.3');
    await session.takeBack();
    expect(session.phase.value).toEqual(before);
    expect(foldLog(disk).memories.size).toBe(0);
    expect(session.canTakeBack.value).toBe(false);
  });

  it('takes back the answer on the screen, even if the log has a newer one', async () => {
    await call('1.3');
    const mine = disk[0]?.id;
    const other = { ...disk[0], id: 'b:0', device: 'b', seq: 0, at: 1_728_000_000_500 } as LogEvent;
    arrive(other);
    await session.takeBack();
    expect(disk.find((event) => event.type === 'taken back')).toMatchObject({ answered: mine });
  });

  it('takes back its own newest answer, even if the clock ran backward', async () => {
    await call('1.3');
    session.next();
    clock -= 600_000;
    await call('1.4');
    const [, second] = disk
      .filter((event) => event.type === 'answered')
      .sort((a, b) => a.seq - b.seq);
    session.next();
    await session.takeBack();
    expect(disk.find((event) => event.type === 'taken back')).toMatchObject({
      answered: second?.id,
    });
  });

  // The number is on the screen by then: another answer would prove nothing.
  it.each(['submit', 'showMe'] as const)(
    'keeps an answer that was not written as the answer: %s',
    async (press) => {
      type('0.1');
      refuse = new Error('denied');
      await session.submit();
      const problem = expect.stringContaining('Not saved');
      expect(session.phase.value).toMatchObject({ at: 'asking', texts: ['0.1'], problem });
      type('9');
      expect(session.phase.value).toMatchObject({ texts: ['0.1'], problem });
      time += 5000;
      refuse = null;
      await session[press]();
      expect(disk).toMatchObject([{ type: 'answered', answer: [0.1], ms: 0 }]);
      expect(session.phase.value.at).toBe('answered');
      session.next();
      type('2');
      expect(session.phase.value).toMatchObject({ at: 'asking', texts: ['2'] });
    },
  );

  // Such an answer used to stay even after it had been written and taken back.
  it('forgets an answer that was written at the second press and then taken back', async () => {
    refuse = new Error('denied');
    await call('0.1');
    refuse = null;
    await session.submit();
    await session.takeBack();
    await call('2');
    expect(disk.filter((event) => event.type === 'answered').at(-1)).toMatchObject({ answer: [2] });
  });

  it('takes back once for two presses', async () => {
    await call('1.3');
    await Promise.all([session.takeBack(), session.takeBack()]);
    expect(disk.filter((event) => event.type === 'taken back')).toHaveLength(1);
  });

  it('says so if meeting a line, or taking an answer back, cannot be written', async () => {
    await call('1.3');
    refuse = new Error('denied');
    await session.takeBack();
    expect(session.phase.value).toMatchObject({
      at: 'answered',
      problem: expect.stringContaining('Not saved'),
    });
    ports = portsFor(DEFAULT_SETTINGS);
    session = createSession(ports);
    await session.metIt();
    expect(session.phase.value).toMatchObject({
      at: 'meeting',
      problem: expect.stringContaining('Not saved'),
    });
  });

  it('does not repeat a question that another tab answered meanwhile', async () => {
    const card = asked();
    arrive({
      ...base(),
      type: 'answered',
      card: card.id,
      kind: 'number',
      answer: [1],
      errors: [0],
      outcome: 'pocketed',
      ms: 900,
    });
    type('1.5');
    await session.submit();
    expect(disk).toHaveLength(1);
    expect(asked().id).not.toBe(card.id);
    expect(session.phase.value).toHaveProperty('problem', expect.stringContaining('another tab'));
  });

  // With three tabs at once, the typed text used to vanish without a word.
  it.each([
    ['nothing', 0, 'done'],
    ['a line to meet', 2, 'meeting'],
  ] as const)('says so, too, if %s comes next', async (_, newLinesADay, at) => {
    const changed = { ...DEFAULT_SETTINGS, meetFirst: true, newLinesADay };
    (ports.settings as Signal<Settings>).value = changed;
    const right = { answer: [1], errors: [0], outcome: 'pocketed', ms: 900 } as const;
    arrive({ ...base(), type: 'answered', card: asked().id, kind: 'number', ...right });
    type('1.5');
    await session.submit();
    expect(session.phase.value).toMatchObject({
      at,
      problem: expect.stringContaining('answered in another tab'),
    });
  });

  it('ends with a summary of today’s answers', async () => {
    const card = asked();
    await call('3.9');
    session.next();
    await call(formatDecimal(askedFor().truth[0] ?? (0 as never)));
    const { answers, counts, missed } = session.summary.value;
    expect(answers).toBe(2);
    expect(counts).toEqual([
      { outcome: 'pocketed', count: 1 },
      { outcome: 'off', count: 1 },
    ]);
    expect(missed.map((one) => one.id)).toEqual([card.id]);
  });

  it('shows a new line first if the player wishes, and asks it later', async () => {
    ports = portsFor(DEFAULT_SETTINGS);
    session = createSession(ports);
    expect(session.phase.value.at).toBe('meeting');
    await session.metIt();
    expect(disk).toMatchObject([{ type: 'met' }]);
    for (let n = 0; n < 5 && session.phase.value.at === 'meeting'; n++) await session.metIt();
    expect(session.phase.value.at).toBe('asking');
  });

  it('asks a window in two fields, and grades the worse one', async () => {
    for (let day = 100; ; day++) {
      if (day > 120) throw new Error('no window was asked');
      ports = { ...ports, today: () => day };
      session = createSession(ports);
      while (session.phase.value.at === 'asking') {
        const card = asked();
        if (card.kind === 'window') {
          await answerWindow();
          return;
        }
        await callRight();
        session.next();
      }
    }
  });

  it('is over when nothing is left', async () => {
    await answerAll();
    expect(session.phase.value.at).toBe('done');
    expect(session.progress.value.left).toBe(0);
  });

  // It used to count every card of a line, and more new lines than the player wants.
  it('counts down by one with every right answer, to nothing', async () => {
    for (const day of [100, 101, 103, 110]) {
      ports = { ...ports, today: () => day };
      session = createSession(ports);
      for (let { left } = session.progress.value; left > 0; left--) {
        expect(session.progress.value.left).toBe(left);
        await callRight();
        session.next();
      }
      expect(session.phase.value.at).toBe('done');
    }
  });
});

describe('a session of some minutes', () => {
  // 10 s per answer until the player's own pace is known, and 6 s around it: src/quiz/daily/pace.ts.
  it('ends when they are over by the clock, and loses nothing', async () => {
    ports = { ...ports, minutes: 1 };
    session = createSession(ports);
    expect(session.progress.value).toMatchObject({ answered: 0, left: 4, waiting: 6 });
    await callRight();
    clock += 30_000;
    session.next();
    expect(session.phase.value.at).toBe('asking');
    await callRight();
    clock += 30_000;
    session.next();
    expect(session.phase.value).toEqual({ at: 'done', why: 'time is up', problem: null });
    expect(disk).toHaveLength(2);
  });

  it('says so at the end, too, if taking back cannot be written', async () => {
    ports = { ...ports, minutes: 1 };
    session = createSession(ports);
    await callRight();
    clock += 60_000;
    session.next();
    refuse = new Error('denied');
    await session.takeBack();
    expect(session.phase.value).toMatchObject({
      at: 'done',
      problem: expect.stringContaining('Not saved'),
    });
  });

  it('asks all there is if that takes less', () => {
    ports = { ...ports, minutes: 20 };
    session = createSession(ports);
    expect(session.progress.value.left).toBe(6);
  });

  it('asks more of a player who is quick', () => {
    const times = new Map([['number' as const, Array<number>(20).fill(1500)]]);
    expect(questionsIn(5, { ...foldLog([]), times })).toBe(40);
    expect(questionsIn(5, foldLog([]))).toBe(19);
    expect(minutesFor(40, { ...foldLog([]), times })).toBe(5);
  });
});

describe('a mark on a line', () => {
  it('is written at once, or says that the disk is full', async () => {
    const line = asked().lineId;
    expect(await session.mark({ type: 'noted', line, text: 'long tonight' })).toBeNull();
    expect(await session.mark({ type: 'flagged', line, speed: 'medium', number: 2 })).toBeNull();
    expect(await session.mark({ type: 'set aside', line, aside: true })).toBeNull();
    const log = ports.log.peek();
    expect(log.notes.get(line)).toBe('long tonight');
    expect(log.flags.get(line)).toMatchObject({ speed: 'medium', number: 2 });
    expect(log.aside.has(line)).toBe(true);
    refuse = new DOMException('no room', 'QuotaExceededError');
    expect(await session.mark({ type: 'noted', line, text: 'x' })).toContain('no room left');
  });

  it('keeps a line that is set aside out of the session', async () => {
    const { lineId } = asked();
    await session.mark({ type: 'set aside', line: lineId, aside: true });
    await call('1');
    session.next();
    while (session.phase.value.at === 'asking') {
      expect(asked().lineId).not.toBe(lineId);
      await callRight();
      session.next();
    }
  });
});

describe('what holds longer', () => {
  // In three minutes a day, not all lines can be asked on every day.
  const hurried = { ...DEFAULT_SETTINGS, meetFirst: false, minutes: 3 } as const;

  it('is a card that was right today, with the days before and now', async () => {
    await answerAll();
    const first = holdsLonger(cards, ports.log.peek(), 100, hurried);
    expect(first.length).toBeGreaterThan(2);
    expect(first.every(({ card }) => ports.log.peek().memories.has(card.id))).toBe(true);
    expect(first.every(({ before, now }) => before === null && (now ?? 0) > 1)).toBe(true);
    ports = { ...ports, today: () => 103 };
    session = createSession(ports);
    while (first.every(({ card }) => card.id !== asked().id)) {
      await callRight();
      session.next();
    }
    const again = asked();
    await callRight();
    const later = holdsLonger(cards, ports.log.peek(), 103, hurried);
    const one = later.find(({ card }) => card.id === again.id);
    expect(one?.before).toBe(3);
    expect(one?.now).toBeGreaterThan(one?.before ?? Number.POSITIVE_INFINITY);
  });

  it('is no card that comes back tomorrow, because there is time for all', async () => {
    await answerAll();
    const unhurried = { ...hurried, minutes: 20 } as const;
    expect(holdsLonger(cards, ports.log.peek(), 100, unhurried)).toEqual([]);
  });

  // New lines that are not wanted used to count as what tomorrow has time for.
  it('is no card that comes back tomorrow, because no new lines are wanted', async () => {
    await answerAll();
    const none = { ...hurried, newLinesADay: 0 } as const;
    expect(holdsLonger(cards, ports.log.peek(), 100, none)).toEqual([]);
  });

  // It used to say that such a card comes back in a year.
  it('is no card of a line that is set aside', async () => {
    await answerAll();
    const idsNow = () =>
      holdsLonger(cards, ports.log.peek(), 100, hurried).map(({ card }) => card.id);
    const [aside] = idsNow();
    const line = cards.find(({ id }) => id === aside)?.lineId ?? '';
    expect(await session.mark({ type: 'set aside', line, aside: true })).toBeNull();
    expect(aside).toBeDefined();
    expect(idsNow()).not.toContain(aside);
  });

  it('is no card that was off or taken back', async () => {
    await call('3.9');
    session.next();
    await callRight();
    await session.takeBack();
    expect(holdsLonger(cards, ports.log.peek(), 100, ports.settings.peek())).toEqual([]);
  });
});

describe('the answer time', () => {
  it('stands still while the page is hidden', () => {
    let now = 1000;
    const watch = createStopwatch(() => now);
    watch.start();
    now += 500;
    watch.pause();
    now += 60_000;
    watch.resume();
    now += 250.4;
    expect(watch.read()).toBe(750);
    watch.start();
    expect(watch.read()).toBe(0);
  });
});

/** Answers one field right and the other far off: the worse one counts. */
async function answerWindow(): Promise<void> {
  const [soft] = askedFor().truth;
  type(formatDecimal(soft ?? (0 as never)));
  await session.submit();
  expect(session.phase.value).toMatchObject({ at: 'asking', field: 1, problem: null });
  type('3');
  session.flipSign();
  await session.submit();
  expect(disk.at(-1)).toMatchObject({
    kind: 'window',
    outcome: 'off',
    answer: [expect.any(Number), -3],
  });
}

function asked() {
  const phase = session.phase.value;
  if (phase.at !== 'asking') throw new Error(`the session is ${phase.at}`);
  return phase.card;
}

function askedFor() {
  const phase = session.phase.value;
  if (phase.at !== 'asking') throw new Error(`the session is ${phase.at}`);
  return phase.question;
}

function type(text: string): void {
  for (const character of text) {
    if (character === '−') session.flipSign();
    else session.type(character);
  }
}

async function call(text: string): Promise<void> {
  type(text);
  await session.submit();
}

/** Answers every question that the session has, right and in ten seconds. */
async function answerAll(): Promise<void> {
  while (session.phase.value.at === 'asking') {
    session.painted();
    time += 10_000;
    await callRight();
    session.next();
  }
}

/** Gives the right answer to a question of any kind. */
async function callRight(): Promise<void> {
  const question = askedFor();
  if (question.kind === 'trust') {
    session.choose(question.verdict.kind);
    await session.submit();
    return;
  }
  for (const value of question.truth) {
    // Three decimals are the finest that can be typed.
    type(formatDecimal(toDecimal(Math.round(toNumber(value) * 1000) / 1000)));
    await session.submit();
  }
}

/** An event of another device, as it arrives from another tab or a merge. */
function arrive(event: LogEvent): void {
  disk = [...mergeLogs(disk, [event])];
  (ports.log as Signal<LogState>).value = foldLog(disk);
}

function base() {
  return { version: 1 as const, id: 'b:0', device: 'b', seq: 0, day: 100, at: clock + 1 };
}

function portsFor(settings: typeof DEFAULT_SETTINGS): QuizPorts {
  const log = signal(foldLog(disk));
  return {
    chart,
    cards,
    log,
    settings: signal(settings),
    append: async (draft: EventDraft) => {
      await Promise.resolve();
      if (refuse) throw refuse;
      const seq = disk.filter((event) => event.device === 'a').length;
      const event = { ...draft, version: 1, id: `a:${seq}`, device: 'a', seq } as LogEvent;
      disk = [...mergeLogs(disk, [event])];
      log.value = foldLog(disk);
      return event;
    },
    now: () => clock + disk.length,
    today: () => 100,
    stopwatch: createStopwatch(() => time),
    minutes: null,
  };
}
