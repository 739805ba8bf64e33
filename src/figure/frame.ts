/**
 * Converts the table's meters to the picture's millimeters. In the picture x points right and y
 * points down. The foot rail is at the top, so the table's y points right and its x points down.
 * Mirrors are applied only here, so the drawing agrees with the solution.
 */

import {
  type Count,
  diamondOf,
  divisions,
  isLongRail,
  type Mirror,
  mirrorPoint,
  mirrorRail,
  noseEdge,
  POCKETS,
  type PocketName,
  type Point,
  pocketTips,
  pointAlong,
  pointAt,
  type Rail,
  type Stretch,
  type Table,
} from '../table/index.ts';

/** Depths of the cushion and of the wooden rail, both measured from the nose, in millimeters. */
export const CUSHION = 50;
export const RAIL = 145;
/** Room for the counts outside the rails, in millimeters. */
export const MARGIN = 110;
/** Clearance between the rails and the picture's border, in millimeters. */
const EDGE = 8;

export interface Frame {
  readonly table: Table;
  readonly mirror: Mirror;
  /**
   * The size of the letters and of the room for them, as a multiple of the size on screen; 1 if
   * left out.
   */
  readonly lettering?: number;
}

export interface Spot {
  readonly x: number;
  readonly y: number;
}

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export function letteringOf({ lettering = 1 }: Frame): number {
  return lettering;
}

export function spot(frame: Frame, point: Point): Spot {
  const seen = mirrorPoint(frame.table, point, frame.mirror);
  return { x: seen.y * 1000, y: seen.x * 1000 };
}

/** Returns the point of the table at a spot of the picture: the inverse of `spot`. */
function tablePoint(frame: Frame, place: Spot): Point {
  return mirrorPoint(frame.table, { x: place.y / 1000, y: place.x / 1000 }, frame.mirror);
}

/** Returns the diamond level with a spot of the picture, even beyond the rail's ends. */
export function diamondAt(frame: Frame, count: Count, place: Spot): number {
  return diamondOf(frame.table, count, tablePoint(frame, place));
}

/** Returns how far a spot is behind a rail's nose, in millimeters; negative over the cloth. */
export function behindNose(frame: Frame, rail: Rail, place: Spot): number {
  const edge = noseEdge(frame.table, rail);
  const { x, y } = tablePoint(frame, place);
  return (edge.nx * x + edge.ny * y - edge.offset) * 1000;
}

/**
 * Returns the count of a rail from the foot or the left, for places without a pattern's own count.
 */
export function countOf(rail: Rail): Count {
  return { rail, from: isLongRail(rail) ? 'foot' : 'left' };
}

/**
 * Returns the area in which a finger points at a rail: the rail including both its ends, the room
 * for its counts, and a ball's width of cloth.
 */
export function railBand(frame: Frame, rail: Rail): Box {
  const { table } = frame;
  const count = countOf(rail);
  const a = spot(frame, pointAt(table, count, 0, -2 * table.ballRadius));
  const b = spot(frame, pointAt(table, count, divisions(rail), (RAIL + MARGIN) / 1000));
  const [past, across] = isLongRail(rail) ? [0, RAIL] : [RAIL, 0];
  return {
    x: Math.min(a.x, b.x) - past,
    y: Math.min(a.y, b.y) - across,
    width: Math.abs(a.x - b.x) + 2 * past,
    height: Math.abs(a.y - b.y) + 2 * across,
  };
}

/**
 * Formats a number for an SVG attribute. A tenth of a millimeter is finer than any screen shows.
 */
export function tidy(value: number): string {
  return String(Math.round(value * 10) / 10);
}

function at(place: Spot): string {
  return `${tidy(place.x)} ${tidy(place.y)}`;
}

/**
 * Returns SVG path data for a ball's path. Each stretch is a parabola, so a quadratic Bézier curve
 * draws it exactly.
 */
export function pathData(frame: Frame, stretches: readonly Stretch[]): string {
  const [first] = stretches;
  if (!first) return '';
  const start = `M${at(spot(frame, first.ball))}`;
  return start + stretches.map((stretch) => curve(frame, stretch)).join('');
}

function curve(frame: Frame, stretch: Stretch): string {
  const { ball, duration: t } = stretch;
  const middle = { x: ball.x + (ball.vx * t) / 2, y: ball.y + (ball.vy * t) / 2 };
  return `Q${at(spot(frame, middle))} ${at(spot(frame, pointAlong(stretch, t)))}`;
}

/** Returns the picture's box: the rails, and room for counts on the sides that have them. */
export function viewBox(frame: Frame, counts: readonly Count[]): Box {
  const { table } = frame;
  const sides = new Set(counts.map((count) => mirrorRail(count.rail, frame.mirror)));
  const room = (rail: Rail) => RAIL + (sides.has(rail) ? MARGIN * letteringOf(frame) : EDGE);
  return {
    x: -room('left'),
    y: -room('foot'),
    width: table.width * 1000 + room('left') + room('right'),
    height: table.length * 1000 + room('foot') + room('head'),
  };
}

/** Returns the six cushions as SVG polygons. */
export function cushions(table: Table): readonly string[] {
  return cushionCorners(table).map((corners) =>
    corners.map(({ x, y }) => `${tidy(x)},${tidy(y)}`).join(' '),
  );
}

/**
 * Returns the corners of the six cushions. Each is a convex shape with a nose between two tips and
 * a back edge that the facings cut off.
 */
export function cushionCorners(table: Table): readonly (readonly Spot[])[] {
  const L = table.length * 1000;
  const W = table.width * 1000;
  const corner = (table.cornerMouth * 1000) / Math.SQRT2;
  const side = (table.sideMouth * 1000) / 2;
  // A facing leaves the nose line at 180° minus the cut angle.
  const cut = CUSHION / Math.tan(Math.PI - table.cornerCut);
  const sideCut = CUSHION / Math.tan(Math.PI - table.sideCut);
  const short = (nose: number, back: number) =>
    polygon([corner, nose], [W - corner, nose], [W - corner + cut, back], [corner - cut, back]);
  const long = (nose: number, back: number, from: number, to: number, a: number, b: number) =>
    polygon([nose, from], [nose, to], [back, to + b], [back, from - a]);
  const middle = L / 2;
  return [
    short(0, -CUSHION),
    short(L, L + CUSHION),
    ...[0, W].flatMap((nose) => {
      const back = nose === 0 ? -CUSHION : W + CUSHION;
      return [
        long(nose, back, corner, middle - side, cut, sideCut),
        long(nose, back, middle + side, L - corner, sideCut, cut),
      ];
    }),
  ];
}

function polygon(...points: readonly (readonly [number, number])[]): readonly Spot[] {
  return points.map(([x, y]) => ({ x, y }));
}

/** Returns the holes behind the middle of each mouth, with center and radius in the picture. */
export function holes(
  frame: Frame,
): readonly { pocket: PocketName; x: number; y: number; r: number }[] {
  return POCKETS.map((pocket) => {
    const [a, b] = pocketTips(frame.table, pocket).map((tip) => spot(frame, tip)) as [Spot, Spot];
    const width = frame.table.width * 1000;
    const middle = { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 };
    if (pocket.endsWith('side')) {
      return { pocket, x: middle.x < width / 2 ? -52 : width + 52, y: middle.y, r: 62 };
    }
    const out = (value: number, half: number) => value + Math.sign(value - half) * 58;
    const half = (frame.table.length * 1000) / 2;
    return { pocket, x: out(middle.x, width / 2), y: out(middle.y, half), r: 62 };
  });
}
