/** A shot to look up: its start, its target, and which of them the next tap sets. */

import {
  type Decimal,
  formatDecimal,
  minus,
  plus,
  toDecimal,
  toNumber,
} from '../../charts/index.ts';
import type { Place } from '../../figure/index.ts';
import { pocketName, railName } from '../../quiz/index.ts';
import { type Count, divisions, MIRRORS, type Mirror, type Rail } from '../../table/index.ts';

export type End = 'start' | 'target';
export type OnRail = Extract<Place, { readonly kind: 'rail' }>;

export interface Shot {
  readonly start: OnRail | null;
  readonly target: Place | null;
  readonly next: End;
}

export const NO_SHOT: Shot = { start: null, target: null, next: 'start' };

/** The table as charts print it, with the foot rail at the top. */
export const PRINTED = MIRRORS[0] as Mirror;

/**
 * Sets the start, and then the target at every further tap, until the player selects the start
 * again.
 */
export function pick(shot: Shot, place: Place): Shot {
  if (shot.next === 'target') return { ...shot, target: place };
  return { ...shot, start: onRail(place), next: 'target' };
}

/** Returns a place on a rail. For a pocket, this is the long rail's diamond there: 0, 4 or 8. */
function onRail(place: Place): OnRail {
  if (place.kind === 'rail') return place;
  const [first, second] = place.pocket.split('-') as [Rail, Rail | 'side'];
  const side = second === 'side';
  const count = { rail: side ? first : second, from: 'foot' } as const;
  return { kind: 'rail', count, diamond: side ? 4 : first === 'foot' ? 0 : 8 };
}

/**
 * Moves the start or the target along its rail, at most to the rail's end. A pocket does not move.
 */
export function nudge(shot: Shot, end: End, by: Decimal): Shot {
  const place = shot[end];
  if (place?.kind !== 'rail') return shot;
  const most = toDecimal(divisions(place.count.rail));
  const moved = plus(toDecimal(place.diamond), by);
  const within = Math.min(most, Math.max(0, moved)) as Decimal;
  return { ...shot, [end]: { ...place, diamond: toNumber(within) } };
}

/**
 * Returns words such as "2.5 on the left rail" or "right side pocket". Diamonds are counted from
 * the foot or from the left.
 */
export function placeWords(place: Place): string {
  if (place.kind === 'pocket') return pocketName(place.pocket, PRINTED);
  return `${numberOn(place)} on the ${railName(place.count.rail, PRINTED)}`;
}

export function numberOn({ diamond }: OnRail): string {
  return formatDecimal(toDecimal(diamond));
}

/**
 * Returns words such as "left rail, from the foot". If `other` counts the same rail from its other
 * end, returns both counts: "left rail, 3.0 from the foot · 5.0 from the head".
 */
export function railWords({ count, diamond }: OnRail, other: Count | null): string {
  const rail = railName(count.rail, PRINTED);
  if (!other || other.from === count.from) return `${rail}, from the ${count.from}`;
  const own = toDecimal(diamond);
  const across = minus(toDecimal(divisions(count.rail)), own);
  return `${rail}, ${formatDecimal(own)} from the ${count.from} · ${formatDecimal(across)} from the ${other.from}`;
}
