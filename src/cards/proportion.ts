/** The proportional rule between two known targets, which a player can apply from memory. */

import { type AnchorNumber, type Decimal, interpolate } from '../charts/index.ts';
import type { Known } from './known.ts';

/** The number for a place between the known targets; null outside them. */
export function byProportion(known: readonly [Known, Known], at: Decimal): number | null {
  return interpolate(
    known.map((one) => ({ start: one.at, printed: one.printed })),
    at,
  );
}

/** The place between the known targets for a number; null outside them. */
export function placeByProportion(known: readonly [Known, Known], aim: Decimal): number | null {
  const anchors = known.map((one) => ({ start: one.printed, printed: one.at }));
  const [a, b] = anchors as [AnchorNumber, AnchorNumber];
  if (a.start === b.start) return null;
  return interpolate(a.start < b.start ? [a, b] : [b, a], aim);
}
