/** The proportional rule between two known targets, which a player can apply from memory. */

import { type AnchorNumber, type Decimal, interpolate } from '../charts/index.ts';
import type { Known } from './known.ts';

/**
 * Returns the number for a place between the known targets; null if the place is not between them.
 */
export function byProportion(known: readonly [Known, Known], at: Decimal): number | null {
  return interpolate(
    known.map((one) => ({ start: one.at, printed: one.printed })),
    at,
  );
}

/**
 * Returns the place between the known targets for a number; null if the number is not between
 * theirs.
 */
export function placeByProportion(known: readonly [Known, Known], aim: Decimal): number | null {
  const anchors = known.map((one) => ({ start: one.printed, printed: one.at }));
  const [a, b] = anchors as [AnchorNumber, AnchorNumber];
  if (a.start === b.start) return null;
  return interpolate(a.start < b.start ? [a, b] : [b, a], aim);
}
