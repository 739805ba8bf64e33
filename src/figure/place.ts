/** Places a player picks on the drawn table, in the table's own names: a mirror is undone here. */

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

/** How far beyond its drawn edge a pocket is still meant, millimetres: 24 px on a picture 200 px wide. */
const NEAR_POCKET = 40;

/** A pocket as one can point at it: centre and radius in the picture. */
export interface PocketTarget {
  readonly pocket: PocketName;
  readonly at: Spot;
  readonly r: number;
}

export function pocketTargets(frame: Frame): readonly PocketTarget[] {
  // `holes` are drawn in the picture's mirror and named in the table's.
  return holes(frame).map(({ pocket, x, y, r }) => ({ pocket, at: { x, y }, r: r + NEAR_POCKET }));
}

/** What a spot of the picture means; null for what is neither a pocket nor a rail. */
export function placeAt(frame: Frame, place: Spot, step: number): Place | null {
  const near = pocketTargets(frame).find(
    ({ at, r }) => Math.hypot(place.x - at.x, place.y - at.y) <= r,
  );
  if (near) return { kind: 'pocket', pocket: near.pocket };
  const rail = railAt(frame, place);
  return rail ? placeOnRail(frame, rail, place, step) : null;
}

/** The rail whose band a spot is in; where two bands cross, the one whose sights are nearer. */
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
