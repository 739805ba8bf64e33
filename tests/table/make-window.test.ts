import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { PATTERNS } from '../../src/charts/index.ts';
import {
  ballOnLine,
  CLUB_CLOTH,
  type MakeWindow,
  MIRRORS,
  makeWindow,
  makeWindowOf,
  mirrorRoute,
  POCKET_SIZES,
  type PocketSize,
  passCushions,
  playIntoPocket,
  type Route,
  type Setting,
  SPEEDS,
  solveLine,
  withPockets,
} from '../../src/table/index.ts';
import { stepIntoPocket } from '../oracle/pocket.ts';
import { club } from './at-pocket.ts';

/** Accuracy of a window's ends, diamonds (make-window.ts). */
const CLOSE = 0.002;

describe('the search for a window', () => {
  const search = { step: 0.02, stride: 0.1, low: 3, high: 5 };

  it('finds the interval of makes around the number, from inside, to 0.002', () => {
    fc.assert(
      fc.property(part, part, (below, above) => {
        const from = 4 - 1.2 * below;
        const to = 4 + 1.2 * above;
        const found = makeWindow((aim) => aim >= from && aim <= to, 4, search);
        expectEnds(found, Math.max(search.low, from), Math.min(search.high, to));
      }),
    );
  });

  it('finds the nearest interval if the number itself misses, down to one stride', () => {
    fc.assert(
      fc.property(part, part, fc.boolean(), (gap, more, above) => {
        const inner = 0.01 + 0.5 * gap;
        const outer = inner + search.stride + 0.3 * more;
        const far = { from: 4 - outer, to: 4 - inner };
        const { from, to } = above ? { from: 4 + inner, to: 4 + outer } : far;
        const found = makeWindow((aim) => aim >= from && aim <= to, 4, search);
        expectEnds(found, from, to);
      }),
    );
  });

  it('stops at a hole that is wider than the march', () => {
    const drops = (aim: number) => Math.abs(aim - 4) < 0.3 && Math.abs(aim - 4.1) > 0.011;
    expectEnds(makeWindow(drops, 4, search), 3.7, 4.089);
  });

  it('finds nothing where nothing drops', () => {
    expect(makeWindow(() => false, 4, search)).toBeNull();
  });
});

describe('the make window of a line', () => {
  it('is all makes, ends where they end, and contains the number if the number is a make', () => {
    for (const { setting, route, start, launch, aim, window } of lines()) {
      const kind = (number: number) => playIntoPocket(setting, route, start, number, launch)?.kind;
      if (!window) throw new Error(`${start} should have a window`);
      for (let n = 0; n <= 60; n++) {
        expect(kind(window.from + ((window.to - window.from) * n) / 60)).toBe('drops');
      }
      expect(kind(window.from - CLOSE)).not.toBe('drops');
      expect(kind(window.to + CLOSE)).not.toBe('drops');
      expect(window.from <= aim && aim <= window.to).toBe(kind(aim) === 'drops');
    }
  });

  // tests/oracle/pocket.ts: the last run in tiny steps of time, with rubber modelled in another way.
  it('ends where brute force says', () => {
    for (const { setting, route, start, launch, window } of lines().filter((_, n) => n % 9 === 0)) {
      if (!window) throw new Error(`${start} should have a window`);
      for (const [aim, make] of [
        [window.from - CLOSE, false],
        [window.from + 1e-4, true],
        [window.to - 1e-4, true],
        [window.to + CLOSE, false],
      ] as const) {
        const ball = ballOnLine(setting, route, start, aim, launch);
        const passed = ball && passCushions(setting, ball, route.cushions).ball;
        if (!passed || route.target.kind !== 'pocket') throw new Error('the ball should come off');
        const { kind } = stepIntoPocket(setting, passed, route.target.pocket);
        expect(kind === 'drops').toBe(make);
      }
    }
  });

  it('is the same in all four pictures of the table', () => {
    for (const { setting, route, start, launch, aim, window } of lines()) {
      for (const mirror of MIRRORS.slice(1)) {
        const image = makeWindowOf(setting, mirrorRoute(route, mirror), start, launch, aim);
        if (!window || !image) throw new Error(`${start} should have a window`);
        expect(Math.abs(image.from - window.from)).toBeLessThan(1e-5);
        expect(Math.abs(image.to - window.to)).toBeLessThan(1e-5);
      }
    }
  });

  it('never narrows as the mouths widen (each end is found to 0.002)', () => {
    const sizes = Object.keys(POCKET_SIZES) as PocketSize[];
    const [tight, standard, generous] = sizes.map((size) =>
      widthsByLine({ ...club, table: withPockets(club.table, size) }),
    ) as [Map<string, number>, Map<string, number>, Map<string, number>];
    // A wider side pocket on the path may take the ball: that line has no window left to narrow.
    const shared = [...generous.keys()].filter((key) => standard.has(key) && tight.has(key));
    expect(shared.length).toBeGreaterThan(0.95 * standard.size);
    const of = (widths: Map<string, number>, key: string) => widths.get(key) ?? Number.NaN;
    for (const key of shared) {
      expect(of(standard, key), key).toBeGreaterThan(of(tight, key) - 2 * CLOSE);
      expect(of(generous, key), key).toBeGreaterThan(of(standard, key) - 2 * CLOSE);
    }
    const total = (widths: Map<string, number>) => sum(shared.map((key) => of(widths, key)));
    expect(total(standard)).toBeGreaterThan(1.1 * total(tight));
    expect(total(generous)).toBeGreaterThan(1.1 * total(standard));
  });

  // Common practice, no source: the farther from straight in, the smaller the pocket.
  it('of a side pocket met straight is wider than of one met along the rail', () => {
    const across = lines().filter(({ route }) => route === PATTERNS[2]);
    const along = lines().filter(({ route }) => route === PATTERNS[0]);
    const least = Math.min(...across.map(({ window }) => widthOf(window)));
    expect(least).toBeGreaterThan(Math.max(...along.map(({ window }) => widthOf(window))));
  });

  it('does not exist for a rail, a ball that does not arrive or an aim far from the pocket', () => {
    const route: Route = {
      ...PATTERNS[2],
      target: { kind: 'rail', count: { rail: 'left', from: 'foot' }, diamond: 3 },
    };
    expect(makeWindowOf(club, route, 6, { speed: 3 }, 4.9)).toBeNull();
    expect(playIntoPocket(club, route, 6, 4.9, { speed: 3 })).toBeNull();
    expect(makeWindowOf(club, PATTERNS[2], 6, { speed: 0.3 }, 4.9)).toBeNull();
    expect(makeWindowOf(club, PATTERNS[2], 6, { speed: 3 }, 7)).toBeNull();
  });

  it('has no makes through a pocket that the ball meets first', () => {
    // Aimed at the corner itself, the ball would touch the first cushion where the corner opens.
    expect(playIntoPocket(club, PATTERNS[1], 3, 0.1, { speed: 3 })).toBeNull();
  });
});

interface Line {
  readonly setting: Setting;
  readonly route: Route;
  readonly start: number;
  readonly launch: { readonly speed: number };
  readonly aim: number;
  readonly window: MakeWindow | null;
}

/** Every pattern at whole starts and three speeds, where there is a number. */
function widthsByLine(setting: Setting): Map<string, number> {
  return new Map(
    lines(setting).map(({ route, start, launch, window }) => [
      `${(PATTERNS as readonly Route[]).indexOf(route)} ${start} ${launch.speed}`,
      widthOf(window),
    ]),
  );
}

function lines(setting: Setting = club): Line[] {
  return PATTERNS.flatMap((route) => {
    const found: Line[] = [];
    for (let start: number = route.starts[0]; start <= route.starts[1]; start++) {
      for (const speed of SPEEDS) {
        const launch = { speed: CLUB_CLOTH.speeds[speed] };
        const { aim } = solveLine(setting, route, start, launch);
        if (aim === null) continue;
        const window = makeWindowOf(setting, route, start, launch, aim);
        found.push({ setting, route, start, launch, aim, window });
      }
    }
    return found;
  });
}

function expectEnds(found: MakeWindow | null, from: number, to: number): void {
  if (!found) throw new Error(`there should be a window ${from}–${to}`);
  expect(found.from).toBeGreaterThanOrEqual(from);
  expect(found.from).toBeLessThanOrEqual(from + CLOSE);
  expect(found.to).toBeLessThanOrEqual(to);
  expect(found.to).toBeGreaterThanOrEqual(to - CLOSE);
}

function widthOf(window: MakeWindow | null): number {
  return window ? window.to - window.from : 0;
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}

const part = fc.double({ min: 0, max: 1, noNaN: true });
