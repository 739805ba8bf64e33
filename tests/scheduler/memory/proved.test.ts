import { describe, expect, it } from 'vitest';
import { OUTCOMES } from '../../../src/cards/index.ts';
import { foldLog, PROVED, PUBLISHED } from '../../../src/scheduler/index.ts';
import { answer, base, GIVEN, said } from '../making.ts';
import { plain } from '../plain.ts';

const { recall, remember } = PUBLISHED;

/** FSRS-6 vector of open-spaced-repetition: difficulty of a first answer of grade 3, D0(3). */
const D0_POCKETED = 2.11810397;

describe('a proven card', () => {
  // The days are the project's own: common practice, no source.
  it.each([
    ['dead center', 30],
    ['pocketed', 15],
    ['rattled', 6],
  ] as const)('%s begins at %d days', (outcome, days) => {
    const memory = foldLog([proof(1, 10, { outcome })]).memories.get('p/a');
    expect(memory?.stability).toBe(days);
    expect(memory?.difficulty).toBeCloseTo(D0_POCKETED, 7);
    expect(memory).toMatchObject({ firstDay: 10, lastDay: 10, lastOutcome: outcome, answers: 1 });
    expect(PROVED[outcome]).toBe(days);
    // Recall falls to 0.9 after the stability (definition of S).
    if (memory) expect(recall(memory, days)).toBeCloseTo(0.9, 7);
  });

  it('that is off begins like any first answer off', () => {
    const off = { outcome: 'off' as const };
    const proven = foldLog([proof(1, 10, off)]);
    const answered = foldLog([{ ...answer(1, 'p/a', 10), ...off }]);
    expect(plain(proven).memories).toEqual(plain(answered).memories);
    expect(proven.memories.get('p/a')).toMatchObject(remember(null, 0, 'off'));
  });

  it('that has a memory counts as answered', () => {
    for (const outcome of OUTCOMES) {
      const proven = foldLog([answer(1, 'p/a', 10), proof(2, 15, { outcome })]);
      const answered = foldLog([answer(1, 'p/a', 10), { ...answer(2, 'p/a', 15), outcome }]);
      expect(plain(proven).memories).toEqual(plain(answered).memories);
      expect(proven.steps).toBe(answered.steps);
    }
  });

  it('is a step, and its time counts towards the pace if there was an answer', () => {
    const shown = proof(2, 10, { answer: null, errors: null, outcome: 'off' });
    const state = foldLog([proof(1, 10), shown]);
    expect(state.steps).toBe(2);
    expect(state.times.get('number')).toEqual([GIVEN.ms]);
  });
});

describe('a card whose neighbors were proven', () => {
  it.each(OUTCOMES)('begins at 7 days, though its event says %s', (outcome) => {
    const state = foldLog([answer(1, 'q/c', 10), proof(2, 10, { outcome, implied: true })]);
    const memory = state.memories.get('p/a');
    expect(memory?.stability).toBe(7);
    expect(memory?.difficulty).toBeCloseTo(D0_POCKETED, 7);
    // Whatever outcome its event has, it counts as known and not as missed.
    const known = { firstDay: 10, lastDay: 10, lastOutcome: 'pocketed' };
    expect(memory).toMatchObject({ ...known, answers: 0, missesInARow: 0 });
  });

  it('was not asked: it is no step and does not count as pace', () => {
    const state = foldLog([answer(1, 'q/c', 10), proof(2, 10, { implied: true, ms: 5 })]);
    expect(state.steps).toBe(1);
    expect(state.times.get('number')).toEqual([GIVEN.ms]);
    expect(state.memories.get('p/a')?.lastStep).toBe(0);
    expect(foldLog([proof(1, 10, { implied: true })]).memories.get('p/a')?.lastStep).toBe(-1);
  });

  it('keeps the memory it has', () => {
    const before = [answer(1, 'p/a', 10)];
    const after = foldLog([...before, proof(2, 11, { implied: true, outcome: 'off' })]);
    expect(plain(after).memories).toEqual(plain(foldLog(before)).memories);
  });
});

function proof(seq: number, day: number, what: object = {}) {
  return { ...said(base(seq, day), 'proved', { ...GIVEN, card: 'p/a', implied: false }), ...what };
}
