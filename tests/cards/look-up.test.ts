import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type LookedUp, lookUp, verdictAt } from '../../src/cards/index.ts';
import type { RailPlace } from '../../src/cards/look-up.ts';
import {
  computeChart,
  HARBOUR_LANE,
  monotoneCubic,
  PATTERNS,
  patternOf,
  roundTo,
  toDecimal,
  toNumber,
} from '../../src/charts/index.ts';
import {
  aimNamed,
  type Count,
  diamondOf,
  divisions,
  isLongRail,
  MIRRORS,
  type Mirror,
  mirrorCount,
  mirrorPocket,
  mirrorRail,
  POCKETS,
  RAILS,
  type Rail,
  SPEEDS,
  type Target,
} from '../../src/table/index.ts';
import { MEASURED_BAR_TABLE } from '../charts/measured.ts';
import { judge } from '../oracle/grid.ts';

const chart = computeChart(HARBOUR_LANE);

describe('every pattern of the catalogue', () => {
  const cases = PATTERNS.flatMap((pattern) => MIRRORS.map((mirror) => ({ pattern, mirror })));

  it.each(cases)(
    '$pattern.id is found by its own start and pocket, mirrored $mirror',
    ({ pattern, mirror }) => {
      const lines = chart.lines.filter((line) => line.pattern === pattern.id);
      expect(lines.length).toBeGreaterThan(0);
      for (const line of lines) {
        const from = mirroredPlace({ count: pattern.start, diamond: line.start }, mirror);
        const { found } = lookUp(chart, from, mirroredTarget(pattern.target, mirror));
        const own = found.filter((path) => path.pattern === pattern.id && path.mirror === mirror);
        expect(own).toHaveLength(1);
        // Looking up a line finds the line itself, with its printed and its unrounded numbers.
        expect(own[0]).toMatchObject({ onChart: true, start: line.start });
        expect(own[0]?.numbers).toEqual(line.numbers);
      }
    },
  );

  it.each(PATTERNS)('$id is found as a kick to its rail', (pattern) => {
    // Some start can kick to some diamond of the rail.
    const whole = Array.from({ length: divisions(pattern.kicks.rail) - 1 }, (_, n) => n + 1);
    const paths = [pattern.starts[0], pattern.starts[1]].flatMap((start) =>
      whole.flatMap((diamond) => {
        const from = { count: pattern.start, diamond: toDecimal(start) };
        const target = { kind: 'rail', count: pattern.kicks, diamond } as const;
        return lookUp(chart, from, target).found.filter(
          ({ route }) => route.cushions.join() === pattern.cushions.join(),
        );
      }),
    );
    expect(paths.length).toBeGreaterThan(0);
    for (const { onChart } of paths) expect(onChart).toBe(false);
  });
});

describe('a shot in the other mirror images of the table', () => {
  it('has the same paths, numbers and reasons', () => {
    fc.assert(
      fc.property(place(), target(), (from, to) => {
        const images = MIRRORS.map((mirror) =>
          summary(lookUp(chart, mirroredPlace(from, mirror), mirroredTarget(to, mirror))),
        );
        for (const other of images) expect(other).toEqual(images[0]);
      }),
      { numRuns: 60 },
    );
  });

  it('has the same numbers from whichever end of its rail a place is counted', () => {
    fc.assert(
      fc.property(place(), target(), (from, to) => {
        const there = to.kind === 'rail' ? { ...to, ...recounted(to.count, to.diamond) } : to;
        const { count, diamond } = recounted(from.count, toNumber(from.diamond));
        const again = lookUp(chart, { count, diamond: toDecimal(diamond) }, there);
        expect(summary(again)).toEqual(summary(lookUp(chart, from, to)));
      }),
      { numRuns: 30 },
    );
  });

  it('is one path up and back to its own rail, counted the way that leads to the pocket', () => {
    const to = (diamond: number): Target => ({ kind: 'rail', count: headFromLeft, diamond });
    const up = lookUp(chart, { count: headFromLeft, diamond: toDecimal(1) }, to(3)).found;
    const down = lookUp(chart, { count: headFromLeft, diamond: toDecimal(3) }, to(1)).found;
    const own = [up, down].map((paths) => paths.filter((path) => path.pattern === 'up-and-back'));
    expect(own.map((paths) => paths.map(({ start }) => toNumber(start)))).toEqual([[1], [1]]);
    expect(own[1]?.[0]?.numbers).toEqual(own[0]?.[0]?.numbers);
  });
});

describe('the paths of a shot', () => {
  it('are sorted by cushions, then by start', () => {
    fc.assert(
      fc.property(place(), target(), (from, to) => {
        const { found } = lookUp(chart, from, to);
        const ranks = found.map(
          ({ route, start }) => 100 * route.cushions.length + toNumber(start),
        );
        expect(ranks).toEqual([...ranks].sort((a, b) => a - b));
      }),
      { numRuns: 60 },
    );
  });
});

describe('a number that is no line’s', () => {
  it('lies between the numbers of the neighboring lines', () => {
    // A pattern's numbers rise with the start (tests/table/solve.test.ts: monotone).
    const from = { count: patternOf('cross-corner').start, diamond: toDecimal(3.3) };
    const [path] = lookUp(chart, from, patternOf('cross-corner').target).found;
    const beside = [3, 3.5].map((start) => lineOf('cross-corner', start).numbers);
    for (const speed of SPEEDS) {
      const number = path?.numbers[speed];
      if (!number || typeof number === 'string') throw new Error(`no number at ${speed}`);
      expect(number.exact).toBeGreaterThan(beside[0]?.[speed].exact ?? Number.NaN);
      expect(number.exact).toBeLessThan(beside[1]?.[speed].exact ?? Number.NaN);
      expect(number.printed).toBe(roundTo(number.exact, HARBOUR_LANE.printStep));
    }
    expect(path?.onChart).toBe(false);
  });

  /** Starts and targets of a pattern as printed, and of mirrored ones. */
  const KICKS = [
    ['left', 'foot', 3.2, 'right', 'foot', 5.5],
    ['right', 'foot', 4.7, 'left', 'foot', 6.3],
    ['left', 'foot', 6.5, 'left', 'foot', 1.5],
    ['head', 'left', 1.3, 'left', 'foot', 2.4],
    ['foot', 'left', 0.8, 'foot', 'left', 2.9],
  ] as const;

  it.each(KICKS)('kicks to its target: %s from the %s, %d → %s from the %s, %d', (...row) => {
    // Played by a general ODE solver with the oracle's own code of the physics (tests/oracle).
    const [rail, end, start, toRail, toEnd, diamond] = row;
    const from = { count: { rail, from: end }, diamond: toDecimal(start) };
    const aimed = { kind: 'rail', count: { rail: toRail, from: toEnd }, diamond } as const;
    const { found } = lookUp(chart, from, aimed);
    expect(found.length).toBeGreaterThan(0);
    for (const path of found) {
      const { route, mirror } = path;
      const own = mirroredTarget(aimed, mirror);
      for (const speed of SPEEDS) {
        const number = path.numbers[speed];
        if (typeof number === 'string' || own.kind === 'pocket') continue;
        const launch = { ...route.stroke, speed: chart.setting.condition.speeds[speed] };
        const shot = { setting: chart.setting, route, start: toNumber(path.start) };
        const { ended } = judge({ ...shot, aim: number.exact, launch });
        const at = diamondOf(chart.setting.table, own.count, ended.ball);
        // The solver promises 0.001 (tests/table/against-ode.test.ts).
        expect(Math.abs(at - own.diamond)).toBeLessThan(0.002);
      }
    }
  });

  it('is through the sight or on the nose, as the chart’s naming has it', () => {
    const opposite = computeChart(HARBOUR_LANE, 'opposite');
    const from = { count: patternOf('foot-to-side').start, diamond: toDecimal(3.3) };
    const to = { kind: 'rail', count: patternOf('foot-to-side').kicks, diamond: 5.2 } as const;
    const [through] = lookUp(chart, from, to).found;
    const [nose] = lookUp(opposite, from, to).found;
    for (const speed of SPEEDS) {
      const [a, b] = [through?.numbers[speed], nose?.numbers[speed]];
      if (!a || !b || typeof a === 'string' || typeof b === 'string') throw new Error(speed);
      const { table } = chart.setting;
      const back = aimNamed(table, patternOf('foot-to-side'), 3.3, b.exact, 'opposite');
      expect(back).toBeCloseTo(a.exact, 9);
    }
  });
});

describe('a path that cannot be played says why', () => {
  it('for a start beyond the pattern’s starts', () => {
    const from = { count: patternOf('cross-side').start, diamond: toDecimal(4.2) };
    const { found, missed } = lookUp(chart, from, patternOf('cross-side').target);
    expect(found.map(({ pattern }) => pattern)).not.toContain('cross-side');
    const why = missed.filter(({ pattern }) => pattern === 'cross-side').map((one) => one.why);
    expect(new Set(why)).toEqual(new Set(['beyond its starts']));
  });

  it('for a ball that stands where the line starts', () => {
    const { start: count } = patternOf('cross-side');
    const to = { kind: 'rail', count, diamond: 6 } as const;
    const { found, missed } = lookUp(chart, { count, diamond: toDecimal(6) }, to);
    expect(found.map(({ pattern }) => pattern)).not.toContain('cross-side');
    expect(missed).toContainEqual(
      expect.objectContaining({ pattern: 'cross-side', why: 'meets its ball first' }),
    );
  });

  it('for every path from the side pocket into itself: all patterns start farther away', () => {
    const from = { count: { rail: 'left', from: 'foot' }, diamond: toDecimal(4) } as const;
    const { found, missed } = lookUp(chart, from, { kind: 'pocket', pocket: 'left-side' });
    expect(found).toEqual([]);
    // The catalog's patterns from a long rail to its own side pocket.
    const own = new Set(['cross-side', 'short-long-to-side', 'long-short-to-side']);
    expect(new Set(missed.map(({ pattern }) => pattern))).toEqual(own);
    expect(new Set(missed.map(({ why }) => why))).toEqual(new Set(['beyond its starts']));
  });
});

describe('a measured chart', () => {
  const bar = computeChart(MEASURED_BAR_TABLE);
  const { start: count, target: pocket } = patternOf('foot-to-side');

  it('gives a measured line as it was measured', () => {
    const [path] = lookUp(bar, { count, diamond: toDecimal(3) }, pocket).found;
    const numbers = SPEEDS.map((speed) => path?.numbers[speed]);
    // The rows of tests/charts/measured.ts.
    expect(numbers).toMatchObject([1.75, 1.95, 2.1].map((n) => ({ printed: toDecimal(n) })));
    expect(path?.onChart).toBe(true);
  });

  it('follows the monotone cubic between measured lines', () => {
    const { found } = lookUp(bar, { count, diamond: toDecimal(5) }, pocket);
    const path = found.find(({ start }) => start === toDecimal(5));
    // Fritsch & Carlson's curve (tests/charts/numbers/monotone-cubic.test.ts), over the measured column.
    const column = [1.05, 1.65, 1.95, 2.2, 2.5, 2.75];
    const curve = monotoneCubic([1, 2, 3, 4, 6, 8].map((x, n) => ({ x, y: column[n] ?? 0 })));
    expect(path?.numbers.medium).toMatchObject({ exact: curve(5) });
    expect(path?.onChart).toBe(false);
  });

  it('says that nothing is measured beyond its lines', () => {
    const corner = patternOf('foot-to-far-corner');
    const looked = lookUp(bar, { count, diamond: toDecimal(1.5) }, corner.target);
    expect(looked.missed).toContainEqual(
      expect.objectContaining({ pattern: corner.id, why: 'not measured' }),
    );
  });
});

describe('the verdict on a path', () => {
  it('is kick only if there is no number at any speed', () => {
    const none = { soft: null, medium: null, firm: null };
    const verdict = verdictAt(chart, patternOf('cross-side'), toDecimal(6), none);
    expect(verdict.kind).toBe('kick only');
  });
});

const headFromLeft: Count = { rail: 'head', from: 'left' };

function lineOf(pattern: string, start: number) {
  const line = chart.lines.find((one) => one.pattern === pattern && toNumber(one.start) === start);
  if (!line) throw new Error(`no line of ${pattern} from ${start}`);
  return line;
}

/** All that a player sees of a shot, except the mirror image. */
function summary({ found, missed }: LookedUp): readonly string[] {
  const paths = found.map(({ pattern, route, start, numbers, onChart }) =>
    JSON.stringify([pattern, route, start, numbers, onChart]),
  );
  const not = missed
    .filter(({ why }) => why !== 'beyond its starts')
    .map(({ pattern, route, start, why }) => JSON.stringify([pattern, route, start, why]));
  return [...paths.sort(), ...not.sort()];
}

function mirroredPlace({ count, diamond }: RailPlace, mirror: Mirror): RailPlace {
  return { count: mirrorCount(count, mirror), diamond };
}

function mirroredTarget(target: Target, mirror: Mirror): Target {
  return target.kind === 'pocket'
    ? { kind: 'pocket', pocket: mirrorPocket(target.pocket, mirror) }
    : { ...target, count: mirrorCount(target.count, mirror) };
}

function recounted(count: Count, diamond: number) {
  const from = isLongRail(count.rail)
    ? mirrorRail(count.from, { leftRight: false, footHead: true })
    : mirrorRail(count.from, { leftRight: true, footHead: false });
  const tenths = Math.round((divisions(count.rail) - diamond) * 10) / 10;
  return { count: { rail: count.rail, from }, diamond: tenths };
}

function countOf(rail: Rail): Count {
  return { rail, from: isLongRail(rail) ? 'foot' : 'left' };
}

function onRail(): fc.Arbitrary<{ count: Count; diamond: number }> {
  return fc
    .constantFrom(...RAILS)
    .chain((rail) =>
      fc
        .integer({ min: 0, max: 10 * divisions(rail) })
        .map((tenths) => ({ count: countOf(rail), diamond: tenths / 10 })),
    );
}

function place(): fc.Arbitrary<RailPlace> {
  return onRail().map(({ count, diamond }) => ({ count, diamond: toDecimal(diamond) }));
}

function target(): fc.Arbitrary<Target> {
  return fc.oneof(
    fc.constantFrom(...POCKETS).map((pocket): Target => ({ kind: 'pocket', pocket })),
    onRail().map((at): Target => ({ kind: 'rail', ...at })),
  );
}
