/** The lines of the bench: the 9 ft table with the default condition. */

import { PATTERNS, type Pattern } from '../src/charts/index.ts';
import { CLUB_CLOTH, type Setting, SPEEDS, solveSpeeds, TABLES } from '../src/table/index.ts';
import type { Shot } from '../tests/oracle/shot.ts';

export const club: Setting = { table: TABLES['9ft'], condition: CLUB_CLOTH };
export const patterns: readonly Pattern[] = PATTERNS;
export const oneCushion = patterns.filter(({ cushions }) => cushions.length === 1);

/** Start diamonds of a pattern. */
export function startsOf({ starts: [first, last] }: Pattern, step: number): readonly number[] {
  return Array.from({ length: Math.floor((last - first) / step) + 1 }, (_, n) => first + n * step);
}

/** Every third line of each pattern, from its second, at its own numbers with its own stroke. */
export const shots: readonly Shot[] = patterns.flatMap((route) =>
  startsOf(route, 1.5).flatMap((first) => {
    const start = Math.min(first + 0.5, route.starts[1]);
    const numbers = solveSpeeds(club, route, start, route.stroke);
    return SPEEDS.flatMap((speed) => {
      const { aim } = numbers[speed];
      const launch = { ...route.stroke, speed: CLUB_CLOTH.speeds[speed] };
      return aim === null ? [] : [{ setting: club, route, start, aim, launch }];
    });
  }),
);
