/**
 * Names of rails, pockets and patterns. They match the picture on the screen, which may be
 * mirrored.
 */

import type { Pattern } from '../../charts/index.ts';
import {
  type Count,
  type Mirror,
  mirrorPocket,
  mirrorRail,
  type Naming,
  type PocketName,
  type Rail,
  type Route,
  type Target,
} from '../../table/index.ts';

export function railName(rail: Rail, mirror: Mirror): string {
  return `${mirrorRail(rail, mirror)} rail`;
}

/**
 * Returns, for example, "left rail, from the foot": the rail that a number is on, and the end where
 * its count begins.
 */
export function countWords(count: Count, mirror: Mirror): string {
  return `${railName(count.rail, mirror)}, from the ${mirrorRail(count.from, mirror)}`;
}

export function pocketName(pocket: PocketName, mirror: Mirror): string {
  const [first, second] = mirrorPocket(pocket, mirror).split('-');
  return second === 'side' ? `${first} side pocket` : `${first}-${second} corner`;
}

function targetName(target: Target, mirror: Mirror): string {
  if (target.kind === 'pocket') return pocketName(target.pocket, mirror);
  return `${target.diamond} on the ${railName(target.count.rail, mirror)}`;
}

/** Returns the name of a pattern. In a mirrored picture, its foot rail can be the head rail. */
export function patternName(pattern: Pattern, mirror: Mirror): string {
  return mirror.footHead ? pattern.name.replace(/^Foot\b/, 'Head') : pattern.name;
}

/** Returns, for example, "off the foot rail, into the right side pocket". */
export function routeWords(route: Pattern, mirror: Mirror): string {
  const struck = route.stroke?.running ? 'with running side, ' : '';
  const cushions = route.cushions.map((rail) => railName(rail, mirror)).join(', then the ');
  const into = route.target.kind === 'pocket' ? 'into the' : 'to';
  return `${struck}off the ${cushions}, ${into} ${targetName(route.target, mirror)}`;
}

/** Returns the end of a rail at which the count of its diamonds begins. */
export function countedFrom(route: Route, which: 'start' | 'aim', mirror: Mirror): string {
  return mirrorRail(route[which].from, mirror);
}

/**
 * Returns how a player aims by the chart's numbers: through the sight, or at the nose of the
 * cushion.
 */
export function aimWords(naming: Naming): 'aim through' | 'aim at' {
  return naming === 'through' ? 'aim through' : 'aim at';
}
