import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  diamondOf,
  isLongRail,
  MIRRORS,
  mirrorCount,
  mirrorPocket,
  mirrorPoint,
  POCKETS,
  pocketInRail,
  pocketTips,
  pointAt,
  RAILS,
  sightAt,
  TABLES,
} from '../../src/table/index.ts';

const INCH = 0.0254;
const table = TABLES['9ft'];

describe('table sizes', () => {
  // WPA Equipment Specifications §5 (9 ft), CSI equipment specifications (8 ft, 7 ft).
  it.each([
    ['9ft', 100, 50],
    ['pro8ft', 92, 46],
    ['csi8ft', 90, 45],
    ['8ft', 88, 44], // common practice, no source
    ['7ft', 80, 40],
  ] as const)('%s plays %d by %d inches', (size, length, width) => {
    expect(TABLES[size].length).toBeCloseTo(length * INCH, 12);
    expect(TABLES[size].width).toBeCloseTo(width * INCH, 12);
  });

  it('has square diamonds: L/8 = W/4 (WPA Rules 8.1 with a 2:1 table)', () => {
    for (const size of Object.values(TABLES))
      expect(size.length / 8).toBeCloseTo(size.width / 4, 12);
  });
});

describe('counts', () => {
  it('puts diamond 4 of a long rail at the side pocket (WPA Rules 8.1)', () => {
    const [a, b] = pocketTips(table, 'right-side');
    expect((a.x + b.x) / 2).toBeCloseTo(pointAt(table, { rail: 'right', from: 'foot' }, 4).x, 12);
  });

  it('reads back the diamond it placed, on every rail from either end', () => {
    fc.assert(
      fc.property(anyCount, fc.double({ min: 0, max: 8, noNaN: true }), (count, diamond) => {
        expect(diamondOf(table, count, sightAt(table, count, diamond))).toBeCloseTo(diamond, 9);
      }),
    );
  });

  it('reaches the same sights from either end', () => {
    const fromFoot = sightAt(table, { rail: 'left', from: 'foot' }, 3);
    const fromHead = sightAt(table, { rail: 'left', from: 'head' }, 5);
    expect(fromHead.x).toBeCloseTo(fromFoot.x, 12);
    expect(fromHead.y).toBe(fromFoot.y);
  });
});

describe('the ball touches the rail nearer the start than the named diamond', () => {
  // Derived from the sight setback 3 11/16 in and the ball's radius 1 1/8 in (WPA equipment
  // specifications): shift = 4 13/16 in · tan(angle), tan = span / (width + two setbacks).
  it.each([
    [2, 0.168],
    [3, 0.252],
    [4, 0.336],
    [5, 0.419],
    [6, 0.503],
  ])('by the derived shift for a span of %d diamonds', (span, expected) => {
    const from = sightAt(table, { rail: 'left', from: 'foot' }, span);
    const to = sightAt(table, { rail: 'right', from: 'foot' }, 0);
    const touch = table.width - table.ballRadius;
    const t = (touch - from.y) / (to.y - from.y);
    const shift = (from.x + t * (to.x - from.x)) / (table.length / 8);
    expect(Math.abs(shift - expected)).toBeLessThan(0.0005);
  });
});

describe('mirrors', () => {
  it('are their own inverses, for points, counts and pockets', () => {
    for (const mirror of MIRRORS) {
      const point = { x: 0.7, y: 0.2 };
      const back = mirrorPoint(table, mirrorPoint(table, point, mirror), mirror);
      expect(back.x).toBeCloseTo(point.x, 12);
      expect(back.y).toBeCloseTo(point.y, 12);
      for (const pocket of POCKETS) {
        expect(mirrorPocket(mirrorPocket(pocket, mirror), mirror)).toBe(pocket);
      }
    }
  });

  it('commute with placing a diamond', () => {
    fc.assert(
      fc.property(
        anyCount,
        fc.constantFrom(...MIRRORS),
        fc.double({ min: 0, max: 4, noNaN: true }),
        (count, mirror, diamond) => {
          const first = mirrorPoint(table, sightAt(table, count, diamond), mirror);
          const second = sightAt(table, mirrorCount(count, mirror), diamond);
          expect(Math.abs(first.x - second.x)).toBeLessThan(1e-12);
          expect(Math.abs(first.y - second.y)).toBeLessThan(1e-12);
        },
      ),
    );
  });
});

describe('pockets', () => {
  it('cut the noses where their tips are', () => {
    for (const pocket of POCKETS) {
      const [a, b] = pocketTips(table, pocket);
      // WPA equipment specifications: corner mouths 4.5–4.625 in, side mouths 5–5.125 in.
      const mouth = Math.hypot(a.x - b.x, a.y - b.y) / INCH;
      const [least, most] = pocket.endsWith('side') ? [5, 5.125] : [4.5, 4.625];
      expect(mouth).toBeGreaterThanOrEqual(least);
      expect(mouth).toBeLessThanOrEqual(most);
    }
  });

  it('leave the rest of each rail uncut', () => {
    for (const rail of RAILS) {
      const from = isLongRail(rail) ? 'foot' : 'left';
      const open = pocketInRail(table, rail, pointAt(table, { rail, from }, 0));
      expect(open).not.toBeNull();
      expect(pocketInRail(table, rail, pointAt(table, { rail, from }, 1))).toBeNull();
    }
    const side = pointAt(table, { rail: 'left', from: 'foot' }, 4);
    expect(pocketInRail(table, 'left', side)).toBe('left-side');
  });
});

const anyCount = fc.constantFrom(
  ...RAILS.flatMap((rail) =>
    (isLongRail(rail) ? (['foot', 'head'] as const) : (['left', 'right'] as const)).map((from) => ({
      rail,
      from,
    })),
  ),
);
