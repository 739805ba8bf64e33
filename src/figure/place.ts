/** Places a player picks on the drawn table, in the table's own names: this module undoes the mirror. */

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

/** A point of a rail, counted from the foot or the left, or a pocket. */
export type Place =
  | { readonly kind: 'rail'; readonly count: Count; readonly diamond: number }
  | { readonly kind: 'pocket'; readonly pocket: PocketName };

/** How far beyond its drawn edge a tap still means a pocket, millimeters: 24 px on a picture 200 px wide. */
const NEAR_POCKET = 40;

/** A pocket as a target for a finger: center and radius in the picture. */
export interface PocketTarget {
  readonly pocket: PocketName;
  readonly at: Spot;
  readonly r: number;
}

export function pocketTargets(frame: Frame): readonly PocketTarget[] {
  // `holes` has places in the mirrored picture, but the table's own names.
  return holes(frame).map(({ pocket, x, y, r }) => ({ pocket, at: { x, y }, r: r + NEAR_POCKET }));
}

/** The place at a spot of the picture; null if it is neither a pocket nor a rail. */
export function placeAt(frame: Frame, place: Spot, step: number): Place | null {
  const near = pocketTargets(frame).find(
    ({ at, r }) => Math.hypot(place.x - at.x, place.y - at.y) <= r,
  );
  if (near) return { kind: 'pocket', pocket: near.pocket };
  const rail = railAt(frame, place);
  return rail ? placeOnRail(frame, rail, place, step) : null;
}

/** The rail whose band contains a spot; where two bands cross, the one with the nearer sights. */
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
