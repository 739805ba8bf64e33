/**
 * The shape of a pocket seen from above: two rounded tips, two facings and the line over which a
 * ball falls. For the axes see geometry.ts.
 *
 * A jaw is the end of a rail beside a pocket. Its nose line and its facing line meet at the tip
 * that `pocketTips` gives. The facing turns off the nose line by 180° − cut, toward the pocket, so
 * both kinds of pocket narrow inward: a corner pocket by 7° on each side, a side pocket by 14°. The
 * rubber's point is an arc that touches both lines, so the rubber ends radius · (1/cos(turn/2) − 1)
 * before the tip. For a radius of 0.15 in this is 0.2 mm at a corner pocket and 1.0 mm at a side
 * pocket.
 */

import {
  diamondLength,
  type Edge,
  isLongRail,
  mouthEdge,
  outward,
  type PocketName,
  type Point,
  pocketTips,
  RAILS,
  type Rail,
  type Table,
  touchEdge,
} from './geometry.ts';

/** The end of one rail at a pocket. Lengths are in meters; directions are unit vectors. */
export interface Jaw {
  readonly rail: Rail;
  /** The point where the nose's line and the facing's line meet. The arc is behind it. */
  readonly tip: Point;
  /** The arc of the rounded point: its center, radius and ends. */
  readonly centre: Point;
  readonly radius: number;
  readonly onNose: Point;
  readonly onFacing: Point;
  /**
   * The facing runs from `onFacing` to here. This is deeper than any touch before the ball falls.
   */
  readonly facingEnd: Point;
  /** Directions away from the tip, along the nose and along the facing. */
  readonly alongNose: Point;
  readonly alongFacing: Point;
  /** The distance from the tip at which the nose and the facing become straight. */
  readonly straightFrom: number;
  /**
   * The lines on which the ball's center is when the ball touches the nose or the facing. Their
   * normals point into the rubber.
   */
  readonly touchNose: Edge;
  readonly touchFacing: Edge;
  /**
   * If the ball touches the nose farther than this from the tip, the touch does not belong to the
   * pocket.
   */
  readonly far: number;
}

export interface PocketShape {
  readonly pocket: PocketName;
  /** The two jaws, in the order of `pocketTips`. */
  readonly jaws: readonly [Jaw, Jaw];
  readonly mouth: Edge;
  readonly mouthWidth: number;
  /** The ball falls when its center crosses this line. */
  readonly fall: Edge;
  /**
   * For each rail that is not beside the pocket: the line on which the ball's center is when the
   * ball touches that rail.
   */
  readonly otherRails: readonly Edge[];
}

export function isSidePocket(pocket: PocketName): boolean {
  return pocket === 'left-side' || pocket === 'right-side';
}

/**
 * Every ball that is played into a pocket needs the pocket's shape. Tables never change, so each
 * shape is computed once.
 */
const cache = new WeakMap<Table, Map<PocketName, PocketShape>>();

export function pocketShape(table: Table, pocket: PocketName): PocketShape {
  let shapes = cache.get(table);
  if (!shapes) {
    shapes = new Map();
    cache.set(table, shapes);
  }
  let shape = shapes.get(pocket);
  if (!shape) {
    shape = shapeOf(table, pocket);
    shapes.set(pocket, shape);
  }
  return shape;
}

function shapeOf(table: Table, pocket: PocketName): PocketShape {
  const side = isSidePocket(pocket);
  const [a, b] = pocketTips(table, pocket);
  const mouth = mouthEdge(table, pocket);
  const depth = side ? table.sideShelf : table.cornerShelf;
  const fall = { ...mouth, offset: mouth.offset + depth };
  const opening = { table, cut: side ? table.sideCut : table.cornerCut, fall };
  const [railA, railB] = railsAt(pocket);
  return {
    pocket,
    jaws: [jawOf(opening, railA, a, b), jawOf(opening, railB, b, a)],
    mouth,
    mouthWidth: side ? table.sideMouth : table.cornerMouth,
    fall,
    otherRails: RAILS.filter((rail) => rail !== railA && rail !== railB).map((rail) =>
      touchEdge(table, rail),
    ),
  };
}

/** Returns the rails of the two tips, in the order of `pocketTips`. */
function railsAt(pocket: PocketName): readonly [Rail, Rail] {
  const [a, b] = pocket.split('-') as [Rail, Rail | 'side'];
  return b === 'side' ? [a, a] : [b, a];
}

/** What both jaws of a pocket share. */
interface Opening {
  readonly table: Table;
  readonly cut: number;
  readonly fall: Edge;
}

function jawOf({ table, cut, fall }: Opening, rail: Rail, tip: Point, other: Point): Jaw {
  const turn = Math.PI - cut;
  const into = outward(rail);
  const alongNose = isLongRail(rail)
    ? { x: Math.sign(tip.x - other.x), y: 0 }
    : { x: 0, y: Math.sign(tip.y - other.y) };
  // The nose's direction and its normal, both turned toward the pocket.
  const alongFacing = combine(-Math.cos(turn), alongNose, Math.sin(turn), into);
  const intoFacing = combine(Math.cos(turn), into, Math.sin(turn), alongNose);
  const straightFrom = table.tipRadius * Math.tan(turn / 2);
  const onNose = combine(1, tip, straightFrom, alongNose);
  return {
    rail,
    tip,
    centre: combine(1, onNose, table.tipRadius, into),
    radius: table.tipRadius,
    onNose,
    onFacing: combine(1, tip, straightFrom, alongFacing),
    facingEnd: combine(1, tip, facingLength(table, fall, tip, alongFacing), alongFacing),
    alongNose,
    alongFacing,
    straightFrom,
    touchNose: touchEdge(table, rail),
    touchFacing: edgeBefore(tip, intoFacing, table.ballRadius),
    far: diamondLength(table, rail) / 2,
  };
}

/**
 * Returns the length of a facing. It ends one radius deeper than the fall, which is far enough for
 * any touch before the ball falls.
 */
function facingLength(table: Table, fall: Edge, tip: Point, along: Point): number {
  const depth = fall.offset + table.ballRadius - (fall.nx * tip.x + fall.ny * tip.y);
  return depth / (fall.nx * along.x + fall.ny * along.y);
}

/** Returns the line that is perpendicular to a normal, at a distance before a point. */
function edgeBefore(point: Point, { x, y }: Point, distance: number): Edge {
  return { nx: x, ny: y, offset: x * point.x + y * point.y - distance };
}

function combine(p: number, a: Point, q: number, b: Point): Point {
  return { x: p * a.x + q * b.x, y: p * a.y + q * b.y };
}
