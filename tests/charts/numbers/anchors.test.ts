import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  anchorBound,
  anchorNumbers,
  anchorsIn,
  anchorsOf,
  computeChart,
  type Decimal,
  HARBOUR_LANE,
  interpolate,
  lastRevision,
  toDecimal,
  toNumber,
} from '../../../src/charts/index.ts';
import {
  type AnchorEntry,
  type AnchorPlan,
  chooseAnchors,
} from '../../../src/charts/numbers/anchor-plan.ts';
import { SPEEDS } from '../../../src/table/index.ts';
import { bestSubset, worstFraction } from './best-subset.ts';

const chart = computeChart(HARBOUR_LANE);
const patterns = lastRevision(HARBOUR_LANE).patterns.map((id) => ({
  id,
  lines: chart.lines.filter((line) => line.pattern === id),
}));

describe('the bound', () => {
  // The rule: 0.6 of the tolerance, at least 0.05; rows by hand.
  it.each([
    [0.05, 0.05],
    [0.08, 0.05],
    [0.1, 0.06],
    [0.15, 0.09],
    [0.2, 0.12],
  ])('for a tolerance of %d is %d', (tolerance, bound) => {
    expect(anchorBound(toDecimal(tolerance))).toBe(bound);
  });
});

describe('anchors', () => {
  it('are the best of all subsets', () => {
    fc.assert(
      fc.property(entryLists, bounds, (entries, bound) => {
        expect(chooseAnchors(entries, toNumber(bound)).chosen).toEqual(bestSubset(entries, bound));
      }),
      { numRuns: 300 },
    );
  });

  it('keep every entry between them within the bound, and report its error', () => {
    fc.assert(
      fc.property(entryLists, bounds, (entries, bound) => {
        const plan = chooseAnchors(entries, toNumber(bound));
        expectHonest(entries, plan);
        expect(plan.worst).toBeLessThanOrEqual(toNumber(bound));
      }),
    );
  });

  it('of a straight list are its two ends', () => {
    fc.assert(
      fc.property(starts(2), whole(-3000, 3000), whole(0, 40_000), (list, slope, first) => {
        const straight = list.map((start) => exactly(start, first + halves(start) * slope));
        const plan = chooseAnchors(straight, 0);
        expect(plan).toMatchObject({ chosen: [0, list.length - 1], worst: 0 });
      }),
    );
  });

  it('of many lines are found in parts, so that the work grows in proportion', () => {
    const reads = (length: number): number => {
      let count = 0;
      const list = Array.from({ length }, (_, n) => ({
        get start() {
          count += 1;
          return (n * 40) as Decimal;
        },
        numbers: [{ exact: 2, printed: 20_000 as Decimal }],
      }));
      const plan = chooseAnchors(list, 0.05);
      // Two would be enough, but 2000 lines at once take a billion comparisons.
      expect(plan.chosen.length).toBeLessThanOrEqual(length / 40 + 1);
      expect(plan).toMatchObject({ worst: 0 });
      expect([plan.chosen[0], plan.chosen.at(-1)]).toEqual([0, length - 1]);
      expect(plan.spans.flatMap(({ derived }) => derived)).toHaveLength(
        length - plan.chosen.length,
      );
      return count;
    };
    expect(reads(2000) / reads(1000)).toBeLessThan(2.1);
  });

  it('of all starts of a long rail at the finest step are found at once', () => {
    const list = Array.from({ length: 161 }, (_, n) => exactly(n * 500, 20_000));
    expect(chooseAnchors(list, 0.05).chosen).toEqual([0, 160]);
  });

  it('at a kink are three: the ends and the kink', () => {
    fc.assert(
      fc.property(starts(3), fc.nat(), whole(-2000, 2000), (list, where, slope) => {
        const k = 1 + (where % (list.length - 2));
        const kink = halves(list[k] ?? 0);
        // After the kink 0.2 diamond more per half: off the chord by 0.2ab/(a + b), at least 0.1 for
        // legs of a and b half diamonds, which exceeds the bound.
        const bent = list.map((start) =>
          exactly(start, halves(start) * slope + Math.max(0, halves(start) - kink) * 2000),
        );
        const plan = chooseAnchors(bent, 0.09);
        expect(plan).toMatchObject({ chosen: [0, k, list.length - 1], worst: 0 });
      }),
    );
  });

  it('are as many and as good, counted from the other end of the rail', () => {
    fc.assert(
      fc.property(entryLists, bounds, (entries, bound) => {
        const there = chooseAnchors(entries, toNumber(bound));
        const back = chooseAnchors(fromOtherEnd(entries), toNumber(bound));
        expect(back.chosen.length).toBe(there.chosen.length);
        expect(back.worst).toBe(there.worst);
      }),
    );
  });

  it('stay the same if a straight line is added to all numbers', () => {
    fc.assert(
      fc.property(entryLists, bounds, whole(-9000, 9000), (entries, bound, slope) => {
        const flat = entries.map(({ start, numbers }) => ({
          start,
          numbers: numbers.map(({ printed }) => ({ exact: toNumber(printed), printed })),
        }));
        const tilted = flat.map(({ start, numbers }) => ({
          start,
          numbers: numbers.flatMap(
            ({ printed }) => exactly(start, printed + halves(start) * slope).numbers,
          ),
        }));
        const plain = chooseAnchors(flat, toNumber(bound));
        const plan = chooseAnchors(tilted, toNumber(bound));
        expect(plan.chosen).toEqual(plain.chosen);
        expect(plan.worst).toBeCloseTo(plain.worst, 8);
      }),
    );
  });

  it('are never fewer for a tighter bound', () => {
    fc.assert(
      fc.property(entryLists, bounds, bounds, (entries, one, other) => {
        const [narrow, wide] = [one, other].map(toNumber).sort((a, b) => a - b);
        const tight = chooseAnchors(entries, narrow ?? Number.NaN);
        const loose = chooseAnchors(entries, wide ?? Number.NaN);
        expect(tight.chosen.length).toBeGreaterThanOrEqual(loose.chosen.length);
      }),
    );
  });

  // By hand: between 1.0 at 1 and 2.0 at 3 the rule says 1.5 at 2.
  it.each([
    ['an error equal to the bound is allowed', [1.56], 0.06, [0, 2], -0.06],
    ['a rule above the solved number is a positive error', [1.44], 0.06, [0, 2], 0.06],
    ['a slightly larger error is not allowed', [1.5601], 0.06, [0, 1, 2], null],
    ['the worst of the speeds counts', [1.49, 1.54], 0.06, [0, 2], -0.04],
    ['one speed too far off is enough', [1.5, 1.5, 1.57], 0.06, [0, 1, 2], null],
  ])('%s', (_name, middle, bound, chosen, error) => {
    const ends = (start: number, value: number) => ({
      start: toDecimal(start),
      numbers: middle.map(() => ({ exact: value, printed: toDecimal(value) })),
    });
    const between = {
      start: toDecimal(2),
      numbers: middle.map((exact) => ({ exact, printed: toDecimal(Math.round(exact * 10) / 10) })),
    };
    const plan = chooseAnchors([ends(1, 1), between, ends(3, 2)], bound);
    expect(plan.chosen).toEqual(chosen);
    const derived = plan.spans.flatMap((span) => span.derived);
    expect(derived.map((one) => one.error)).toEqual(error === null ? [] : [error]);
  });

  it('are the leftmost if a smaller error later cannot make up for a larger one before', () => {
    // By hand: leaving out the second costs 0.06 in any case, so leaving out the fifth (0.05) is no
    // worse than leaving out the fourth (0.035), and its anchors lie further left.
    const numbers = [20_000, 10_600, 0, 800, 900, 0];
    const plan = chooseAnchors(
      numbers.map((number, k) => exactly((k + 1) * 10_000, number)),
      0.06,
    );
    expect(plan.chosen).toEqual([0, 2, 3, 5]);
    expect(plan.worst).toBe(0.06);
  });

  it('exist for no entry, one entry and two', () => {
    const [one, two] = [exactly(10_000, 5000), exactly(20_000, 70_000)];
    expect(chooseAnchors([], 0)).toEqual({ chosen: [], spans: [], worst: 0 });
    expect(chooseAnchors([one], 0)).toEqual({ chosen: [0], spans: [], worst: 0 });
    expect(chooseAnchors([one, two], 0)).toEqual({
      chosen: [0, 1],
      spans: [{ from: 0, to: 1, derived: [] }],
      worst: 0,
    });
  });

  it('may have a rounding of their own beyond the bound', () => {
    const rough = { start: toDecimal(1), numbers: [{ exact: 1.04, printed: toDecimal(1) }] };
    expect(chooseAnchors([rough, exactly(20_000, 20_000)], 0).worst).toBe(0);
  });

  it.each([
    ['starts out of order', [exactly(20_000, 0), exactly(10_000, 0)], 0.05, 'start 1 after 2'],
    ['a start twice', [exactly(10_000, 0), exactly(10_000, 0)], 0.05, 'start 1 after 1'],
    [
      'a speed missing',
      [exactly(10_000, 0), { start: toDecimal(2), numbers: [] }],
      0.05,
      '0 numbers at 2',
    ],
    ['a bound below zero', [], -0.1, '-0.1'],
    ['a bound that is no number', [], Number.NaN, 'NaN'],
  ])('refuse %s', (_name, entries, bound, message) => {
    expect(() => chooseAnchors(entries, bound)).toThrow(message);
  });
});

describe('the anchors of the demo chart', () => {
  it.each(patterns)('$id: keep all three speeds within the bound', ({ lines }) => {
    for (const tolerance of [0.05, 0.1, 0.2]) {
      const bound = anchorBound(toDecimal(tolerance));
      const plan = anchorsOf(lines, bound);
      const anchored = new Set(plan.chosen);
      for (const speed of SPEEDS) {
        const anchors = anchorNumbers(lines, plan, speed);
        for (const [index, line] of lines.entries()) {
          const rule = interpolate(anchors, line.start) ?? Number.NaN;
          const { exact, printed } = line.numbers[speed];
          if (anchored.has(index)) expect(rule).toBe(toNumber(printed));
          else expect(Math.abs(rule - exact)).toBeLessThanOrEqual(bound + 1e-9);
        }
      }
    }
  });

  it('are of one pattern at a time', () => {
    expect(() => anchorsOf(chart.lines, 0.06)).toThrow('foot-to-far-corner');
  });
});

/** Checks that the spans tile the list, and that each error follows from its anchors and entry. */
function expectHonest(entries: readonly AnchorEntry[], plan: AnchorPlan): void {
  const order = plan.spans.flatMap(({ from, derived }) => [
    from,
    ...derived.map((one) => one.index),
  ]);
  expect([...order, entries.length - 1]).toEqual(entries.map((_, k) => k));
  const { top, bottom } = worstFraction(entries, plan.chosen);
  expect(plan.worst).toBeCloseTo(top / bottom / 1e4, 8);
  for (const { from, to, derived } of plan.spans) {
    for (const { index, start, error } of derived) {
      const errors = (entries[index]?.numbers ?? []).map(({ exact }, speed) => {
        const anchors = [entries[from], entries[to]].flatMap((entry) =>
          entry ? [{ start: entry.start, printed: entry.numbers[speed]?.printed ?? start }] : [],
        );
        return (interpolate(anchors, start) ?? Number.NaN) - exact;
      });
      expect(Math.min(...errors.map((one) => Math.abs(one - error)))).toBeLessThan(1e-8);
      expect(Math.abs(error)).toBeCloseTo(Math.max(...errors.map(Math.abs)), 8);
    }
  }
}

/** The same lines with starts counted from the other end of a long rail, 8 diamonds away. */
function fromOtherEnd(entries: readonly AnchorEntry[]): readonly AnchorEntry[] {
  return entries
    .map(({ start, numbers }) => ({ start: (80_000 - start) as Decimal, numbers }))
    .reverse();
}

function halves(start: number): number {
  return start / 5000;
}

/** One speed, printed without rounding; arguments in ten-thousandths. */
function exactly(start: number, number: number): AnchorEntry {
  const printed = number as Decimal;
  return { start: start as Decimal, numbers: [{ exact: toNumber(printed), printed }] };
}

function whole(min: number, max: number): fc.Arbitrary<number> {
  return fc.integer({ min, max });
}

/** Between `least` and 11 different starts of a long rail, in halves of a diamond. */
function starts(least: number): fc.Arbitrary<readonly Decimal[]> {
  return fc
    .uniqueArray(fc.integer({ min: 0, max: 16 }), { minLength: least, maxLength: 11 })
    .map((list) => list.sort((a, b) => a - b).map((half) => (half * 5000) as Decimal));
}

const bounds = fc.constantFrom(0, 0.02, 0.05, 0.06, 0.12, 0.3).map(toDecimal);

/** Numbers at one speed in ten-thousandths: noise around a line, or a climb in uneven steps. */
function curve(length: number): fc.Arbitrary<readonly number[]> {
  const list = (most: number) =>
    fc.array(fc.integer({ min: 0, max: most }), { minLength: length, maxLength: length });
  const noisy = fc
    .tuple(list(2000), whole(-3000, 3000))
    .map(([noise, slope]) => noise.map((one, k) => one + k * slope));
  const climb = list(6000).map((steps) =>
    steps.map((_, k) => steps.slice(0, k + 1).reduce((sum, step) => sum + step, 0)),
  );
  return fc.oneof(noisy, climb);
}

/** Up to 11 entries at one to three speeds, printed to 0.1. Coarse numbers make ties. */
const entryLists: fc.Arbitrary<readonly AnchorEntry[]> = fc
  .tuple(starts(1), whole(1, 3), fc.constantFrom(1, 250, 500))
  .chain(([list, speeds, grain]) =>
    fc.array(curve(list.length), { minLength: speeds, maxLength: speeds }).map((curves) =>
      list.map((start, k) => ({
        start,
        numbers: curves.map((values) => {
          const units = Math.round((values[k] ?? 0) / grain) * grain;
          return {
            exact: units / 10_000,
            printed: (Math.round(units / 1000) * 1000) as Decimal,
          };
        }),
      })),
    ),
  );

describe('the anchors of a chart', () => {
  it.each(patterns)('of $id are those of its lines, planned once', ({ id, lines }) => {
    for (const bound of [0.05, 0.12]) {
      expect(anchorsIn(chart, id, bound)).toEqual({ lines, plan: anchorsOf(lines, bound) });
      expect(anchorsIn(chart, id, bound)).toBe(anchorsIn(chart, id, bound));
    }
  });

  it('are planned again for another chart', () => {
    const id = patterns[0]?.id ?? 'foot-to-side';
    const fewer = { ...chart, lines: chart.lines.slice(0, 2) };
    expect(anchorsIn(fewer, id, 0.05).lines).toHaveLength(2);
  });
});
