/** Computes the scales of a plot of errors along a rail, without the DOM. */

export interface PlotPoint {
  /** The place along the plot, in diamonds. */
  readonly x: number;
  /** The signed error, in the unit of the tolerance. */
  readonly error: number;
  /** Whether the answer was good enough to count. */
  readonly good: boolean;
}

export interface PlotScale {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  readonly domain: readonly [number, number];
  /** The error at the upper edge. The lower edge stands for its negative. */
  readonly most: number;
}

export interface PlacedPoint {
  readonly x: number;
  readonly y: number;
  readonly mark: 'good' | 'off' | 'above' | 'below';
}

/** Returns the x of a diamond. */
export function plotX(scale: PlotScale, diamond: number): number {
  const [from, to] = scale.domain;
  const part = to > from ? (diamond - from) / (to - from) : 0.5;
  return scale.left + part * (scale.right - scale.left);
}

/** Returns the y of an error: positive errors are above the middle, negative ones below. */
export function plotY(scale: PlotScale, error: number): number {
  const part = (error / scale.most + 1) / 2;
  return scale.bottom - part * (scale.bottom - scale.top);
}

/** Places a point. An error beyond the scale is put at the edge, with a mark for its direction. */
export function placePoint(scale: PlotScale, point: PlotPoint): PlacedPoint {
  const x = plotX(scale, Math.min(Math.max(point.x, scale.domain[0]), scale.domain[1]));
  if (point.error > scale.most) return { x, y: scale.top, mark: 'above' };
  if (point.error < -scale.most) return { x, y: scale.bottom, mark: 'below' };
  return { x, y: plotY(scale, point.error), mark: point.good ? 'good' : 'off' };
}

/** Returns the whole diamonds within a domain. */
export function wholeDiamonds([from, to]: readonly [number, number]): readonly number[] {
  const first = Math.ceil(from);
  const count = Math.max(0, Math.floor(to) - first + 1);
  return Array.from({ length: count }, (_, n) => first + n);
}
