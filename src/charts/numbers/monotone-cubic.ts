/**
 * A smooth curve through points that rises and falls only where the points do. It is the cubic
 * Hermite interpolant of Fritsch & Carlson 1980, SIAM J. Numer. Anal. 17:238 (from memory).
 */

export interface Knot {
  readonly x: number;
  readonly y: number;
}

/**
 * Radius of the circle of tangents that keep a cubic monotone, as a multiple of the chord's slope
 * (Fritsch & Carlson).
 */
const CIRCLE = 3;

/**
 * Returns the curve through the points. Its slope is continuous, and between two points it stays
 * within their values. It is null before the first point and after the last. With a single point,
 * it has a value only there.
 * @throws if a coordinate is not finite, or the x values do not ascend
 */
export function monotoneCubic(points: readonly Knot[]): (x: number) => number | null {
  check(points);
  const slopes = limited(points, tangents(points));
  return (x) => {
    const next = points.findIndex((point) => x <= point.x);
    const right = points[next];
    if (!right) return null;
    if (x === right.x) return right.y;
    const left = points[next - 1];
    if (!left) return null;
    return hermite(left, right, slopes[next - 1] ?? 0, slopes[next] ?? 0, x);
  };
}

function check(points: readonly Knot[]): void {
  points.forEach(({ x, y }, k) => {
    if (!Number.isFinite(x) || !Number.isFinite(y)) throw new RangeError(`not a point: ${x}, ${y}`);
    const before = points[k - 1];
    if (before && !(before.x < x)) throw new RangeError(`x ${x} after ${before.x}`);
  });
}

/** Returns the slope of the chord from a point to the next; 0 if there is no next point. */
function chord(points: readonly Knot[], k: number): number {
  const [a, b] = [points[k], points[k + 1]];
  return a && b ? (b.y - a.y) / (b.x - a.x) : 0;
}

function step(points: readonly Knot[], k: number): number {
  const [a, b] = [points[k], points[k + 1]];
  return a && b ? b.x - a.x : 0;
}

/**
 * Returns the slope at each point of the parabola through it and its neighbors; at an end, of the
 * parabola through the nearest three points.
 */
function tangents(points: readonly Knot[]): readonly number[] {
  const last = points.length - 1;
  if (last < 2) return points.map(() => chord(points, 0));
  return points.map((_, k) => {
    if (k === 0) return fromEnd(points, 0, 1);
    if (k === last) return fromEnd(points, last - 1, last - 2);
    const [before, after] = [step(points, k - 1), step(points, k)];
    return (after * chord(points, k - 1) + before * chord(points, k)) / (before + after);
  });
}

/**
 * Returns the parabola's slope at the outer end of the interval `outer`, which is next to the
 * interval `inner`.
 */
function fromEnd(points: readonly Knot[], outer: number, inner: number): number {
  const [h, g] = [step(points, outer), step(points, inner)];
  return ((2 * h + g) * chord(points, outer) - h * chord(points, inner)) / (h + g);
}

/**
 * Limits the tangents. A tangent that slopes against a neighboring chord becomes 0. The others
 * shrink until the two tangents of each interval, in multiples of its chord's slope, are inside the
 * circle. Each takes the smaller factor of its two intervals. Shrinking a tangent further never
 * leaves the circle, so the order does not matter.
 */
function limited(points: readonly Knot[], slopes: readonly number[]): readonly number[] {
  const turned = slopes.map((slope, k) => {
    const beside = [k - 1, k].filter((n) => n >= 0 && n < points.length - 1);
    return beside.every((n) => slope * chord(points, n) > 0) ? slope : 0;
  });
  const factors = points.slice(1).map((_, k) => {
    const size = Math.hypot(turned[k] ?? 0, turned[k + 1] ?? 0);
    const most = CIRCLE * Math.abs(chord(points, k));
    return size > most ? most / size : 1;
  });
  return turned.map((slope, k) => slope * Math.min(factors[k - 1] ?? 1, factors[k] ?? 1));
}

function hermite(a: Knot, b: Knot, slopeA: number, slopeB: number, x: number): number {
  const h = b.x - a.x;
  const t = (x - a.x) / h;
  const u = 1 - t;
  const y =
    (1 + 2 * t) * u * u * a.y +
    t * u * u * h * slopeA +
    t * t * (1 + 2 * u) * b.y -
    t * t * u * h * slopeB;
  // Rounding can exceed the range of the two values in the last digit.
  return Math.min(Math.max(a.y, b.y), Math.max(Math.min(a.y, b.y), y));
}
