import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { KINDS, OUTCOMES } from '../../../src/cards/index.ts';
import { basisOf, errorsOf, leanOf, mainBasis, medianOf } from '../../../src/quiz/drill/result.ts';
import { biasWords, leanWords, pastWords, shareWords } from '../../../src/quiz/drill/words.ts';
import { figuresOf, pastOf, type Run } from '../../../src/quiz/index.ts';
import { drilled, off, runOfQuestions } from './drilling.ts';

/** Ten-thousandths of a diamond, the unit of errors. */
const errorArb = fc.integer({ min: -40_000, max: 40_000 }).map((units) => units / 10_000 + 0);
const errorsArb = fc.array(errorArb, { minLength: 2, maxLength: 50 });

describe('bias, spread and standard error', () => {
  // NIST/SEMATECH e-Handbook 1.3.5.1 and 1.3.5.6: s = √(Σ(x − mean)²/(n − 1)). By hand from it:
  // 2, 4, 4, 4, 5, 5, 7, 9 have the mean 5 and squares 9+1+1+1+0+0+4+16 = 32, so s = √(32/7).
  it('match the definition, computed by hand', () => {
    const lean = leanOf([2, 4, 4, 4, 5, 5, 7, 9]);
    expect(lean?.bias).toBe(5);
    expect(lean?.spread).toBeCloseTo(Math.sqrt(32 / 7), 12);
    expect(lean?.standardError).toBeCloseTo(Math.sqrt(32 / 7 / 8), 12);
  });

  // NIST Statistical Reference Datasets, univariate, NumAcc1 (certified mean 10000002, standard
  // deviation 1; from memory, and easy by hand): a one-pass formula gets it wrong.
  it('lose no precision on three large numbers one apart', () => {
    expect(leanOf([10_000_001, 10_000_003, 10_000_002])).toMatchObject({
      bias: 10_000_002,
      spread: 1,
    });
  });

  it('need two calls; a bias needs one', () => {
    expect(leanOf([])).toBeNull();
    expect(leanOf([0.3])).toEqual({ n: 1, bias: 0.3, spread: null, standardError: null });
  });

  it('mirror with the errors: the bias changes its sign, the spread stays', () => {
    fc.assert(
      fc.property(errorsArb, (errors) => {
        const lean = leanOf(errors);
        const turned = leanOf(errors.map((error) => -error));
        expect(turned?.bias).toBeCloseTo(-(lean?.bias ?? Number.NaN), 12);
        expect(turned?.spread).toBeCloseTo(lean?.spread ?? Number.NaN, 12);
        expect(turned?.standardError).toBeCloseTo(lean?.standardError ?? Number.NaN, 12);
      }),
    );
  });

  it('shift with the errors: the bias by the same amount, the spread not at all', () => {
    fc.assert(
      fc.property(errorsArb, errorArb, (errors, by) => {
        const lean = leanOf(errors);
        const shifted = leanOf(errors.map((error) => error + by));
        expect(shifted?.bias).toBeCloseTo((lean?.bias ?? Number.NaN) + by, 10);
        expect(shifted?.spread).toBeCloseTo(lean?.spread ?? Number.NaN, 10);
      }),
    );
  });
});

describe('the median', () => {
  // NIST/SEMATECH e-Handbook 1.3.5.1: the middle value, or the mean of the middle two.
  it.each([
    [[3], 3],
    [[9, 1, 5], 5],
    [[4, 1, 3, 2], 2.5],
    [[], null],
  ])('of %j is %j', (values, median) => {
    expect(medianOf(values)).toBe(median);
  });
});

describe('the share within tolerance', () => {
  const questionArb = fc
    .tuple(fc.nat(50), fc.constantFrom(...KINDS), fc.constantFrom(...OUTCOMES), fc.nat(60_000))
    .map(([n, kind, outcome, ms]) => drilled(n, { kind, outcome, ms }));

  it('is between none and all, and counts answers that were not off', () => {
    fc.assert(
      fc.property(fc.array(questionArb, { minLength: 1 }), (questions) => {
        const { share, within, asked } = figuresOf(questions);
        expect(share).toBeGreaterThanOrEqual(0);
        expect(share).toBeLessThanOrEqual(1);
        expect(within + questions.filter(({ outcome }) => outcome === 'off').length).toBe(asked);
      }),
    );
  });

  it('counts neither shown answers nor their time', () => {
    const shown = drilled(2, { answer: null, errors: null, outcome: 'off', ms: 90_000 });
    const { within, asked, medianMs } = figuresOf([off(0, 0.05), off(1, 0.3), shown]);
    expect([within, asked, medianMs]).toEqual([1, 3, 4000]);
  });

  it('is null if nothing was asked', () => {
    expect(figuresOf([])).toEqual({ asked: 0, within: 0, share: null, medianMs: null });
  });
});

describe('signed errors', () => {
  it('do not exist for windows and verdicts; those of arrivals are diamonds of another rail', () => {
    expect(KINDS.filter((kind) => basisOf(kind) === null)).toEqual(['window', 'trust']);
    const mixed = [
      off(0, 0.1),
      off(1, -0.4, { kind: 'arrival' }),
      drilled(2, { kind: 'window', answer: [0, 1], errors: [0.2, 0.3] }),
      drilled(3, { kind: 'trust', answer: [2], errors: [1], tolerance: 0 }),
      off(4, 0.2, { kind: 'in between' }),
    ];
    expect(errorsOf(mixed, 'aim')).toEqual([0.1, 0.2]);
    expect(errorsOf(mixed, 'arrival')).toEqual([-0.4]);
    expect(mainBasis(mixed)).toBe('aim');
    expect(mainBasis(mixed.slice(1, 2))).toBe('arrival');
  });
});

describe('the player’s last ten drills', () => {
  const five = (errors: readonly number[], kind: 'rail ball' | 'arrival' = 'rail ball') =>
    errors.map((error, n) => off(n, error, { kind }));
  const run = (at: number, errors: readonly number[], kind?: 'rail ball' | 'arrival'): Run =>
    runOfQuestions(`r${at}`, at, five(errors, kind));

  it('are the ten begun before this one, without those that were broken off', () => {
    const runs = [
      run(1, [9, 9, 9, 9, 9]),
      ...Array.from({ length: 10 }, (_, n) => run(10 + n, [0, 0, 0, 0, 0])),
      run(30, [9]),
      run(40, [0, 0, 0, 0, 0]),
    ];
    const past = pastOf(runs.at(-1) as Run, runs);
    expect(past).toMatchObject({ runs: 10, share: 1, bias: 0, spread: 0, sameKinds: true });
  });

  it('give a mean over drills, not over answers', () => {
    // Biases 0.1 and 0.3, spreads 0, shares 1 and 0: means by hand 0.2, 0 and a half.
    const runs = [
      run(1, Array(50).fill(0.1)),
      run(2, Array(5).fill(0.3)),
      run(3, Array(5).fill(0)),
    ];
    const past = pastOf(runs[2] as Run, runs);
    expect(past?.bias).toBeCloseTo(0.2, 12);
    expect(past?.spread).toBeCloseTo(0, 12);
    expect(past?.share).toBe(0.5);
  });

  it('are of the same kinds if there are any, otherwise of all', () => {
    const runs = [
      run(1, Array(5).fill(0.05), 'arrival'),
      run(2, Array(5).fill(1)),
      run(3, Array(5).fill(0), 'arrival'),
    ];
    expect(pastOf(runs[2] as Run, runs)).toMatchObject({ runs: 1, sameKinds: true, share: 1 });
    expect(pastOf(runs[1] as Run, runs)).toMatchObject({ runs: 1, sameKinds: false, bias: null });
    expect(pastOf(runs[0] as Run, runs)).toBeNull();
  });
});

describe('the kinds of a drill', () => {
  // By hand from drill/code.ts: 0i in base 36 is 18 = 2 + 16, windows and rail balls; 0g is 16.
  const both = '1-z-4-10i001-rs-abc123';
  const run = (at: number, kind: 'window' | 'rail ball', code: string): Run => ({
    ...runOfQuestions(
      `r${at}`,
      at,
      Array.from({ length: 5 }, (_, n) => drilled(n, { kind })),
    ),
    code,
  });

  it('are the chosen ones, not those that a short run reached', () => {
    const runs = [run(1, 'window', both), run(2, 'rail ball', both)];
    expect(pastOf(runs[1] as Run, runs)).toMatchObject({ runs: 1, sameKinds: true });
    const others = [run(1, 'rail ball', '1-z-4-10g001-rs-abc123'), run(2, 'rail ball', both)];
    expect(pastOf(others[1] as Run, others)).toMatchObject({ runs: 1, sameKinds: false });
  });
});

describe('a result in words', () => {
  it('says how the calls lean only beyond two standard errors', () => {
    const lean = { n: 10, bias: 0.06, spread: 0.05, standardError: 0.02 };
    expect(leanWords(lean, 'aim')).toBe('You call 0.06 high on average.');
    expect(leanWords({ ...lean, bias: -0.06 }, 'aim')).toBe('You call 0.06 low on average.');
    expect(leanWords({ ...lean, bias: 0.03 }, 'aim')).toBe('No clear high or low habit yet.');
    expect(biasWords(lean)).toBe('0.06 high ± 0.02');
    expect(biasWords({ bias: 0.001, standardError: null })).toBe('0.00');
  });

  it('names the tolerance if there is a single one', () => {
    const figures = figuresOf([off(0, 0), off(1, 0.5)]);
    expect(shareWords(figures, [0.1, 0.1])).toBe('1 of 2 within 0.1');
    expect(shareWords(figures, [0.1, 0.25])).toBe('1 of 2 within tolerance');
  });

  it('gives a single earlier drill by its own count', () => {
    const ten = Array.from({ length: 10 }, (_, n) => off(n, 1));
    const four = Array.from({ length: 4 }, (_, n) => off(n, 0));
    const runs = [runOfQuestions('a', 1, ten), runOfQuestions('b', 2, four)];
    const past = pastOf(runs[1] as Run, runs);
    if (!past) throw new Error('no past');
    expect(pastWords(past, 4)).toContain('Your last drill of these kinds: 0 of 10 within');
  });

  it('scales the past to the same number of questions', () => {
    const past = { runs: 10, only: null, sameKinds: true, share: 0.71, bias: -0.03, spread: 0.08 };
    expect(pastWords(past, 10)).toBe(
      'Your last 10 drills of these kinds: 7.1 of 10 within tolerance, 0.03 low, spread 0.08.',
    );
  });
});
