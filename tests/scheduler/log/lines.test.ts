import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { drillRuns, foldLog, type LogEvent } from '../../../src/scheduler/index.ts';
import { historyArb } from '../histories.ts';
import { answer, base, GIVEN, said } from '../making.ts';
import { plain } from '../plain.ts';

describe('a player’s marks on a line, of which the latest counts', () => {
  it('set aside and resumed', () => {
    const out = said(base(1, 10), 'set aside', { line: 'p', aside: true });
    const other = said(base(2, 10), 'set aside', { line: 'q', aside: true });
    const back = said(base(3, 11), 'set aside', { line: 'p', aside: false });
    expect([...foldLog([out, other]).aside]).toEqual(['p', 'q']);
    expect([...foldLog([back, out, other]).aside]).toEqual(['q']);
  });

  it('noted, noted again and removed', () => {
    const first = said(base(1, 10), 'noted', { line: 'p', text: 'short of the sight' });
    const second = said(base(2, 11), 'noted', { line: 'p', text: 'a hair short of the sight' });
    const none = said(base(3, 12), 'noted', { line: 'p', text: '' });
    expect(foldLog([second, first]).notes.get('p')).toBe('a hair short of the sight');
    expect(foldLog([none, second, first]).notes.size).toBe(0);
  });

  it('flagged at one speed, then at another, and unflagged', () => {
    const soft = said(base(1, 10), 'flagged', { line: 'p', speed: 'soft', number: 2.4 });
    const firm = said(base(2, 11), 'flagged', { line: 'p', speed: 'firm', number: 2.7 });
    const down = said(base(3, 12), 'flagged', { line: 'p', speed: 'soft', number: null });
    const { flags } = foldLog([firm, soft]);
    expect([...flags]).toEqual([['p', { speed: 'firm', number: 2.7, day: 11 }]]);
    expect(foldLog([soft, firm, down]).flags.size).toBe(0);
  });

  it('on two devices: the later, by day and time', () => {
    const a = said(base(9, 10, 'a'), 'noted', { line: 'p', text: 'at home' });
    const b = said(base(1, 11, 'b'), 'noted', { line: 'p', text: 'at the club' });
    for (const events of [
      [a, b],
      [b, a],
    ])
      expect(foldLog(events).notes.get('p')).toBe('at the club');
  });

  it('are no step and change no memory', () => {
    const words: LogEvent[] = [
      said(base(2, 10), 'set aside', { line: 'p', aside: true }),
      said(base(3, 10), 'noted', { line: 'p', text: 'thin' }),
      said(base(4, 10), 'flagged', { line: 'p', speed: 'soft', number: 2 }),
    ];
    const before = foldLog([answer(1, 'p/a', 10)]);
    const { memories, steps, times } = foldLog([answer(1, 'p/a', 10), ...words]);
    expect({ memories, steps, times }).toEqual({
      memories: before.memories,
      steps: before.steps,
      times: before.times,
    });
  });
});

describe('drills', () => {
  it('that do not count change neither memory nor pace nor steps', () => {
    const before = foldLog([answer(1, 'p/a', 10)]);
    const after = foldLog([answer(1, 'p/a', 10), drilled(2, 'x', 0)]);
    const { events, devices } = after;
    expect(plain(after)).toEqual({ ...plain(before), events, devices });
  });

  it('that do not count change no more than a note does, in any history', () => {
    fc.assert(
      fc.property(historyArb, (events) => {
        const drills = events.map((event) => (isGraded(event) ? asDrilled(event) : event));
        const notes = drills.map((event) => (isUncounted(event) ? asNote(event) : event));
        expect(foldedFrom(drills)).toEqual(foldedFrom(notes));
      }),
    );
  });

  it('that count change memory and trials as the same answers in the quiz do, and no pace', () => {
    fc.assert(
      fc.property(historyArb, (history) => {
        const events = history.filter(({ type }) => type !== 'taken back');
        const counted = events.map((event) =>
          isGraded(event) ? { ...asDrilled(event), counts: event.card } : event,
        );
        const uncounted = events.map((event) => (isGraded(event) ? asDrilled(event) : event));
        const { times, ...folded } = foldedFrom(counted);
        const { times: _, ...wanted } = foldedFrom(events);
        expect(folded).toEqual(wanted);
        expect(times).toEqual(foldLog(uncounted).times);
      }),
    );
  });

  it('that count are a step of their card, once, and leave the pace alone', () => {
    const { memories, steps, times, trials } = foldLog([
      { ...drilled(1, 'x', 0), kind: 'rail ball', counts: 'p/skill' },
      drilled(2, 'x', 1),
    ]);
    expect([...memories.keys()]).toEqual(['p/skill']);
    expect(memories.get('p/skill')).toMatchObject({ answers: 1, firstDay: 10, lastDay: 10 });
    expect([steps, times.size]).toEqual([1, 0]);
    // The first answer of a card is in bin 0.
    expect([...trials.kinds]).toEqual([['rail ball', { right: [1], all: [1] }]]);
  });

  it('are listed as runs, oldest first, each in its own order', () => {
    const events = [drilled(1, 'x', 1), drilled(2, 'x', 0), drilled(3, 'y', 0), drilled(4, 'x', 2)];
    const runs = drillRuns(foldLog(events));
    expect(runs.map(({ run }) => run)).toEqual(['x', 'y']);
    expect(runs[0]?.questions.map(({ id }) => id)).toEqual(['a:2', 'a:1', 'a:4']);
    expect(runs[0]).toMatchObject({ device: 'a', code: 'cross-side 3 4 5', day: 10 });
    expect(runs[0]?.at).toBe(events[0]?.at);
  });

  it('count the first answer to a question that two tabs answered', () => {
    const [first, second] = [drilled(1, 'x', 0), drilled(2, 'x', 0)];
    expect(drillRuns(foldLog([second, first]))[0]?.questions).toEqual([first]);
  });

  it('keep runs of two devices apart that have the same name', () => {
    const runs = drillRuns(foldLog([drilled(1, 'x', 0, 'a'), drilled(2, 'x', 0, 'b')]));
    expect(runs.map(({ device }) => device)).toEqual(['a', 'b']);
  });

  it('have every question once', () => {
    const itemArb = fc.tuple(fc.constantFrom('x', 'y'), fc.nat(5), fc.constantFrom('a', 'b'));
    fc.assert(
      fc.property(fc.array(itemArb, { maxLength: 20 }), (items) => {
        const events = items.map(([run, n, device], seq) => drilled(seq, run, n, device));
        const found = drillRuns(foldLog(events)).flatMap(({ device, run, questions }) =>
          questions.map(({ n }) => `${device} ${run} ${n}`),
        );
        const asked = new Set(items.map(([run, n, device]) => `${device} ${run} ${n}`));
        expect([...found].sort()).toEqual([...asked].sort());
      }),
    );
  });
});

type Graded = Extract<LogEvent, { type: 'answered' }>;
type Drill = Extract<LogEvent, { type: 'drilled' }>;

/** Whether the app graded the answer. */
function isGraded(event: LogEvent): event is Graded {
  return event.type === 'answered' && event.judged === undefined;
}

function isUncounted(event: LogEvent): event is Drill {
  return event.type === 'drilled' && event.counts === undefined;
}

/** The same answer, given in a drill. */
function asDrilled({ card: _, type: __, asked, ...rest }: Graded): Drill {
  const where = { pattern: 'cross-side', zone: 'middle', tolerance: 0.1 };
  const drill = { run: 'x', code: 'cross-side 3 4 5', n: rest.seq, ...where };
  return { ...rest, ...drill, type: 'drilled', asked: asked ?? { start: 3, speed: 'medium' } };
}

function asNote({ version, id, device, seq, day, at }: Drill): LogEvent {
  return said({ version, id, device, seq, day, at }, 'noted', { line: 'none', text: 'drilled' });
}

/** What a log says, without its events and its notes. */
function foldedFrom(log: readonly LogEvent[]) {
  const { events: _, notes: __, ...folded } = plain(foldLog(log));
  return folded;
}

function drilled(seq: number, run: string, n: number, device = 'a') {
  return said(base(seq, 10, device), 'drilled', {
    ...GIVEN,
    run,
    n,
    code: 'cross-side 3 4 5',
    pattern: 'cross-side',
    zone: 'middle',
    asked: { start: 3, speed: 'medium' },
    tolerance: 0.1,
  });
}
