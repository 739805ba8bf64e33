import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  addToLog,
  canContinue,
  DEFAULT_WEIGHTS,
  foldLog,
  type LogEvent,
  type LogState,
  mergeLogs,
  type Snapshot,
  sealable,
} from '../../../src/scheduler/index.ts';
import { historyArb } from '../histories.ts';
import { answer, base, GIVEN, said } from '../making.ts';
import { plain } from '../plain.ts';

/** The published weights with another first stability. */
const OTHER = DEFAULT_WEIGHTS.map((one, n) => (n === 2 ? 3 : one));

describe('a snapshot', () => {
  it('continues to the fold of the whole log, wherever it is cut, or refuses', () => {
    let cuts = 0;
    fc.assert(
      fc.property(historyArb, fc.integer({ min: 95, max: 160 }), (events, today) => {
        const whole = foldLog(events);
        const cut = sealable(whole, today, 1);
        if (!cut) return;
        const ids = new Set(cut.sealed.map(({ id }) => id));
        const tail = events.filter(({ id }) => !ids.has(id));
        const stored: unknown = structuredClone(cut.snapshot);
        if (!canContinue(stored, tail)) return;
        cuts += 1;
        expect(withoutSealed(foldLog(tail, stored))).toEqual(withoutSealed(whole));
      }),
      { numRuns: 1000 },
    );
    expect(cuts).toBeGreaterThan(200);
  });

  it('extended later is the same as one cut at once', () => {
    fc.assert(
      fc.property(historyArb, fc.nat(20), fc.nat(20), (events, first, gap) => {
        const whole = foldLog(events);
        const early = sealable(whole, 100 + first, 1);
        const late = sealable(whole, 100 + first + gap, 1);
        if (!early || !late) return;
        const ids = new Set(early.sealed.map(({ id }) => id));
        const tail = events.filter(({ id }) => !ids.has(id));
        if (!canContinue(early.snapshot, tail)) return;
        const step = sealable(foldLog(tail, early.snapshot), 100 + first + gap, 1);
        if (step) expect(step.snapshot).toEqual(late.snapshot);
      }),
      { numRuns: 500 },
    );
  });

  it('grows event by event to the fold of the whole log', () => {
    fc.assert(
      fc.property(historyArb, historyArb, (old, later) => {
        const whole = foldLog(old);
        const cut = sealable(whole, 1000, 1);
        if (!cut || cut.sealed.length < old.length) return;
        const after = later.map((event, n) => moved(event, 2000 + n));
        const grown = after.reduce(addToLog, foldLog([], cut.snapshot));
        const all = foldLog(mergeLogs(old, after));
        if (canContinue(cut.snapshot, after)) {
          expect(withoutSealed(grown)).toEqual(withoutSealed(all));
        }
      }),
    );
  });

  const old = [answer(1, 'p/a', 100), answer(2, 'p/b', 101)];
  const cut = sealable(foldLog(old), 110, 1)?.snapshot as Snapshot;

  it.each<readonly [string, unknown, readonly LogEvent[]]>([
    ['of another version', { ...cut, version: 0 }, []],
    ['that is not one', 'nonsense', []],
    ['that is missing', undefined, []],
    ['with a part missing', { ...cut, fold: {} }, []],
    ['followed by an older event', cut, [answer(3, 'p/a', 100)]],
    [
      'with an answer that is taken back',
      cut,
      [said(base(3, 111), 'taken back', { answered: 'a:1' })],
    ],
    ['followed by an event numbered before its end', cut, [answer(0, 'p/a', 120)]],
    ['followed by a clock that jumped', cut, [answer(3, 'p/a', 150), answer(4, 'p/a', 120)]],
    ['followed by other weights', cut, [said(base(3, 120), 'weights taken', { weights: OTHER })]],
  ])('%s is not continued', (_name, stored, tail) => {
    expect(canContinue(stored, tail)).toBe(false);
  });

  const { kinds, patterns, days } = cut.fold.trials;

  it.each<readonly [string, unknown]>([
    ['without trials', undefined],
    ['with trials that are a text', 'nonsense'],
    ['with trials of a kind unknown here', { kinds: new Map([['color', {}]]), patterns, days }],
    ['with a tally that is no number', { kinds: tallied({ all: [2, 'x'] }), patterns, days }],
    ['with a tally that is not finite', { kinds: tallied({ all: [Infinity] }), patterns, days }],
    ['with more right answers than answers', { kinds: tallied({ right: [3] }), patterns, days }],
    ['with a tally below none', { kinds: tallied({ right: [-1] }), patterns, days }],
    ['with lists of different lengths', { kinds: tallied({ right: [1, 0] }), patterns, days }],
    ['with a pattern of no sums', { kinds, patterns: new Map([['cross-side', {}]]), days }],
    ['with days that are missing', { kinds, patterns }],
    ['with days that are no days', { kinds, patterns, days: { ...days, came: 'x' } }],
  ])('%s is thrown away', (_name, trials) => {
    expect(canContinue({ ...cut, fold: { ...cut.fold, trials } }, [])).toBe(false);
  });

  it('is kept with the trials that it has', () => {
    expect([...kinds]).toEqual([['number', { right: [2], all: [2] }]]);
    expect(
      canContinue({ ...cut, fold: { ...cut.fold, trials: { kinds, patterns, days } } }, []),
    ).toBe(true);
  });

  it('counts a sealed drill once, and shows it again', () => {
    const drilled = said(base(3, 101), 'drilled', {
      ...{ ...GIVEN, run: 'x', code: 'c', n: 0, pattern: 'cross-side', zone: 'low' },
      ...{ asked: { start: 3, speed: 'medium' }, tolerance: 0.1, counts: 'q/skill' },
    });
    const sealed = sealable(foldLog([...old, drilled]), 110, 1)?.snapshot as Snapshot;
    const stored = structuredClone(sealed);
    const tail = [answer(4, 'q/skill', 120)];
    expect(canContinue(stored, tail)).toBe(true);
    const log = foldLog(tail, stored);
    expect([...log.events]).toEqual([drilled, ...tail]);
    expect(log.memories.get('q/skill')?.answers).toBe(2);
  });

  it('is continued by later events', () => {
    expect(canContinue(cut, [answer(3, 'p/a', 120), answer(1, 'p/a', 120, 'b')])).toBe(true);
  });

  it('is not made of a few answers, nor of answers that may still be taken back', () => {
    expect(sealable(foldLog(old), 110)).toBeNull();
    expect(sealable(foldLog(old), 101, 1)).toBeNull();
  });
});

/** Tallies of numbers with some of their lists replaced. */
function tallied(part: object): ReadonlyMap<string, unknown> {
  return new Map([['number', { right: [2], all: [2], ...part }]]);
}

/** Without the events that a sealed log drops. */
function withoutSealed(log: LogState) {
  const { events: _, takenBack: __, ...state } = plain(log);
  const again = [...log.events].filter(({ type }) =>
    ['drilled', 'rehearsed', 'proved'].includes(type),
  );
  return { ...state, again };
}

function moved(event: LogEvent, seq: number): LogEvent {
  const day = event.day + 2000;
  return { ...event, id: `${event.device}:${seq}`, seq, day, at: day * 86_400_000 };
}
