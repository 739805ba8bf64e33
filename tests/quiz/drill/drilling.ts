/** Made-up drills and answers for tests. */

import fc from 'fast-check';
import { KINDS, ZONES } from '../../../src/cards/index.ts';
import { PATTERNS, toDecimal } from '../../../src/charts/index.ts';
import { COUNTS, type DrillSpec, type Run } from '../../../src/quiz/index.ts';
import type { Drilled } from '../../../src/scheduler/index.ts';

/** Some items in the order of the list, as in a code. */
function someOf<T>(all: readonly T[]): fc.Arbitrary<readonly T[]> {
  return fc.subarray([...all], { minLength: 1 });
}

export const specArb: fc.Arbitrary<DrillSpec> = fc.record({
  seed: fc.nat(2 ** 32 - 1),
  patterns: someOf(PATTERNS.map(({ id }) => id)),
  zones: someOf(ZONES),
  kinds: someOf(KINDS),
  count: fc.constantFrom(...COUNTS),
  speeds: fc.constantFrom('medium' as const, 'all' as const),
  tolerance: fc.constantFrom(0.05, 0.1, 0.2).map(toDecimal),
  given: fc.boolean(),
  print: fc.stringMatching(/^[0-9a-z]{6}$/),
});

/** By default a right answer to a rail ball. */
export function drilled(n: number, what: Partial<Drilled> = {}): Drilled {
  const seq = what.seq ?? n;
  return {
    type: 'drilled',
    version: 1,
    id: `a:${seq}`,
    device: 'a',
    seq,
    day: 20_000,
    at: 20_000 * 86_400_000 + seq,
    run: 'r',
    code: 'c',
    n,
    pattern: 'cross-side',
    zone: 'low',
    kind: 'rail ball',
    answer: [2],
    errors: [0],
    outcome: 'pocketed',
    ms: 4000,
    asked: { start: 5, speed: 'medium', at: 3 },
    tolerance: 0.1,
    ...what,
  };
}

/** An answer with an error in diamonds, graded by a tolerance of a tenth. */
export function off(n: number, error: number, what: Partial<Drilled> = {}): Drilled {
  const outcome = Math.abs(error) > 0.1 ? 'off' : 'pocketed';
  return drilled(n, { errors: [error], outcome, ...what });
}

export function runOfQuestions(name: string, at: number, questions: readonly Drilled[]): Run {
  return { run: name, code: `code ${name}`, day: Math.floor(at / 86_400_000), at, questions };
}
