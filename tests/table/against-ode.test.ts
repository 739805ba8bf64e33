/**
 * Whole shots against a general ODE solver (odex 2.0.4) on a second implementation of the equations
 * (tests/oracle): slide, cushions, slide, roll, to the target's edge. Where the solver's results do
 * not agree it is refined or replaced by brute force in small fixed steps; no shot is left out.
 */
import { describe, expect, it } from 'vitest';
import { PATTERNS } from '../../src/charts/index.ts';
import { compareOnGrid, GRID, judge, randomShots } from '../oracle/grid.ts';
import { apart, endByBruteForce } from '../oracle/shot.ts';

describe('a grid of random shots', () => {
  // All patterns, table sizes and strokes, conditions inside a chart's limits, 1.3–5.4 m/s, at the
  // solved numbers and up to 0.3 beside them. `apart` in tests/oracle/shot.ts defines the gap.
  const grid = compareOnGrid(GRID.count, GRID.seed);

  it('ends within 0.001 diamond of the solver, every one', () => {
    for (const { gap, shot } of grid) {
      expect(gap, JSON.stringify(shot)).toBeLessThanOrEqual(0.001);
    }
  });

  it('has at least two thousand that arrive, from every pattern', () => {
    const arrived = grid.filter((row) => row.arrived);
    expect(arrived.length).toBeGreaterThanOrEqual(2000);
    for (const pattern of PATTERNS) {
      const of = arrived.filter(({ shot }) => shot.route.cushions === pattern.cushions);
      expect(of.length, pattern.id).toBeGreaterThan(40);
    }
  });

  it('is judged by the solver itself except for one in a hundred', () => {
    const brute = grid.filter(({ by }) => by === 'brute force').length;
    expect(brute).toBeLessThan(grid.length / 100);
  });
}, 120_000);

describe('the judge', () => {
  it('agrees with brute force in small fixed steps', () => {
    for (const shot of randomShots(12, GRID.seed + 1)) {
      const gap = apart(shot, judge(shot).ended, endByBruteForce(shot));
      expect(gap, JSON.stringify(shot)).toBeLessThan(0.0003);
    }
  });
});
