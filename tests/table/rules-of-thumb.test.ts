/** Rules that players use, each with its source. The model is not built on them, yet it agrees. */
import { describe, expect, it } from 'vitest';
import { kickTo, PATTERNS, type Pattern } from '../../src/charts/index.ts';
import {
  CLUB_CLOTH,
  type Condition,
  diamondOf,
  missAlong,
  playLine,
  type Route,
  type Setting,
  SPEEDS,
  type Speed,
  solveLine,
  solveSpeeds,
  TABLES,
  targetLine,
} from '../../src/table/index.ts';

const club: Setting = { table: TABLES['9ft'], condition: CLUB_CLOTH };
const patterns: readonly Pattern[] = PATTERNS;
const oneCushion = patterns.filter(({ cushions }) => cushions.length === 1);

describe('the corner numbers of three cushions: first = origin − third', () => {
  // Barry 1928; Jewett's FAQ; Alciatore TP 7.2: 5 − 3 = 2, 5 − 2 = 3, 4.5 − 2 = 2.5, 5 − 1.5 = 3.5.
  // Origin 5 is the corner (diamond 8 of the left rail), 4.5 is diamond 7; the ball goes off the right
  // and the foot cushion to the third number on the left rail, with running side. The sources give
  // neither side nor speed: here a tip and a half (0.4 of the radius), firm.
  const pattern = patterns.find(({ id }) => id === 'long-short-to-side') as Pattern;
  const struck = { running: 0.4, speed: CLUB_CLOTH.speeds.firm };

  it.each([
    [5, 8, 3, 2],
    [5, 8, 2, 3],
    [4.5, 7, 2, 2.5],
  ])('%d (diamond %d) − %d = %d, to 0.05 diamond', (_origin, start, third, first) => {
    const { aim } = solveLine(club, kickTo(pattern, third), start, struck);
    expect(Math.abs((aim ?? Number.NaN) - first)).toBeLessThan(0.05);
  });

  it('5 (diamond 8) − 1.5 = 3.5, to 0.1, with the side pocket shut', () => {
    // At this stroke the ball would have to touch where the side pocket opens.
    const kick = kickTo(pattern, 1.5);
    expect(solveLine(club, kick, 8, struck).why).toBe('lands in the pocket first');
    const shut = { ...club, table: { ...club.table, sideMouth: 0.001 } };
    expect(Math.abs((solveLine(shut, kick, 8, struck).aim ?? Number.NaN) - 3.5)).toBeLessThan(0.1);
  });
});

describe('double the diamond: from N through N/2, across the width, the ball returns to the corner', () => {
  // Jewett: works fairly well at low speed, up to about 45°. A derivation elsewhere from the cited
  // equations (e 0.85, 0.8 m/s, no rolling resistance, with which so soft a ball would not return):
  // within 0.05 diamond for N = 1…3 and 0.08 for 4. It gives no frictions; this test takes both ours
  // and Mathavan's, so the bounds are a little wider.
  const across: Route = {
    start: { rail: 'left', from: 'foot' },
    aim: { rail: 'right', from: 'foot' },
    cushions: ['right'],
    target: { kind: 'rail', count: { rail: 'left', from: 'foot' }, diamond: 0 },
  };
  const soft = { ...CLUB_CLOTH, restitution: 0.85, rollFriction: 0 };
  const landing = (condition: Condition, n: number, speed: number) => {
    const flight = playLine({ ...club, condition }, across, n, n / 2, { speed });
    if (!flight?.arrived) throw new Error('the ball should come back');
    return diamondOf(club.table, { rail: 'left', from: 'foot' }, flight.end);
  };

  it.each([
    [1, 0.06],
    [2, 0.06],
    [3, 0.06],
    [4, 0.1],
  ])('from %d lands within %d diamond at 0.8 m/s', (n, most) => {
    for (const condition of [soft, { ...soft, noseFriction: 0.14, slideFriction: 0.2 }]) {
      expect(Math.abs(landing(condition, n, 0.8))).toBeLessThan(most);
    }
  });

  it('returns short when it is played firm', () => {
    // More speed shortens (Alciatore, bank and kick effects): it returns before the corner.
    for (const n of [2, 3, 4]) expect(landing(soft, n, 4.6)).toBeGreaterThan(0.3);
  });
});

// Common practice, no source.
describe('of one cushion', () => {
  const lines = oneCushion.flatMap((pattern) => {
    const starts: number[] = [];
    for (let at: number = pattern.starts[0]; at <= pattern.starts[1]; at += 0.5) starts.push(at);
    return starts.map((start) => ({ pattern, start }));
  });

  it('a step of speed moves the median number by 0.1 to 0.2 diamond', () => {
    const step = (from: Speed, to: Speed) =>
      lines.flatMap(({ pattern, start }) => {
        const numbers = solveSpeeds(club, pattern, start);
        const [a, b] = [numbers[from].aim, numbers[to].aim];
        return a === null || b === null ? [] : [Math.abs(b - a)];
      });
    const [softer, firmer] = [step('soft', 'medium'), step('medium', 'firm')];
    expect(softer.length).toBeGreaterThan(60);
    const middle = median([...softer, ...firmer]);
    expect(middle).toBeGreaterThan(0.1);
    expect(middle).toBeLessThan(0.2);
    // The step from soft is the smaller one.
    expect(median(softer)).toBeGreaterThan(0.05);
    expect(median(firmer)).toBeLessThan(0.2);
    expect(median(softer)).toBeLessThan(median(firmer));
  });

  it('half the gap between two aims is about half the gap between their targets', () => {
    const launch = { speed: CLUB_CLOTH.speeds[SPEEDS[1]] };
    const parts = lines.flatMap(({ pattern, start }) => {
      const { aim } = solveLine(club, pattern, start, launch);
      if (aim === null) return [];
      const kick = kickTo(pattern, 2);
      const [low, half, high] = [aim - 0.25, aim, aim + 0.25].map((at) => {
        const flight = playLine(club, kick, start, at, launch);
        return flight?.arrived
          ? missAlong(targetLine(club.table, kick.target), flight.end)
          : Number.NaN;
      }) as [number, number, number];
      return Number.isNaN(low + half + high) ? [] : [(half - low) / (high - low)];
    });
    expect(parts.length).toBeGreaterThan(60);
    expect(Math.abs(median(parts) - 0.5)).toBeLessThan(0.02);
    const near = parts.filter((part) => part > 0.4 && part < 0.6);
    expect(near.length).toBeGreaterThan(0.9 * parts.length);
  });

  it('half-way between two targets the number is about half-way between their numbers', () => {
    for (const pattern of oneCushion) {
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

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)] as number;
}
