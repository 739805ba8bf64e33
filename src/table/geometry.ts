/**
 * The table, its axes and its names, defined only here.
 *
 * Axes (meters, right-handed): the origin is the corner where the noses of the foot rail and the
 * left rail would meet. x runs from the foot rail to the head rail (0 … length), y from the left
 * rail to the right rail (0 … width), z up from the cloth. Seen from above with the foot rail at
 * the top, x points down the picture and y to its right. Angles are radians.
 */

import { hypotenuse } from './hypotenuse.ts';

export const RAILS = ['foot', 'right', 'head', 'left'] as const;
export type Rail = (typeof RAILS)[number];

export const POCKETS = [
  'foot-left',
  'foot-right',
  'right-side',
  'head-right',
  'head-left',
  'left-side',
] as const;
export type PocketName = (typeof POCKETS)[number];

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** Sizes in meters. `noseHeight` is a fraction of the ball's diameter. */
export interface Table {
  readonly length: number;
  readonly width: number;
  readonly ballRadius: number;
  /** How far a sight's center is behind the nose of its rail. */
  readonly sightSetback: number;
  /**
   * Widths of the mouths from tip to tip. A tip is where the nose's line and the facing's line
   * would meet.
   */
  readonly cornerMouth: number;
  readonly sideMouth: number;
  /** Angle inside the rubber between the nose's line and the facing of a pocket, radians. */
  readonly cornerCut: number;
  readonly sideCut: number;
  /** How far behind the mouth the cloth ends, so that the ball falls. */
  readonly cornerShelf: number;
  readonly sideShelf: number;
  /** Radius, seen from above, of the rubber's rounded point at a tip. */
  readonly tipRadius: number;
  readonly noseHeight: number;
}

/**
 * Where a rail's count begins. Long rails count 0–8 from the foot or the head end, short rails 0–4
 * from the left or the right corner (WPA Rules 8.1: 8 divisions of a long rail, 4 of a short one).
 */
export type RailEnd = Rail;
export interface Count {
  readonly rail: Rail;
  readonly from: RailEnd;
}

/**
 * An infinite straight line nx·x + ny·y = offset. Its unit normal (nx, ny) points off the table.
 */
export interface Edge {
  readonly nx: number;
  readonly ny: number;
  readonly offset: number;
}

const OUTWARD: Readonly<Record<Rail, Point>> = {
  foot: { x: -1, y: 0 },
  head: { x: 1, y: 0 },
  left: { x: 0, y: -1 },
  right: { x: 0, y: 1 },
};

export function isLongRail(rail: Rail): boolean {
  return rail === 'left' || rail === 'right';
}

/** Returns the number of divisions of a rail: 8 or 4. */
export function divisions(rail: Rail): 4 | 8 {
  return isLongRail(rail) ? 8 : 4;
}

/** Returns the length of one diamond on a rail, in meters. */
export function diamondLength(table: Table, rail: Rail): number {
  return isLongRail(rail) ? table.length / 8 : table.width / 4;
}

/** Returns the unit vector from the table into the rail. */
export function outward(rail: Rail): Point {
  return OUTWARD[rail];
}

export function noseEdge(table: Table, rail: Rail): Edge {
  const n = OUTWARD[rail];
  const offset = rail === 'head' ? table.length : rail === 'right' ? table.width : 0;
  return { nx: n.x, ny: n.y, offset };
}

/**
 * Returns the line on which the ball's center is when the ball touches the rail: one radius inside
 * the nose.
 */
export function touchEdge(table: Table, rail: Rail): Edge {
  const nose = noseEdge(table, rail);
  return { ...nose, offset: nose.offset - table.ballRadius };
}

/**
 * Returns the point on a rail's nose that is level with a diamond of the count, or the point
 * `behind` meters farther out.
 */
export function pointAt(table: Table, count: Count, diamond: number, behind = 0): Point {
  const along = diamond * diamondLength(table, count.rail);
  const out = OUTWARD[count.rail];
  const edge = noseEdge(table, count.rail);
  const across = edge.offset + behind;
  if (isLongRail(count.rail)) {
    return { x: count.from === 'foot' ? along : table.length - along, y: out.y * across };
  }
  return { x: out.x * across, y: count.from === 'left' ? along : table.width - along };
}

/** Returns the center of a sight. A line starts at one sight and is aimed through a second one. */
export function sightAt(table: Table, count: Count, diamond: number): Point {
  return pointAt(table, count, diamond, table.sightSetback);
}

/**
 * Returns the diamond of the count that is level with a point. Along the rail this inverts
 * `pointAt`.
 */
export function diamondOf(table: Table, count: Count, point: Point): number {
  const along = isLongRail(count.rail) ? point.x : point.y;
  const whole = isLongRail(count.rail) ? table.length : table.width;
  const fromStart = count.from === 'foot' || count.from === 'left';
  return (fromStart ? along : whole - along) / diamondLength(table, count.rail);
}

/** Returns the two tips of a pocket's mouth, on the noses. */
export function pocketTips(table: Table, pocket: PocketName): readonly [Point, Point] {
  if (pocket === 'left-side' || pocket === 'right-side') {
    const y = pocket === 'left-side' ? 0 : table.width;
    const half = table.sideMouth / 2;
    return [
      { x: table.length / 2 - half, y },
      { x: table.length / 2 + half, y },
    ];
  }
  const leg = table.cornerMouth / Math.SQRT2;
  const [end, side] = pocket.split('-');
  const x = end === 'foot' ? 0 : table.length;
  const y = side === 'left' ? 0 : table.width;
  return [
    { x: end === 'foot' ? leg : table.length - leg, y },
    { x, y: side === 'left' ? leg : table.width - leg },
  ];
}

/** Returns the middle of a pocket's mouth: the target of a bank. */
export function pocketMouth(table: Table, pocket: PocketName): Point {
  const [a, b] = pocketTips(table, pocket);
  return { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 };
}

/**
 * Returns the point that stands for a pocket: the corner where the noses would meet, or the middle
 * of the long rail.
 */
export function pocketPoint(table: Table, pocket: PocketName): Point {
  const x = pocket.startsWith('foot')
    ? 0
    : pocket.startsWith('head')
      ? table.length
      : table.length / 2;
  return { x, y: pocket.includes('left') ? 0 : table.width };
}

/** Returns the straight edge across a pocket's mouth, from tip to tip. */
export function mouthEdge(table: Table, pocket: PocketName): Edge {
  const [a, b] = pocketTips(table, pocket);
  const span = hypotenuse(b.x - a.x, b.y - a.y);
  let nx = (b.y - a.y) / span;
  let ny = -(b.x - a.x) / span;
  const middle = { x: table.length / 2, y: table.width / 2 };
  if (nx * (a.x - middle.x) + ny * (a.y - middle.y) < 0) {
    nx = -nx;
    ny = -ny;
  }
  return { nx, ny, offset: nx * a.x + ny * a.y };
}

/**
 * Returns the pocket that interrupts the nose where it is level with this point, or null if none
 * does.
 */
export function pocketInRail(table: Table, rail: Rail, point: Point): PocketName | null {
  const along = isLongRail(rail) ? point.x : point.y;
  const whole = isLongRail(rail) ? table.length : table.width;
  const leg = table.cornerMouth / Math.SQRT2;
  if (along < leg) return isLongRail(rail) ? `foot-${sideOf(rail)}` : `${endOf(rail)}-left`;
  if (along > whole - leg)
    return isLongRail(rail) ? `head-${sideOf(rail)}` : `${endOf(rail)}-right`;
  if (isLongRail(rail) && Math.abs(along - whole / 2) < table.sideMouth / 2)
    return `${sideOf(rail)}-side`;
  return null;
}

/**
 * Returns whether there is room for a ball with its center here. An overlap with a nose of 1e-9 R
 * counts as rounding.
 */
export function onTable(table: Table, centre: Point): boolean {
  const r = table.ballRadius * (1 - 1e-9);
  const { x, y } = centre;
  return x >= r && x <= table.length - r && y >= r && y <= table.width - r;
}

function sideOf(rail: Rail): 'left' | 'right' {
  return rail === 'left' ? 'left' : 'right';
}

function endOf(rail: Rail): 'foot' | 'head' {
  return rail === 'foot' ? 'foot' : 'head';
}

/**
 * One of the table's four pictures: as printed, mirrored across one of the two middle lines, or
 * across both.
 */
export interface Mirror {
  readonly leftRight: boolean;
  readonly footHead: boolean;
}

export const MIRRORS: readonly Mirror[] = [
  { leftRight: false, footHead: false },
  { leftRight: true, footHead: false },
  { leftRight: false, footHead: true },
  { leftRight: true, footHead: true },
];

export function mirrorRail(rail: Rail, mirror: Mirror): Rail {
  if (mirror.leftRight && isLongRail(rail)) return rail === 'left' ? 'right' : 'left';
  if (mirror.footHead && !isLongRail(rail)) return rail === 'foot' ? 'head' : 'foot';
  return rail;
}

export function mirrorCount(count: Count, mirror: Mirror): Count {
  return { rail: mirrorRail(count.rail, mirror), from: mirrorRail(count.from, mirror) };
}

export function mirrorPocket(pocket: PocketName, mirror: Mirror): PocketName {
  const swap = pocket.split('-').map((word) => mirrorWord(word, mirror));
  return swap.join('-') as PocketName;
}

function mirrorWord(word: string, mirror: Mirror): string {
  return word === 'side' ? word : mirrorRail(word as Rail, mirror);
}

/** Maps a point of the picture as printed to one of the four pictures. */
export function mirrorPoint(table: Table, point: Point, mirror: Mirror): Point {
  return {
    x: mirror.footHead ? table.length - point.x : point.x,
    y: mirror.leftRight ? table.width - point.y : point.y,
  };
}
