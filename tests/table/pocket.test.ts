import { describe, expect, it } from 'vitest';
import {
  type Edge,
  type Jaw,
  MIRRORS,
  mirrorPocket,
  mirrorPoint,
  noseEdge,
  POCKET_SIZES,
  POCKETS,
  type Point,
  pocketShape,
  pocketTips,
  TABLES,
  withPockets,
} from '../../src/table/index.ts';

const INCH = 0.0254;
const table = TABLES['9ft'];

describe('pocket sizes', () => {
  // WPA equipment specifications: mouths corner 4.5–4.625 in, side 5–5.125 in; cut angles 142° and
  // 104° ± 1°; shelves corner 1–2.25 in, side 0–0.375 in (the shelves are from memory).
  it.each([
    ['cornerMouth', 4.5 * INCH, 4.625 * INCH],
    ['sideMouth', 5 * INCH, 5.125 * INCH],
    ['cornerCut', radians(141), radians(143)],
    ['sideCut', radians(103), radians(105)],
    ['cornerShelf', INCH, 2.25 * INCH],
    ['sideShelf', 0, 0.375 * INCH],
  ] as const)('keep %s inside its published range on every table', (field, low, high) => {
    for (const size of Object.values(TABLES)) {
      expect(size[field]).toBeGreaterThanOrEqual(low);
      expect(size[field]).toBeLessThanOrEqual(high);
    }
  });

  it('grow from tight to generous, and change nothing but the mouths', () => {
    const { tight, standard, generous } = POCKET_SIZES;
    for (const field of ['cornerMouth', 'sideMouth'] as const) {
      expect(tight[field]).toBeLessThan(standard[field]);
      expect(standard[field]).toBeLessThan(generous[field]);
    }
    expect(withPockets(withPockets(table, 'tight'), 'standard')).toEqual(table);
    expect(table.cornerMouth).toBe(standard.cornerMouth);
  });
});

describe.each(POCKETS)('the pocket %s', (pocket) => {
  const shape = pocketShape(table, pocket);

  it('has its mouth from tip to tip and each tip on its rail', () => {
    const tips = pocketTips(table, pocket);
    shape.jaws.forEach((jaw, n) => {
      expect(jaw.tip).toEqual(tips[n]);
      expect(beyond(noseEdge(table, jaw.rail), jaw.tip)).toBeCloseTo(0, 12);
      expect(jaw.tip.x + jaw.tip.y).toBeGreaterThan(0);
    });
    const wide = pocket.endsWith('side') ? table.sideMouth : table.cornerMouth;
    expect(apart(shape.jaws[0].tip, shape.jaws[1].tip)).toBeCloseTo(wide, 12);
  });

  it('has the cut angle inside the rubber, between nose and facing', () => {
    const cut = pocket.endsWith('side') ? table.sideCut : table.cornerCut;
    for (const { alongNose: a, alongFacing: b } of shape.jaws) {
      expect(Math.acos(a.x * b.x + a.y * b.y)).toBeCloseTo(cut, 12);
    }
  });

  it('has tips that are arcs tangent to nose and facing (a tangent is square to its radius)', () => {
    for (const jaw of shape.jaws) {
      for (const [point, direction] of [
        [jaw.onNose, jaw.alongNose],
        [jaw.onFacing, jaw.alongFacing],
      ] as const) {
        expect(apart(point, jaw.centre)).toBeCloseTo(table.tipRadius, 12);
        const across =
          (point.x - jaw.centre.x) * direction.x + (point.y - jaw.centre.y) * direction.y;
        expect(across).toBeCloseTo(0, 12);
      }
    }
  });

  it('narrows inwards to the fall, parallel to the mouth and one shelf behind it', () => {
    const depth = pocket.endsWith('side') ? table.sideShelf : table.cornerShelf;
    const [a, b] = shape.jaws;
    for (const { tip } of shape.jaws) expect(beyond(shape.fall, tip)).toBeCloseTo(-depth, 12);
    expect(apart(a.facingEnd, b.facingEnd)).toBeLessThan(apart(a.tip, b.tip));
    for (const { facingEnd } of shape.jaws) {
      expect(beyond(shape.fall, facingEnd)).toBeCloseTo(table.ballRadius, 12);
    }
  });

  it('is touched one radius off its nose and its facing', () => {
    for (const jaw of shape.jaws) {
      expect(beyond(jaw.touchNose, jaw.onNose)).toBeCloseTo(table.ballRadius, 12);
      expect(beyond(jaw.touchFacing, jaw.onFacing)).toBeCloseTo(table.ballRadius, 12);
      // The rubber lies behind its face: the other tip is on the open side.
      const other = jaw === shape.jaws[0] ? shape.jaws[1] : shape.jaws[0];
      expect(beyond(jaw.touchFacing, other.tip)).toBeLessThan(0);
    }
  });

  it('is the same in the other pictures of the table', () => {
    for (const mirror of MIRRORS) {
      const image = pocketShape(table, mirrorPocket(pocket, mirror));
      for (const jaw of shape.jaws) {
        const twin = nearest(image.jaws, mirrorPoint(table, jaw.tip, mirror));
        for (const part of ['tip', 'centre', 'onNose', 'onFacing', 'facingEnd'] as const) {
          expect(apart(twin[part], mirrorPoint(table, jaw[part], mirror))).toBeCloseTo(0, 12);
        }
      }
    }
  });
});

it('a shape is computed once for a table', () => {
  expect(pocketShape(table, 'foot-left')).toBe(pocketShape(table, 'foot-left'));
  expect(pocketShape({ ...table, tipRadius: 0 }, 'foot-left').jaws[0].radius).toBe(0);
});

function radians(degrees: number): number {
  return (degrees * Math.PI) / 180;
}

function beyond(edge: Edge, point: Point): number {
  return edge.nx * point.x + edge.ny * point.y - edge.offset;
}

function apart(a: Point, b: Point): number {
  return Math.hypot(a.x - b.x, a.y - b.y);
}

function nearest([a, b]: readonly [Jaw, Jaw], point: Point): Jaw {
  return apart(a.tip, point) < apart(b.tip, point) ? a : b;
}
