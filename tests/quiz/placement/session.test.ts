import { signal } from '@preact/signals';
import { beforeEach, describe, expect, it } from 'vitest';
import { cardsOf, isLineCard } from '../../../src/cards/index.ts';
import { computeChart, formatDecimal, HARBOUR_LANE, toDecimal } from '../../../src/charts/index.ts';
import {
  choosable,
  createPlacement,
  createStopwatch,
  stepsADay,
  wishOf,
} from '../../../src/quiz/index.ts';
import type { Placement, PlacementPorts } from '../../../src/quiz/placement/session.ts';
import {
  daysUntilBack,
  type EventDraft,
  foldLog,
  type LogEvent,
} from '../../../src/scheduler/index.ts';
import { DEFAULT_SETTINGS } from '../../../src/store/index.ts';

const chart = computeChart(HARBOUR_LANE, 'through');
const cards = cardsOf(chart, toDecimal(0.1));
/** Seven lines; at a tolerance of 0.1 the first and the last are anchors. */
const CROSS_SIDE = 'cross-side';
const sides = cards
  .filter(isLineCard)
  .filter(({ pattern, kind }) => pattern === CROSS_SIDE && kind === 'number')
  .sort((a, b) => a.start - b.start);

let disk: LogEvent[] = [];
/** How many more events can be written. */
let room = Infinity;
let log = signal(foldLog([]));
let placement: Placement;

beforeEach(() => {
  disk = [];
  room = Infinity;
  log = signal(foldLog([]));
  placement = createPlacement(portsFor([CROSS_SIDE, 'up-and-back']));
});

describe('placement', () => {
  it('writes every line of the pattern if all is right, the asked ones with their answers', async () => {
    for (let n = 0; n < 3; n++) await right();
    expect(new Set(proved().map(({ card }) => card))).toEqual(new Set(sides.map(({ id }) => id)));
    expect(proved().filter(({ implied }) => !implied)).toHaveLength(3);
    for (const event of proved()) {
      expect(event).toMatchObject(
        event.implied
          ? { answer: null, errors: null, outcome: 'pocketed' }
          : { errors: [0], outcome: 'pocketed' },
      );
    }
    expect(asking().question.pattern).toBe('up-and-back');
    expect(placement.placed.value).toMatchObject({ proven: 3, implied: sides.length - 3 });
    expect(placement.placed.value.again).toEqual(soonestAndLatest());
  });

  it('writes a proven line before it says so', async () => {
    type(truth());
    const submitted = placement.submit();
    expect(placement.phase.value.at).toBe('saving');
    expect(disk).toEqual([]);
    await submitted;
    expect(disk).toHaveLength(1);
    expect(placement.phase.value).toMatchObject({ at: 'answered', right: true, follow: 0 });
  });

  it('writes nothing for a miss or "show me", and asks the next pattern after two of them', async () => {
    type('0');
    await placement.submit();
    expect(placement.phase.value).toMatchObject({ at: 'answered', right: false, last: false });
    await placement.next();
    expect(asking().question.pattern).toBe(CROSS_SIDE);
    await placement.showMe();
    expect(placement.phase.value).toMatchObject({ at: 'answered', given: null, last: true });
    await placement.next();
    expect(asking().question.pattern).toBe('up-and-back');
    expect(disk).toEqual([]);
  });

  it('takes one answer from two presses', async () => {
    type(truth());
    await Promise.all([placement.submit(), placement.submit(), placement.showMe()]);
    expect(disk).toHaveLength(1);
    expect(placement.progress.value.answered).toBe(1);
  });

  it('keeps the typed text if it cannot be read', async () => {
    type('9');
    await placement.submit();
    expect(placement.phase.value).toMatchObject({ at: 'asking', texts: ['9'] });
    expect(asking().problem).toMatch(/counts from 0 to 8/);
    expect(placement.progress.value.answered).toBe(0);
  });

  it('keeps an answer that cannot be written, and writes it at the next press', async () => {
    room = 0;
    const number = truth();
    type(number);
    await placement.submit();
    expect(asking().problem).toMatch(/^Not saved/);
    expect(asking().texts).toEqual([number]);
    room = Infinity;
    await placement.submit();
    expect(disk).toHaveLength(1);
  });

  it('keeps implied lines that cannot be written, and writes them at the next press', async () => {
    await right();
    await right();
    type(truth());
    // Room for the proven line itself, and for none that follows.
    room = 1;
    await placement.submit();
    expect(placement.phase.value).toMatchObject({ at: 'answered', right: true });
    expect(proved()).toHaveLength(3);
    await placement.next();
    expect(placement.phase.value).toMatchObject({ problem: expect.stringMatching(/^Not saved/) });
    room = Infinity;
    await placement.next();
    expect(proved()).toHaveLength(sides.length);
    expect(asking().question.pattern).toBe('up-and-back');
  });

  it('keeps what is proven when it is stopped, and resumes there the next time', async () => {
    await right();
    placement.stop();
    expect(placement.phase.value).toEqual({ at: 'done', stopped: true });
    expect(placement.placed.value).toMatchObject({ proven: 1, implied: 0 });
    const [first] = choosable({ chart, cards, log: log.value, settings: DEFAULT_SETTINGS });
    expect(first).toMatchObject({ pattern: CROSS_SIDE, begun: 1, wanted: true, most: 2 });
    const before = proved().map(({ card }) => card);
    placement = createPlacement(portsFor([CROSS_SIDE]));
    await right();
    await right();
    expect(placement.phase.value).toEqual({ at: 'done', stopped: false });
    expect(proved()).toHaveLength(sides.length);
    expect(before).toEqual([proved()[0]?.card]);
  });

  it('does not ask lines that were met or set aside', async () => {
    const [first, ...rest] = sides;
    const last = rest.at(-1);
    if (!first || !last) throw new Error('no lines');
    write({ type: 'met', line: first.lineId, day: 100, at: 1 });
    write({ type: 'set aside', line: last.lineId, aside: true, day: 100, at: 2 });
    placement = createPlacement(portsFor([CROSS_SIDE]));
    expect(placement.phase.value).toEqual({ at: 'done', stopped: false });
    const side = choosable({ chart, cards, log: log.value, settings: DEFAULT_SETTINGS }).find(
      ({ pattern }) => pattern === CROSS_SIDE,
    );
    expect(side).toMatchObject({ most: 0, wanted: false });
  });

  it('does not repeat a line that another tab has proven', async () => {
    const { id } = asking().card;
    write({
      type: 'proved',
      card: id,
      kind: 'number',
      answer: [1],
      errors: [0],
      outcome: 'pocketed',
      ms: 1000,
      implied: false,
      day: 100,
      at: 1,
    });
    type('1');
    await placement.submit();
    expect(disk).toHaveLength(1);
    expect(asking().card.id).not.toBe(id);
    expect(asking().problem).toMatch(/another tab/);
  });
});

function proved() {
  return disk.filter((event) => event.type === 'proved');
}

/** The days until the first and the last of the lines in the log come back. */
function soonestAndLatest(): readonly number[] {
  const steps = stepsADay(DEFAULT_SETTINGS, log.value, 100);
  const ids = new Set(log.value.memories.keys());
  const back = daysUntilBack(cards, log.value, 100, wishOf(DEFAULT_SETTINGS), steps, ids);
  expect(back.size).toBe(sides.length);
  return [Math.min(...back.values()), Math.max(...back.values())];
}

function asking() {
  const phase = placement.phase.value;
  if (phase.at !== 'asking') throw new Error(`placement is ${phase.at}`);
  return phase;
}

/** The right number of the asked line, as the chart prints it. */
function truth(): string {
  return formatDecimal(asking().card.line.numbers.medium.printed);
}

function type(text: string): void {
  for (const character of text) placement.type(character);
}

async function right(): Promise<void> {
  type(truth());
  await placement.submit();
  expect(placement.phase.value).toMatchObject({ at: 'answered', right: true, problem: null });
  await placement.next();
}

function write(draft: EventDraft): LogEvent {
  const seq = disk.length;
  const event = { ...draft, version: 1, id: `a:${seq}`, device: 'a', seq } as LogEvent;
  disk = [...disk, event];
  log.value = foldLog(disk);
  return event;
}

function portsFor(patterns: PlacementPorts['patterns']): PlacementPorts {
  return {
    chart,
    cards,
    log,
    settings: signal(DEFAULT_SETTINGS),
    append: async (draft) => {
      await Promise.resolve();
      if (room === 0) throw new Error('no room');
      room -= 1;
      return write(draft);
    },
    now: () => 1000 + disk.length,
    today: () => 100,
    stopwatch: createStopwatch(() => 0),
    patterns,
  };
}
