import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type EarlierMemory, foldLog, memoriesBefore } from '../../../src/scheduler/index.ts';
import { historyArb, inTurn } from '../histories.ts';
import { answer, base, GIVEN, said } from '../making.ts';
import { plain } from '../plain.ts';

/** The cards in generated histories. */
const CARDS = ['p/a', 'p/b', 'q/c', 'q/skill'];

describe('memory before a day', () => {
  it('is what the whole log up to that day gives, for any cards', () => {
    fc.assert(
      fc.property(
        historyArb,
        fc.integer({ min: 95, max: 160 }),
        fc.subarray(CARDS),
        (events, day, some) => {
          // Weights taken later count for the whole log.
          const log = foldLog(inTurn(events.filter(({ type }) => type !== 'weights taken')));
          const whole = plain(foldLog([...log.events].filter((event) => event.day < day))).memories;
          const earlier = memoriesBefore(log, day, new Set(some));
          const wanted = [...whole].filter(([card]) => some.includes(card));
          expect(withoutSteps(earlier)).toEqual(withoutSteps(new Map(wanted)));
        },
      ),
      { numRuns: 500 },
    );
  });

  it('leaves out an answer taken back before that day, but not one taken back on it', () => {
    const log = foldLog([
      answer(1, 'p/a', 100),
      answer(2, 'p/b', 100),
      said(base(3, 101), 'taken back', { answered: 'a:1' }),
      said(base(4, 102), 'taken back', { answered: 'a:2' }),
    ]);
    expect([...memoriesBefore(log, 102, new Set(['p/a', 'p/b'])).keys()]).toEqual(['p/b']);
  });

  it('has the answers of drills that count', () => {
    const drilled = { run: 'x', code: 'c', n: 0, pattern: 'cross-side', zone: 'low' } as const;
    const more = {
      asked: { start: 3, speed: 'medium' },
      tolerance: 0.1,
      counts: 'q/skill',
    } as const;
    const log = foldLog([
      answer(1, 'p/a', 100),
      said(base(2, 100), 'drilled', { ...GIVEN, ...drilled, ...more }),
    ]);
    const before = memoriesBefore(log, 101, new Set(['q/skill']));
    expect(before.get('q/skill')).toMatchObject({ answers: 1, lastDay: 100 });
  });

  it('folds no answers to other cards', () => {
    const other = Object.defineProperty(answer(1, 'q/c', 100), 'outcome', {
      get: () => {
        throw new Error('folded');
      },
    });
    const log = { ...foldLog([]), events: [other, answer(2, 'p/a', 100), answer(3, 'p/a', 101)] };
    expect(memoriesBefore(log, 102, new Set(['p/a'])).get('p/a')?.answers).toBe(2);
  });
});

function withoutSteps(memories: ReadonlyMap<string, EarlierMemory>): ReadonlyMap<string, object> {
  return new Map([...memories].map(([card, memory]) => [card, { ...memory, lastStep: 0 }]));
}
