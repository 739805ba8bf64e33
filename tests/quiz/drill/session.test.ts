import { type Signal, signal } from '@preact/signals';
import { beforeEach, describe, expect, it } from 'vitest';
import { cardsOf } from '../../../src/cards/index.ts';
import { computeChart, formatDecimal, HARBOUR_LANE, toDecimal } from '../../../src/charts/index.ts';
import type { DrillSession } from '../../../src/quiz/drill/session.ts';
import {
  createDrill,
  createDrillSession,
  createStopwatch,
  type DrillSpec,
  formatDrill,
  isOver,
  printOf,
  runOf,
  runsIn,
} from '../../../src/quiz/index.ts';
import {
  type EventDraft,
  foldLog,
  type LogEvent,
  type LogState,
  mergeLogs,
  parseEvent,
} from '../../../src/scheduler/index.ts';
import { DEFAULT_SETTINGS } from '../../../src/store/index.ts';
import { drilled } from './drilling.ts';

const chart = computeChart(HARBOUR_LANE);
const SPEC: DrillSpec = {
  seed: 11,
  patterns: ['cross-side', 'cross-corner'],
  zones: ['low', 'middle', 'high'],
  kinds: ['in between', 'rail ball'],
  count: 10,
  speeds: 'medium',
  tolerance: toDecimal(0.1),
  given: true,
  print: printOf(chart),
};
const CODE = formatDrill(SPEC);
const DAY = 20_000;

let time = 0;
let disk: LogEvent[] = [];
let refuse: Error | null = null;
let log: Signal<LogState>;

beforeEach(() => {
  time = 0;
  disk = [];
  refuse = null;
  log = signal(foldLog([]));
});

describe('a drill under way', () => {
  it('shows the outcome at once, and moves on when the answer is written as a complete event', async () => {
    const session = begin();
    const { question, n } = asked(session);
    session.painted();
    time += 2500;
    type(session, formatDecimal(question.truth[0]).slice(0, 5));
    const submitted = session.submit();
    expect(session.phase.value).toMatchObject({
      at: 'saving',
      given: { grade: { outcome: 'pocketed' } },
    });
    expect(disk).toHaveLength(0);
    session.next();
    expect(session.phase.value.at).toBe('saving');
    await submitted;
    expect(disk).toMatchObject([
      { type: 'drilled', run: 'r', code: CODE, n, tolerance: 0.1, ms: 2500, outcome: 'pocketed' },
    ]);
    expect(parseEvent(disk[0])).toMatchObject({ ok: true });
    expect(session.phase.value).toMatchObject({ at: 'answered', n: 0 });
    expect(session.answered.value).toBe(1);
  });

  it('takes one answer from two presses', async () => {
    const session = begin();
    type(session, '1');
    await Promise.all([session.submit(), session.submit(), session.showMe?.()]);
    expect(disk).toHaveLength(1);
  });

  it('continues after a reload with the next question of the same run', async () => {
    const session = begin();
    const first = asked(session);
    await call(session, '1');
    session.next();
    const second = asked(session);
    expect(second.n).toBe(1);
    expect(second.question).not.toEqual(first.question);
    const again = begin();
    expect(asked(again)).toEqual(second);
    expect(again.answered.value).toBe(1);
  });

  it('counts a shown answer as off, without numbers', async () => {
    const session = begin();
    await session.showMe?.();
    expect(disk).toMatchObject([{ answer: null, errors: null, outcome: 'off' }]);
    expect(session.phase.value).toMatchObject({ at: 'answered', given: null });
  });

  it('keeps the typed text if it cannot be read, or if the disk is full', async () => {
    const session = begin();
    await call(session, '9');
    expect(session.phase.value).toMatchObject({ at: 'asking', texts: ['9'] });
    session.erase();
    refuse = new DOMException('no room', 'QuotaExceededError');
    await call(session, '1.2');
    expect(session.phase.value).toMatchObject({
      at: 'asking',
      texts: ['1.2'],
      problem: expect.stringContaining('no room left'),
    });
    expect(disk).toHaveLength(0);
    refuse = null;
    // The number is on the screen by then: another answer would prove nothing.
    type(session, '5');
    await session.submit();
    expect(disk).toMatchObject([{ answer: [1.2] }]);
  });

  it('does not repeat a question that another tab has answered', async () => {
    const session = begin();
    const other = begin();
    await call(other, '1');
    type(session, '1');
    await session.submit();
    expect(disk).toHaveLength(1);
    expect(session.phase.value).toMatchObject({
      at: 'asking',
      n: 1,
      problem: expect.stringContaining('another tab'),
    });
  });

  it('is over after its last question, and begins anew under another name', async () => {
    const session = begin();
    for (let n = 0; n < 10; n++) {
      await call(session, '1');
      session.next();
    }
    expect(session.phase.value.at).toBe('over');
    const run = runOf(runsIn(log.value), CODE, DAY);
    expect(run && isOver(run)).toBe(true);
    expect(asked(begin('second')).n).toBe(0);
  });

  it('changes no memory and no pace of a player who knows no line', async () => {
    const session = begin();
    await call(session, '1');
    expect(log.value.memories.size + log.value.times.size).toBe(0);
  });
});

describe('runs in the log', () => {
  it('with the same code and name are one run across devices; the first answer counts', () => {
    const mine = drilled(0, { seq: 1, errors: [0.1] });
    const theirs = [
      drilled(0, { seq: 2, device: 'b', id: 'b:2', errors: [0.4] }),
      drilled(1, { seq: 3, device: 'b', id: 'b:3' }),
    ];
    const runs = runsIn(foldLog([...theirs, mine]));
    expect(runs).toHaveLength(1);
    expect(runs[0]?.questions.map(({ n, errors }) => [n, errors?.[0]])).toEqual([
      [0, 0.1],
      [1, 0],
    ]);
  });

  it('can be continued only on their own study-day', () => {
    const runs = runsIn(foldLog([drilled(0)]));
    expect(runOf(runs, 'c', DAY)?.run).toBe('r');
    expect(runOf(runs, 'c', DAY + 1)).toBeNull();
    expect(runOf(runs, 'd', DAY)).toBeNull();
  });

  it('with an unreadable code have nothing left to ask', () => {
    const [run] = runsIn(foldLog([drilled(0)]));
    expect(run && isOver(run)).toBe(true);
  });
});

function begin(run = 'r'): DrillSession {
  return createDrillSession({
    chart,
    drill: createDrill(chart, SPEC),
    cards: signal(cardsOf(chart, SPEC.tolerance)),
    run,
    log,
    settings: signal(DEFAULT_SETTINGS),
    append,
    now: () => DAY * 86_400_000 + disk.length,
    today: () => DAY,
    stopwatch: createStopwatch(() => time),
  });
}

/** Writes a moment later, as a store does. */
async function append(draft: EventDraft): Promise<LogEvent> {
  await Promise.resolve();
  if (refuse) throw refuse;
  const seq = disk.length;
  const event = { ...draft, version: 1, id: `a:${seq}`, device: 'a', seq } as LogEvent;
  disk.push(event);
  log.value = foldLog(mergeLogs(log.value.events, [event]));
  return event;
}

function asked(session: DrillSession) {
  const now = session.phase.value;
  if (now.at !== 'asking') throw new Error(`nothing is asked: ${now.at}`);
  return now;
}

function type(session: DrillSession, text: string): void {
  for (const character of text) session.type(character);
}

async function call(session: DrillSession, text: string): Promise<void> {
  type(session, text);
  await session.submit();
}
