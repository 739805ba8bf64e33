/**
 * Finds the place that a player picks on the drawn table, in the table's own names. This module
 * undoes the mirror.
 */

import { type Count, divisions, type PocketName, RAILS, type Rail } from '../table/index.ts';
import {
  type Box,
  behindNose,
  countOf,
  diamondAt,
  type Frame,
  holes,
  railBand,
  type Spot,
} from './frame.ts';
import { snap } from './pointing.ts';

/** A pocket, or a point of a rail counted from the foot or the left. */
export type Place =
  | { readonly kind: 'rail'; readonly count: Count; readonly diamond: number }
  | { readonly kind: 'pocket'; readonly pocket: PocketName };

/**
 * How far beyond a pocket's drawn edge a tap still means that pocket, in millimeters. With it, the
 * target is about 24 px wide in a picture 200 px wide.
 */
const NEAR_POCKET = 40;

/** A pocket as a target for a finger, with center and radius in the picture. */
export interface PocketTarget {
  readonly pocket: PocketName;
  readonly at: Spot;
  readonly r: number;
}

export function pocketTargets(frame: Frame): readonly PocketTarget[] {
  // `holes` gives places in the mirrored picture, but with the table's own names.
  return holes(frame).map(({ pocket, x, y, r }) => ({ pocket, at: { x, y }, r: r + NEAR_POCKET }));
}

/**
 * Returns the place at a spot of the picture; null if the spot is neither on a pocket nor on a
 * rail.
 */
export function placeAt(frame: Frame, place: Spot, step: number): Place | null {
  const near = pocketTargets(frame).find(
    ({ at, r }) => Math.hypot(place.x - at.x, place.y - at.y) <= r,
  );
  if (near) return { kind: 'pocket', pocket: near.pocket };
  const rail = railAt(frame, place);
  return rail ? placeOnRail(frame, rail, place, step) : null;
}

/**
 * Returns the rail with a band that contains a spot. Where two bands overlap, it is the rail with
 * the nearer row of sights.
 */
function railAt(frame: Frame, place: Spot): Rail | null {
  const toSights = (rail: Rail) =>
    Math.abs(behindNose(frame, rail, place) - frame.table.sightSetback * 1000);
  const [nearest] = RAILS.filter((rail) => inside(railBand(frame, rail), place)).sort(
    (a, b) => toSights(a) - toSights(b),
  );
  return nearest ?? null;
}

function inside(box: Box, { x, y }: Spot): boolean {
  return x >= box.x && x <= box.x + box.width && y >= box.y && y <= box.y + box.height;
}

function placeOnRail(frame: Frame, rail: Rail, place: Spot, step: number): Place {
  const count = countOf(rail);
  const diamond = snap(diamondAt(frame, count, place), step, divisions(rail));
  return { kind: 'rail', count, diamond };
}
