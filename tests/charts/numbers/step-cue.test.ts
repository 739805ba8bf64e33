import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type AnchorNumber,
  anchorBound,
  anchorNumbers,
  anchorsOf,
  computeChart,
  cueFor,
  type Decimal,
  HARBOUR_LANE,
  interpolate,
  lastRevision,
  type StepCue,
  stepCues,
  toDecimal,
  toNumber,
} from '../../../src/charts/index.ts';
import { countFrom } from '../../../src/charts/numbers/step-cue.ts';

const TENTH = toDecimal(0.1);

describe('the step between two anchors', () => {
  // By hand: (x2 − x1)/(t2 − t1), to the printed step; half a step rounds away from zero.
  it.each([
    ['a whole step', 2, 1, 4, 2, 0.1, 0.5, 0],
    ['rounded up', 1, 0.5, 4.5, 2.1, 0.1, 0.5, 0.15],
    ['rounded down', 1.5, 0.6, 4, 1.2, 0.1, 0.2, -0.1],
    ['a half, away from zero', 2, 1, 4, 1.7, 0.1, 0.4, 0.1],
    ['falling, a half, away from zero', 2, 1.7, 4, 1, 0.1, -0.4, -0.1],
    ['nothing at all', 2, 1, 4, 1, 0.1, 0, 0],
    ['less than half a step', 1, 2, 8, 2.3, 0.1, 0, -0.3],
    ['half a diamond apart', 2, 1, 2.5, 1.1, 0.1, 0.2, 0],
    ['printed to 0.05', 3, 1.8, 5, 2.15, 0.05, 0.2, 0.05],
  ])('%s', (_name, from, fromNumber, to, farNumber, printStep, step, drift) => {
    const anchors = [anchor(from, fromNumber), anchor(to, farNumber)];
    const [cue, ...more] = stepCues(anchors, toDecimal(printStep), 0.06);
    expect(more).toEqual([]);
    expect(cue).toMatchObject({
      from: toDecimal(from),
      to: toDecimal(to),
      fromNumber: toDecimal(fromNumber),
      toNumber: toDecimal(farNumber),
      step: toDecimal(step),
      drift: toDecimal(drift),
      drifts: Math.abs(drift) > 0.06,
    });
    expect(cue?.slope).toBeCloseTo((farNumber - fromNumber) / (to - from), 12);
  });

  it('may be used throughout up to a drift equal to the bound', () => {
    const anchors = [anchor(2, 1), anchor(4, 1.7)];
    expect(stepCues(anchors, TENTH, 0.1)[0]?.drifts).toBe(false);
    expect(stepCues(anchors, TENTH, 0.0999)[0]?.drifts).toBe(true);
  });

  it('is off by at most half a printed step, and the drift by that per diamond', () => {
    fc.assert(
      fc.property(anchorLists, printSteps, (anchors, printStep) => {
        for (const cue of stepCues(anchors, printStep, 0.06)) {
          expect(Math.abs(cue.slope - toNumber(cue.step))).toBeLessThanOrEqual(
            toNumber(printStep) / 2 + 1e-9,
          );
          expect(Math.abs(toNumber(cue.drift))).toBeLessThanOrEqual(farthest(cue, printStep));
          expect(Math.abs(cue.step % printStep)).toBe(0);
        }
      }),
    );
  });

  it('needs anchors in order', () => {
    const backward = [anchor(4, 2), anchor(2, 1)];
    expect(() => stepCues(backward, TENTH, 0.06)).toThrow('start 2 after 4');
  });

  it('needs two anchors', () => {
    expect(stepCues([], TENTH, 0.06)).toEqual([]);
    expect(stepCues([anchor(2, 1)], TENTH, 0.06)).toEqual([]);
  });
});

describe('counting', () => {
  const cues = stepCues([anchor(1, 1), anchor(2.5, 1.7), anchor(6, 2.4)], TENTH, 0.06);

  // By hand: 0.7 over 1.5 is 0.467, so 0.5 a diamond; 0.7 over 3.5 is 0.2 a diamond exactly.
  it.each([
    ['at an anchor nothing', 1, 'earlier', '1: 1', 1],
    ['a half alone', 1.5, 'earlier', '1: 1, 1.5: 1.25', 1 + 0.7 / 3],
    ['a half back from the nearer anchor', 2, 'later', '2.5: 1.7, 2: 1.45', 1 + 1.4 / 3],
    ['at an anchor between, by the cue before it', 2.5, 'later', '2.5: 1.7', 1.7],
    ['a diamond', 3.5, 'earlier', '2.5: 1.7, 3.5: 1.9', 1.9],
    ['a diamond and a half', 4, 'earlier', '2.5: 1.7, 3.5: 1.9, 4: 2', 2],
    [
      'from the earlier of two equally near',
      4.25,
      'earlier',
      '2.5: 1.7, 3.5: 1.9, 4.25: 2.05',
      2.05,
    ],
    ['back by a diamond and a half', 4.5, 'later', '6: 2.4, 5: 2.2, 4.5: 2.1', 2.1],
  ])('%s', (_name, start, side, stops, rule) => {
    const counting = cueFor(cues, toDecimal(start));
    const counted = counting?.stops.map(
      (stop) => `${toNumber(stop.start)}: ${toNumber(stop.number)}`,
    );
    expect(counting?.side).toBe(side);
    expect(counted?.join(', ')).toBe(stops);
    expect(counting?.counted).toBe(counting?.stops.at(-1)?.number);
    expect(counting?.proportional).toBeCloseTo(rule, 12);
  });

  it('ends at the outer anchors', () => {
    expect(cueFor(cues, toDecimal(0.5))).toBeNull();
    expect(cueFor(cues, toDecimal(6.1))).toBeNull();
    expect(cueFor([], toDecimal(1))).toBeNull();
    for (const cue of cues.slice(0, 1)) {
      expect(() => countFrom(cue, 'earlier', toDecimal(3))).toThrow('3 not in 1–2.5');
    }
  });

  it('over no distance gives the anchor, as does the rule', () => {
    fc.assert(
      fc.property(anchorLists, printSteps, (anchors, printStep) => {
        for (const cue of stepCues(anchors, printStep, 0.06)) {
          const near = countFrom(cue, 'earlier', cue.from);
          expect([near.counted, near.proportional]).toEqual([cue.fromNumber, value(cue.from)]);
          const far = countFrom(cue, 'later', cue.to);
          expect([far.counted, far.proportional]).toEqual([cue.toNumber, value(cue.to)]);
        }

        function value(start: Decimal): number | null {
          return interpolate(anchors, start);
        }
      }),
    );
  });

  it('with a slope of whole printed steps hits the far anchor and always equals the rule', () => {
    fc.assert(
      fc.property(
        startLists,
        printSteps,
        fc.integer({ min: -20, max: 20 }),
        (starts, printStep, steps) => {
          const line = starts.map((start) => ({
            start,
            printed: ((start * steps * printStep) / 10_000 + 0) as Decimal,
          }));
          for (const cue of stepCues(line, printStep, 0)) {
            expect(cue).toMatchObject({ drift: 0, drifts: false });
            expect(countFrom(cue, 'earlier', cue.to).counted).toBe(cue.toNumber);
            expect(countFrom(cue, 'later', cue.from).counted).toBe(cue.fromNumber);
            for (const start of betweenAnchors(cue)) {
              const { counted, proportional } = countFrom(cue, 'earlier', start);
              expect(toNumber(counted)).toBeCloseTo(proportional, 9);
            }
          }
        },
      ),
    );
  });

  it('from one anchor differs from the other by the drift, within the rounding', () => {
    fc.assert(
      fc.property(anchorLists, printSteps, (anchors, printStep) => {
        for (const cue of stepCues(anchors, printStep, 0.06)) {
          for (const start of betweenAnchors(cue)) {
            const there = countFrom(cue, 'earlier', start).counted;
            const back = countFrom(cue, 'later', start).counted;
            expect(there - back).toBe(cue.drift);
            expect(Math.abs(toNumber(there) - toNumber(back))).toBeLessThanOrEqual(
              farthest(cue, printStep),
            );
          }
        }
      }),
    );
  });

  it('from the nearer anchor differs from the rule by at most half the drift', () => {
    fc.assert(
      fc.property(anchorLists, printSteps, (anchors, printStep) => {
        const all = stepCues(anchors, printStep, 0.06);
        for (const cue of all) {
          for (const start of betweenAnchors(cue)) {
            const counting = cueFor(all, start);
            if (!counting) throw new Error(`no cue at ${start}`);
            const half = Math.abs(toNumber(counting.cue.drift)) / 2;
            expect(Math.abs(toNumber(counting.counted) - counting.proportional)).toBeLessThan(
              half + 1e-9,
            );
            expect(counting.proportional).toBeCloseTo(interpolate(anchors, start) ?? NaN, 12);
          }
        }
      }),
    );
  });

  it('stops at whole diamonds, with a shorter last part', () => {
    fc.assert(
      fc.property(anchorLists, printSteps, (anchors, printStep) => {
        for (const cue of stepCues(anchors, printStep, 0.06)) {
          for (const start of betweenAnchors(cue)) {
            const { stops } = countFrom(cue, 'later', start);
            const parts = stops.slice(1).map((stop, k) => (stops[k]?.start ?? 0) - stop.start);
            expect(parts.slice(0, -1).every((part) => part === 10_000)).toBe(true);
            expect(parts.every((part) => part > 0 && part <= 10_000)).toBe(true);
            expect([stops[0].start, stops.at(-1)?.start]).toEqual([cue.to, start]);
          }
        }
      }),
    );
  });

  it('is the same from the other end of the rail', () => {
    fc.assert(
      fc.property(anchorLists, printSteps, (anchors, printStep) => {
        const reversed = anchors
          .map(({ start, printed }) => ({ start: (80_000 - start) as Decimal, printed }))
          .reverse();
        const [here, there] = [anchors, reversed].map((list) => stepCues(list, printStep, 0.06));
        expect(there?.map((cue) => cue.step).reverse()).toEqual(
          here?.map((cue) => (cue.step === 0 ? 0 : -cue.step)),
        );
        expect(there?.map((cue) => cue.drifts).reverse()).toEqual(here?.map((cue) => cue.drifts));
      }),
    );
  });
});

describe('the cues of the demo chart', () => {
  it('reach every line of a pattern', () => {
    const chart = computeChart(HARBOUR_LANE);
    const bound = anchorBound(TENTH);
    for (const id of lastRevision(HARBOUR_LANE).patterns) {
      const lines = chart.lines.filter((line) => line.pattern === id);
      const anchors = anchorNumbers(lines, anchorsOf(lines, bound), 'medium');
      const cues = stepCues(anchors, HARBOUR_LANE.printStep, bound);
      // There is nothing to count in a pattern with a single line.
      if (lines.length < 2) continue;
      for (const line of lines) {
        const counting = cueFor(cues, line.start);
        expect(counting?.proportional).toBeCloseTo(interpolate(anchors, line.start) ?? NaN, 12);
      }
    }
  });
});

function anchor(start: number, number: number): AnchorNumber {
  return { start: toDecimal(start), printed: toDecimal(number) };
}

/** Half a printed step for each diamond between the anchors, plus a billionth for rounding. */
function farthest(cue: StepCue, printStep: Decimal): number {
  return (toNumber((cue.to - cue.from) as Decimal) * toNumber(printStep)) / 2 + 1e-9;
}

/** Every half diamond from one anchor to the other. */
function betweenAnchors({ from, to }: StepCue): readonly Decimal[] {
  return Array.from({ length: (to - from) / 5000 + 1 }, (_, k) => (from + k * 5000) as Decimal);
}

const printSteps = fc.constantFrom(0.1, 0.05, 0.25).map(toDecimal);

const startLists = fc
  .uniqueArray(fc.integer({ min: 0, max: 16 }), { minLength: 2, maxLength: 6 })
  .map((list) => list.sort((a, b) => a - b).map((half) => (half * 5000) as Decimal));

/** Two to six anchors at half diamonds, numbers printed to a twentieth. */
const anchorLists: fc.Arbitrary<readonly AnchorNumber[]> = startLists.chain((starts) =>
  fc
    .array(fc.integer({ min: 0, max: 160 }), { minLength: starts.length, maxLength: starts.length })
    .map((numbers) =>
      starts.map((start, k) => ({ start, printed: ((numbers[k] ?? 0) * 500) as Decimal })),
    ),
);
