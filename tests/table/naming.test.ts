import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { PATTERNS } from '../../src/charts/index.ts';
import {
  aimNamed,
  type Count,
  divisions,
  isLongRail,
  NAMINGS,
  nameAim,
  type Point,
  type Route,
  TABLES,
  type Table,
} from '../../src/table/index.ts';
import { TOLERANCE } from './tolerances.ts';

describe('a number in the other naming', () => {
  it('reads back as the number it was made from', () => {
    fc.assert(
      fc.property(lines, fc.constantFrom(...NAMINGS), ({ table, route, start, aim }, naming) => {
        const named = nameAim(table, route, start, aim, naming);
        expect(aimNamed(table, route, start, named, naming)).toBeCloseTo(aim, 9);
        const back = aimNamed(table, route, start, aim, naming);
        expect(nameAim(table, route, start, back, naming)).toBeCloseTo(aim, 9);
      }),
    );
  });

  it('is where the straight line between the two sights crosses the nose', () => {
    fc.assert(
      fc.property(lines, ({ table, route, start, aim }) => {
        const line = join(
          place(table, route.start, start, table.sightSetback),
          place(table, route.aim, aim, table.sightSetback),
        );
        const nose = join(place(table, route.aim, 0, 0), place(table, route.aim, 1, 0));
        const crossing = place(table, route.aim, nameAim(table, route, start, aim, 'opposite'), 0);
        const meet = meetOf(line, nose);
        expect(Math.hypot(crossing.x - meet.x, crossing.y - meet.y)).toBeLessThan(
          TOLERANCE.closedForm,
        );
      }),
    );
  });

  it('is the same for a line straight across', () => {
    fc.assert(
      fc.property(across, ({ table, route, start }) => {
        expect(nameAim(table, route, start, start, 'opposite')).toBeCloseTo(start, 9);
      }),
    );
  });

  it('is the same for sights on the nose', () => {
    fc.assert(
      fc.property(lines, ({ table, route, start, aim }) => {
        const onNose = { ...table, sightSetback: 0 };
        expect(nameAim(onNose, route, start, aim, 'opposite')).toBeCloseTo(aim, 9);
      }),
    );
  });

  it('lies on the start’s side of the sight, farther for a flatter line', () => {
    fc.assert(
      fc.property(lines, ({ table, route, start, aim }) => {
        const straight = levelWith(table, route, start);
        const shift = (number: number) => number - nameAim(table, route, start, number, 'opposite');
        const further = straight + 1.1 * (aim - straight);
        // Away from the diamond level with the start's sight is farther out.
        expect(shift(aim) * (aim - straight)).toBeGreaterThanOrEqual(0);
        expect(Math.abs(shift(further))).toBeGreaterThanOrEqual(Math.abs(shift(aim)));
      }),
    );
  });

  it('through the sight is the number itself', () => {
    fc.assert(
      fc.property(lines, ({ table, route, start, aim }) => {
        expect(nameAim(table, route, start, aim, 'through')).toBe(aim);
        expect(aimNamed(table, route, start, aim, 'through')).toBe(aim);
      }),
    );
  });
});

// The sights' setback is 3 11/16 in (WPA equipment specifications). Across a 9 ft table, a line from
// one sight to another d diamonds along is 50 + 2 · 3.6875 in deep, so it crosses the nose
// d · 3.6875/57.375 before the sight (derived).
it('across 9 ft, from 6 through 3 is opposite 3 + 3 · 3.6875/57.375', () => {
  const named = nameAim(TABLES['9ft'], PATTERNS[3], 6, 3, 'opposite');
  expect(named).toBeCloseTo(3 + (3 * 3.6875) / 57.375, 9);
});

/** A point of a rail, from the conventions in docs/numbers.md instead of the geometry's own code. */
function place(table: Table, { rail, from }: Count, diamond: number, behind: number): Point {
  const { length, width } = table;
  const share = diamond / (isLongRail(rail) ? 8 : 4);
  const fromOrigin = from === 'foot' || from === 'left' ? share : 1 - share;
  switch (rail) {
    case 'left':
      return { x: fromOrigin * length, y: -behind };
    case 'right':
      return { x: fromOrigin * length, y: width + behind };
    case 'foot':
      return { x: -behind, y: fromOrigin * width };
    case 'head':
      return { x: length + behind, y: fromOrigin * width };
  }
}

type Homogeneous = readonly [number, number, number];

/** The line through two points, a·x + b·y + c = 0. */
function join(p: Point, q: Point): Homogeneous {
  return [p.y - q.y, q.x - p.x, p.x * q.y - q.x * p.y];
}

/** The intersection of two lines, by Cramer's rule. */
function meetOf([a, b, c]: Homogeneous, [d, e, f]: Homogeneous): Point {
  const det = a * e - b * d;
  return { x: (b * f - c * e) / det, y: (c * d - a * f) / det };
}

/** The diamond of the aim's count level with the start's sight. */
function levelWith(table: Table, route: Route, start: number): number {
  const sight = place(table, route.start, start, table.sightSetback);
  const zero = place(table, route.aim, 0, 0);
  const one = place(table, route.aim, 1, 0);
  return (
    ((sight.x - zero.x) * (one.x - zero.x) + (sight.y - zero.y) * (one.y - zero.y)) /
    ((one.x - zero.x) ** 2 + (one.y - zero.y) ** 2)
  );
}

const share = fc.double({ min: 0, max: 1, noNaN: true });
const tables: fc.Arbitrary<Table> = fc
  .tuple(fc.constantFrom(...Object.values(TABLES)), share, share, share)
  .map(([table, long, wide, back]) => ({
    ...table,
    length: 1.5 + 2 * long,
    width: 0.8 + wide,
    sightSetback: 0.02 + 0.15 * back,
  }));
/** Starts from half a diamond: a start in the corner itself has no line over the rail beside it. */
const lines = fc
  .tuple(tables, fc.constantFrom(...PATTERNS), share, share)
  .map(([table, route, from, to]) => ({
    table,
    route: route as Route,
    start: 0.5 + (divisions(route.start.rail) - 0.5) * from,
    aim: divisions(route.aim.rail) * to,
  }));
const across = lines.filter(
  ({ route }) => isLongRail(route.start.rail) === isLongRail(route.aim.rail),
);
