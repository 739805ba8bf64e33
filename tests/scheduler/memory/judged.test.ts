import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { OUTCOMES } from '../../../src/cards/index.ts';
import {
  DEFAULT_WEIGHTS,
  foldLog,
  type Memory,
  PUBLISHED,
  rememberJudged,
} from '../../../src/scheduler/index.ts';
import { answer, judged } from '../making.ts';
import { plain } from '../plain.ts';

const { remember } = PUBLISHED;

describe('an answer that the player judged', () => {
  it('"had it" moves stability half-way in its logarithm: S ≤ S′ ≤ S after pocketed', () => {
    fc.assert(
      fc.property(memoryArb, fc.nat(400), (memory, days) => {
        const full = remember(memory, days, 'pocketed');
        const { stability, difficulty } = rememberJudged(PUBLISHED, memory, days, true);
        // A rounding or two of doubles (2⁻⁵²), one of them by the root.
        const slack = 4e-16;
        expect(stability).toBeGreaterThanOrEqual(memory.stability * (1 - slack));
        expect(stability).toBeLessThanOrEqual(full.stability * (1 + slack));
        const steps = [memory.stability, stability, full.stability].map(Math.log);
        const [before = 0, half = 0, after = 0] = steps;
        expect(half - before).toBeCloseTo(after - half, 12);
        expect(difficulty).toBe(full.difficulty);
      }),
    );
  });

  it('from S 5, D 3 at R 0.7 it is at the root of 5 times the published S′', () => {
    // FSRS-6 vector of open-spaced-repetition (py-fsrs 3abe686): S′ = 58.65599107 for grade 3. R(t, S)
    // = (1 + f t/S)^(−w20), f = 0.9^(−1/w20) − 1, solved for t; half-way is derived from our rule.
    const decay = -(DEFAULT_WEIGHTS[20] as number);
    const days = (5 * (0.7 ** (1 / decay) - 1)) / (0.9 ** (1 / decay) - 1);
    const { stability } = rememberJudged(PUBLISHED, { stability: 5, difficulty: 3 }, days, true);
    expect(stability).toBeCloseTo(Math.sqrt(5 * 58.65599107), 3);
  });

  it('"not" is an answer off, exactly', () => {
    fc.assert(
      fc.property(fc.option(memoryArb), fc.nat(400), (memory, days) => {
        expect(rememberJudged(PUBLISHED, memory, days, false)).toEqual(
          remember(memory, days, 'off'),
        );
      }),
    );
  });

  it('the first "had it" of a card begins as if rattled', () => {
    // FSRS-6 vector of open-spaced-repetition: D0(2) = 5.11217071. S0(G) = w of G − 1.
    const first = rememberJudged(PUBLISHED, null, 0, true);
    expect(first.difficulty).toBeCloseTo(5.11217071, 7);
    expect(first.stability).toBe(DEFAULT_WEIGHTS[1]);
  });
});

describe('judged answers in the log', () => {
  it('fold in order with typed ones, from two devices', () => {
    const events = [
      answer(1, 'p/a', 10, 'a'),
      judged(2, 'p/a', 14, true),
      answer(3, 'p/a', 20, 'b'),
      judged(4, 'p/a', 20, false),
    ];
    const typed = remember(null, 0, 'pocketed');
    const said = rememberJudged(PUBLISHED, typed, 4, true);
    const expected = remember(remember(said, 6, 'pocketed'), 0, 'off');
    for (const arriving of [events, [...events].reverse()]) {
      const { memories, steps } = foldLog(arriving);
      expect(memories.get('p/a')).toMatchObject(expected);
      expect(memories.get('p/a')).toMatchObject({ answers: 4, lastOutcome: 'off', lastStep: 3 });
      expect(steps).toBe(4);
    }
  });

  it('do not count as pace', () => {
    const { times } = foldLog([answer(1, 'p/a', 10), judged(2, 'p/a', 12, true)]);
    expect([...times]).toEqual([['number', [1000]]]);
  });

  it('can be taken back like any answer', () => {
    const back = { ...answer(3, '', 12), type: 'taken back' as const, answered: 'a:2' };
    const before = foldLog([answer(1, 'p/a', 10)]);
    expect(
      plain(foldLog([answer(1, 'p/a', 10), judged(2, 'p/a', 12, true), back])).memories,
    ).toEqual(plain(before).memories);
  });
});

/** Memories after some answers. */
const memoryArb: fc.Arbitrary<Memory> = fc
  .array(fc.tuple(fc.nat(200), fc.constantFrom(...OUTCOMES)), { minLength: 1, maxLength: 8 })
  .map((answers) =>
    answers.reduce<Memory | null>(
      (memory, [days, outcome]) => remember(memory, days, outcome),
      null,
    ),
  )
  .filter((memory) => memory !== null);
