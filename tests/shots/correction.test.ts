import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  computeChart,
  HARBOUR_LANE,
  patternOf,
  toDecimal,
  toNumber,
} from '../../src/charts/index.ts';
import { missOf } from '../../src/shots/arrival.ts';
import { correctionOf, type TableShot, type Tonight } from '../../src/shots/index.ts';
import { type Setting, SPEEDS, type Speed } from '../../src/table/index.ts';
import { dice } from '../oracle/dice.ts';
import {
  type Called,
  CLUB_PLAYER,
  type Errors,
  missByOde,
  NONE,
  ODE_PATTERNS,
  readAt,
} from './table-shots.ts';

const chart = computeChart(HARBOUR_LANE);
const { setting } = chart;
/** Lines with one cushion, each with its number at one speed. */
const called: readonly Called[] = chart.lines
  .filter(({ pattern }) => patternOf(pattern).cushions.length === 1)
  .map((line, n) => {
    const speed = SPEEDS[n % 3] as Speed;
    const aim = toNumber(line.numbers[speed].printed);
    return {
      pattern: line.pattern,
      route: patternOf(line.pattern),
      start: toNumber(line.start),
      speed,
      aim,
    };
  });
const short = called.filter(({ route }) => route.cushions[0] === 'foot');
const long = called.filter(({ route }) => route.cushions[0] === 'right');

/** Shots at a table that plays like the chart's with every number `by` more. */
function shifted(
  which: readonly Called[],
  by: (shot: Called) => number,
  errors: Errors,
  roll = dice(1),
  on: Setting = setting,
): readonly TableShot[] {
  return which.flatMap((shot) => {
    const read = readAt(on, { ...shot, beside: -by(shot) }, errors, roll);
    return read ? [read] : [];
  });
}

const every = <T>(all: readonly T[], step: number, from = 0) =>
  all.filter((_, n) => n % step === from);
const missed = (shots: readonly TableShot[]) => shots.filter(({ miss }) => miss !== null);

describe('tonight’s correction', () => {
  it('is empty for too few shots, with the reason', () => {
    expect(correctionOf(chart, [])).toMatchObject({
      corrections: [],
      why: 'no shots',
      amounts: [],
    });
    const two = missed(shifted(short, () => 0.3, NONE)).slice(0, 2);
    expect(correctionOf(chart, two)).toMatchObject({ corrections: [], why: 'too few shots' });
  });

  it('is empty if every shot was made', () => {
    const made = shifted(every(called, 4), () => 0, NONE).map((shot) => ({ ...shot, miss: null }));
    expect(correctionOf(chart, made)).toMatchObject({ corrections: [], why: 'all made' });
  });

  const sideFromSix = called.find((one) => one.pattern === 'foot-to-side' && one.start === 6);
  const madeAt = (beside: number, count: number): readonly TableShot[] => {
    if (!sideFromSix) throw new Error('the chart has it');
    const { route: _, ...shot } = sideFromSix;
    return Array.from({ length: count }, () => ({ ...shot, aim: shot.aim + beside, miss: null }));
  };

  // A shot made with another number than the printed one shows that the other number works.
  it('uses the number that was aimed at, even if every shot was made', () => {
    const tonight = correctionOf(chart, madeAt(0.3, 4));
    expect(['all made', 'too small']).not.toContain(tonight.why);
    expect(Math.abs(amountIn(tonight) - 0.3)).toBeLessThan(0.1);
    expect(correctionOf(chart, madeAt(0.3, 12)).corrections).toMatchObject([
      { group: 'short-rail' },
    ]);
    expect(correctionOf(chart, madeAt(0, 4)).why).toBe('all made');
  });

  // Amounts of ± 0.02 alternate: the mean is 0, known to 0.02/√n and the coarseness of the readings.
  it('is too small if the amount is certainly close to 0', () => {
    const shots = shifted(every(short, 2), ({ start }) => (start % 1 === 0 ? 0.02 : -0.02), NONE);
    const forced = shots.map((shot) => {
      const route = patternOf(shot.pattern);
      return { ...shot, miss: missOf(setting, { ...shot, route }) };
    });
    const tonight = correctionOf(chart, [...forced, ...forced, ...forced, ...forced]);
    const [low, high] = tonight.amounts[0]?.interval ?? [-9, 9];
    expect(low).toBeGreaterThan(-0.05);
    expect(high).toBeLessThan(0.05);
    expect(tonight.why).toBe('too small');
    const few = correctionOf(chart, forced.slice(0, 3));
    expect(few.amounts[0]?.interval[1]).toBeGreaterThan(0.05);
    expect(few.why).toBe('not significant');
  });

  // The largest corrections are 0.5 diamond, a quarter more and a fifth less (common practice).
  it.each([
    [0.5, null],
    [0.6, 'too large'],
    [-0.6, 'too large'],
  ])('an offset of %d: %s', (by, why) => {
    const tonight = correctionOf(chart, missed(shifted(every(short, 3), () => by, NONE)));
    expect(tonight.why).toBe(why);
    expect(tonight.corrections).toHaveLength(why === null ? 1 : 0);
    expect(amountIn(tonight)).toBeCloseTo(by, 3);
  });

  it('needs two starts with numbers half a diamond apart for a factor', () => {
    const near = missed(shifted(short, ({ aim }) => aim - aim / 1.15, NONE)).filter(
      ({ pattern, aim }) => pattern === 'foot-to-side' && aim >= 1.5 && aim < 2,
    );
    expect(near.length).toBeGreaterThan(2);
    expect(correctionOf(chart, near).corrections).toMatchObject([{ kind: 'offset' }]);
  });

  // Without errors the result is the amount that was used, on whichever side of the pocket they arrive.
  it.each([0.3, -0.3, 0.45])('recovers %d for all numbers exactly', (by) => {
    const shots = missed(shifted(every(called, 3), () => by, NONE));
    const tonight = correctionOf(chart, shots);
    expect(tonight.corrections).toEqual([{ kind: 'offset', group: 'all', add: toDecimal(by) }]);
    expect(tonight.amounts[0]?.value).toBeCloseTo(by, 4);
    expect(tonight.scale).toBe(1);
  });

  it('is for one group if only its numbers were tried', () => {
    const shots = missed(shifted(every(short, 3), () => 0.3, NONE));
    expect(correctionOf(chart, shots).corrections).toEqual([
      { kind: 'offset', group: 'short-rail', add: toDecimal(0.3) },
    ]);
  });

  it('separates the groups', () => {
    const shots = [
      ...missed(shifted(every(short, 2), () => 0.3, NONE)),
      ...missed(shifted(every(long, 2), () => -0.25, NONE)),
    ];
    expect(correctionOf(chart, shots).corrections).toEqual([
      { kind: 'offset', group: 'short-rail', add: toDecimal(0.3) },
      { kind: 'offset', group: 'long-rail', add: toDecimal(-0.25) },
    ]);
    const one = [
      ...missed(shifted(every(short, 2), () => 0.3, NONE)),
      ...shifted(every(long, 2), () => 0, NONE),
    ];
    expect(correctionOf(chart, one).corrections).toEqual([
      { kind: 'offset', group: 'short-rail', add: toDecimal(0.3) },
    ]);
  });

  it('finds a factor', () => {
    const shots = missed(shifted(called, ({ aim }) => aim - aim / 1.15, NONE));
    const tonight = correctionOf(chart, shots);
    expect(tonight.corrections).toEqual([{ kind: 'factor', times: toDecimal(1.15) }]);
    expect(tonight.amounts[0]?.value).toBeCloseTo(0.15, 4);
  });

  // A general ODE solver plays the shots on an independent version of the model; read by hand.
  it('recovers an offset from the general solver’s shots', () => {
    const shots = ODE_PATTERNS.flatMap((pattern) =>
      every(
        called.filter((one) => one.pattern === pattern),
        2,
      ).map((one): TableShot => {
        const { route: _, ...shot } = one;
        return { ...shot, miss: missByOde(setting, { ...one, aim: one.aim - 0.35 }) };
      }),
    );
    expect(shots.length).toBeGreaterThan(12);
    // docs/numbers.md states 0.001 diamond at the target for a single shot; the mean is closer.
    expect(Math.abs((correctionOf(chart, shots).amounts[0]?.value ?? 9) - 0.35)).toBeLessThan(
      0.001,
    );
  });

  // A measured number is true of its table; only the rest is tonight's.
  it('is added to the chart’s measured numbers', () => {
    const [revision] = HARBOUR_LANE.revisions;
    const lines = every(short, 3);
    const measured = lines.map(({ pattern, start, aim }) => {
      const number = toDecimal(aim + 0.2);
      return { pattern, start: toDecimal(start), soft: number, medium: number, firm: number };
    });
    const revised = {
      ...revision,
      condition: setting.condition,
      patterns: chart.patterns,
      measured,
    };
    const own = computeChart({ ...HARBOUR_LANE, revisions: [revised] });
    const shots = missed(shifted(lines, () => 0.5, NONE));
    // Each number is measured 0.2 above the printed one; rounding to print adds up to 0.05.
    expect(Math.abs(amountIn(correctionOf(chart, shots)) - 0.5)).toBeLessThan(1e-3);
    expect(Math.abs(amountIn(correctionOf(own, shots)) - 0.3)).toBeLessThan(0.05);
  });

  it('does not depend on the order of the shots', () => {
    const shots = shifted(every(called, 2), () => 0.15, CLUB_PLAYER, dice(5));
    const first = correctionOf(chart, shots);
    fc.assert(
      fc.property(fc.shuffledSubarray([...shots], { minLength: shots.length }), (mixed) => {
        const again = correctionOf(chart, mixed);
        expect(again.corrections).toEqual(first.corrections);
        again.amounts.forEach(({ value }, n) => {
          expect(value).toBeCloseTo(first.amounts[n]?.value ?? 9, 9);
        });
      }),
      { numRuns: 5 },
    );
  });

  // Twice as many equal shots halve the variance: se falls as 1/√n if the scale is at its minimum.
  it('has a standard error that falls as the root of the shots', () => {
    const shots = missed(shifted(every(short, 3), () => 0.3, NONE));
    const se = (times: number) => {
      const many = Array.from({ length: times }, () => shots).flat();
      return correctionOf(chart, many).amounts[0]?.standardError ?? 9;
    };
    expect(se(4) / se(16)).toBeCloseTo(2, 1);
  });

  // With logistic weights (c = 1.205) one shot pulls by at most c·scale·noise/2 × 1/information: among
  // ten, at most 1.205/9 ≈ 0.13 of an error's deviation, plus the growth of the scale; 0.05 diamond.
  it('moves by less than a twentieth with one wild shot in ten', () => {
    const roll = dice(9);
    const ten = missed(shifted(every(short, 2), () => 0.3, { aim: 0.04, step: 0.25 }, roll)).slice(
      0,
      10,
    );
    expect(ten).toHaveLength(10);
    const before = correctionOf(chart, ten);
    for (const wild of [2, -2.5]) {
      const spoiled = ten.map((shot, n) => (n === 4 ? { ...shot, miss: wild } : shot));
      const after = correctionOf(chart, spoiled);
      expect(Math.abs(amountIn(after) - amountIn(before))).toBeLessThan(0.05);
      const [least] = [...after.shots].sort((a, b) => a.weight - b.weight);
      expect(least?.shot).toBe(spoiled[4]);
      expect(least?.weight).toBeLessThan(0.5);
    }
  });

  // 200 evenings of 12 shots: about one in ten should lie outside its 90 % interval. The bounds are
  // three standard deviations of that count, √(200·0.9·0.1) = 4.2; our intervals are a little wide.
  it('is unbiased, and its interval covers the truth as often as it should', () => {
    const roll = dice(31);
    const evenings = 200;
    let covered = 0;
    let counted = 0;
    let sum = 0;
    for (let n = 0; n < evenings; n++) {
      const by = 0.2 * (2 * roll() - 1);
      const which = Array.from(
        { length: 12 },
        () => short[Math.floor(roll() * short.length)] as Called,
      );
      const { amounts } = correctionOf(
        chart,
        shifted(which, () => by, CLUB_PLAYER, roll),
      );
      const [amount] = amounts;
      if (amount?.of !== 'short-rail') continue;
      counted++;
      const [low, high] = amount.interval;
      if (low <= by && by <= high) covered++;
      sum += amount.value - by;
    }
    expect(covered / counted).toBeGreaterThan(0.9 - (3 * 4.2) / evenings);
    expect(Math.abs(sum / counted)).toBeLessThan(0.01);
  });

  it('is rarely significant on the chart’s own table', () => {
    const roll = dice(77);
    let significant = 0;
    for (let n = 0; n < 100; n++) {
      const which = Array.from(
        { length: 10 },
        () => called[Math.floor(roll() * called.length)] as Called,
      );
      if (
        correctionOf(
          chart,
          shifted(which, () => 0, CLUB_PLAYER, roll),
        ).corrections.length > 0
      )
        significant++;
    }
    // Five corrections are possible, each at 10 %; they use the same shots, so together below 25 %.
    expect(significant).toBeLessThan(25);
  });
});

function amountIn({ amounts }: Tonight): number {
  return amounts[0]?.value ?? Number.NaN;
}
