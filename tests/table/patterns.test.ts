import { describe, expect, it } from 'vitest';
import { PATTERNS, type Pattern } from '../../src/charts/index.ts';
import {
  CLUB_CLOTH,
  type Setting,
  SPEEDS,
  solveLine,
  solveStarts,
  TABLES,
  type TableSize,
} from '../../src/table/index.ts';

/**
 * How much the first guess changes a number, diamonds: a twentieth of the accuracy docs/numbers.md
 * states. One cushion: 5e-7; three impacts at firm speed leave about 0.01 mm at the target.
 */
const SOLVED = 5e-5;

const patterns: readonly Pattern[] = PATTERNS;

describe.each(Object.keys(TABLES) as TableSize[])('on the %s table', (size) => {
  const setting: Setting = { table: TABLES[size], condition: CLUB_CLOTH };
  const columns = patterns.map((pattern) => {
    const starts = startsOf(pattern);
    return { pattern, starts, column: solveStarts(setting, pattern, starts, pattern.stroke) };
  });

  it('every pattern has numbers from at least three starts; one-cushion patterns at all speeds', () => {
    for (const { pattern, column } of columns) {
      const speeds = pattern.cushions.length === 1 ? SPEEDS : (['medium'] as const);
      const numbered = column.filter((line) => speeds.every((speed) => line[speed].why === null));
      expect(numbered.length, pattern.id).toBeGreaterThanOrEqual(3);
    }
  });

  it('a pattern solved at once has the numbers of its lines solved one by one', () => {
    for (const { pattern, starts, column } of columns) {
      for (const [n, start] of starts.entries()) {
        for (const speed of SPEEDS) {
          const launch = { ...pattern.stroke, speed: CLUB_CLOTH.speeds[speed] };
          const one = solveLine(setting, pattern, start, launch);
          const of = column[n]?.[speed];
          expect(of?.why).toBe(one.why);
          if (one.aim === null) continue;
          expect(Math.abs((of?.aim ?? Number.NaN) - one.aim), pattern.id).toBeLessThan(SOLVED);
        }
      }
    }
  });
});

function startsOf({ starts: [first, last] }: Pattern): readonly number[] {
  return Array.from({ length: Math.floor((last - first) / 0.5) + 1 }, (_, n) => first + n / 2);
}
