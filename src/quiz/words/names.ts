/** Names of rails, pockets and patterns as the picture on the screen shows them. */

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

/** "left rail, from the foot": the rail a number is on, and the end its count begins at. */
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

/** A pattern's name; a mirror can make its foot rail the head rail. */
export function patternName(pattern: Pattern, mirror: Mirror): string {
  return mirror.footHead ? pattern.name.replace(/^Foot\b/, 'Head') : pattern.name;
}

/** "off the foot rail, into the right side pocket". */
export function routeWords(route: Pattern, mirror: Mirror): string {
  const struck = route.stroke?.running ? 'with running side, ' : '';
  const cushions = route.cushions.map((rail) => railName(rail, mirror)).join(', then the ');
  const into = route.target.kind === 'pocket' ? 'into the' : 'to';
  return `${struck}off the ${cushions}, ${into} ${targetName(route.target, mirror)}`;
}

/** The end at which the count of a rail's diamonds begins. */
export function countedFrom(route: Route, which: 'start' | 'aim', mirror: Mirror): string {
  return mirrorRail(route[which].from, mirror);
}

/** How a player aims by a chart's numbers: through a sight, or at the nose. */
export function aimWords(naming: Naming): 'aim through' | 'aim at' {
  return naming === 'through' ? 'aim through' : 'aim at';
}
