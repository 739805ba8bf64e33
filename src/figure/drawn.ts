/** The things that can be drawn on a table. */

import type { Count, Point, Stretch } from '../table/index.ts';

/**
 * What a path or mark stands for. `true`: the chart's line. `yours`: the player's number. The other
 * three: the chart's speeds.
 */
export type Tone = 'true' | 'yours' | 'soft' | 'medium' | 'firm';

export interface FigurePath {
  readonly tone: Tone;
  readonly stretches: readonly Stretch[];
}

/** A sight, or a point between two sights, at which a line starts or through which it is aimed. */
export interface FigureMark {
  readonly tone: Tone | 'start';
  readonly count: Count;
  readonly diamond: number;
  readonly label?: string;
}

/** The straight line from sight to sight that names a line. */
export interface FigureAim {
  readonly tone: Tone;
  readonly from: { readonly count: Count; readonly diamond: number };
  readonly through: { readonly count: Count; readonly diamond: number };
}

/** A ball on the table that is not the one being played. */
export interface FigureObject {
  readonly at: Point;
  readonly label?: string;
}
