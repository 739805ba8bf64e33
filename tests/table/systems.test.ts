/** What players' number systems say, against the model: systems are approximate, and so are the gaps. */
import { describe, expect, it } from 'vitest';
import { kickTo, PATTERNS, type Pattern, patternOf } from '../../src/charts/index.ts';
import {
  CLUB_CLOTH,
  type Setting,
  SPEEDS,
  solveLine,
  solveStarts,
  TABLES,
} from '../../src/table/index.ts';

const club: Setting = { table: TABLES['9ft'], condition: CLUB_CLOTH };

describe('three-cushion corner numbers: first = origin − third, sights, running side', () => {
  // Barry 1928; Jewett, billiards FAQ; Alciatore TP 7.2. Origin 5 is the corner (start 8 from the
  // foot here), each diamond of the long rail is half a number; first and third count from the foot.
  // A tip and a half of running side, firm. The system is good to a quarter of a diamond or so.
  const path = patternOf('long-short-to-side');
  it.each([
    [5, 8, 3, 2],
    [5, 8, 2, 3],
    [4.5, 7, 2, 2.5],
  ])('from %d (start %d) to third %d aim through %d', (origin, start, third, first) => {
    expect(origin - third).toBe(first);
    const launch = { speed: CLUB_CLOTH.speeds.firm, running: 0.4 };
    const { aim } = solveLine(club, kickTo(path, third), start, launch);
    expect(Math.abs((aim ?? Number.NaN) - first)).toBeLessThan(0.15);
  });

  // So long an angle touches where the side pocket opens unless there is less side.
  it('from 5 to third 1.5 aim through 3.5, with a tip less side', () => {
    const launch = { speed: CLUB_CLOTH.speeds.firm, running: 0.3 };
    const { aim } = solveLine(club, kickTo(path, 1.5), 8, launch);
    expect(Math.abs((aim ?? Number.NaN) - 3.5)).toBeLessThan(0.4);
  });
});

describe('speed windows and gaps', () => {
  // Common practice, no source: soft to medium and medium to firm each move a one-cushion number by
  // about 0.1–0.2 of a diamond.
  it('a step of speed moves a one-cushion number by about 0.1–0.2, at the median', () => {
    const steps = PATTERNS.filter((pattern) => pattern.cushions.length === 1).flatMap((pattern) => {
      const starts = [];
      for (let start = pattern.starts[0] as number; start <= pattern.starts[1]; start++)
        starts.push(start);
      return solveStarts(club, pattern, starts).flatMap(({ soft, medium, firm }) =>
        soft.why === null && medium.why === null && firm.why === null
          ? [Math.abs(medium.aim - soft.aim), Math.abs(firm.aim - medium.aim)]
          : [],
      );
    });
    const median = steps.sort((a, b) => a - b)[Math.floor(steps.length / 2)] ?? Number.NaN;
    expect(median).toBeGreaterThan(0.08);
    expect(median).toBeLessThan(0.22);
  });

  // Common practice, no source: half the gap between two aim points is about half the gap between
  // their targets.
  it('half-way between two targets the number is about half-way between their numbers', () => {
    for (const pattern of PATTERNS.filter((one) => one.cushions.length === 1) as Pattern[]) {
      const start = (pattern.starts[0] + pattern.starts[1]) / 2;
      for (const speed of SPEEDS) {
        const launch = { speed: CLUB_CLOTH.speeds[speed] };
        const [near, middle, far] = [1.2, 1.9, 2.6].map(
          (diamond) => solveLine(club, kickTo(pattern, diamond), start, launch).aim,
        );
        if (near == null || middle == null || far == null) continue;
        expect(Math.abs(middle - (near + far) / 2)).toBeLessThan(0.15 * Math.abs(far - near));
      }
    }
  });
});
