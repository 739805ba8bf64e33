import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type PlotScale,
  placePoint,
  plotX,
  plotY,
  wholeDiamonds,
} from '../../../src/figure/plots/plot.ts';
import { reachOn, rulerTicks, rulerX } from '../../../src/figure/ruler.tsx';

const scale: PlotScale = { left: 50, right: 350, top: 10, bottom: 130, domain: [0, 4], most: 3 };

describe('an error over a rail', () => {
  it('is at its diamond, high errors above the middle and low ones below', () => {
    expect(plotX(scale, 1)).toBe(125);
    expect(plotY(scale, 0)).toBe(70);
    expect(plotY(scale, 1)).toBe(50);
    expect(plotY(scale, -1)).toBe(90);
  });

  it('is a dot if good and a cross if off, as the caller judged it', () => {
    expect(placePoint(scale, { x: 2, error: 0.9, good: true }).mark).toBe('good');
    expect(placePoint(scale, { x: 2, error: 0.9, good: false }).mark).toBe('off');
    expect(placePoint(scale, { x: 2, error: -3, good: false }).mark).toBe('off');
  });

  it('beyond the scale is at its edge, with an arrow in its direction', () => {
    const up = { x: 200, y: 10, mark: 'above' };
    expect(placePoint(scale, { x: 2, error: 3.1, good: false })).toEqual(up);
    const down = { x: 200, y: 130, mark: 'below' };
    expect(placePoint(scale, { x: 2, error: -40, good: false })).toEqual(down);
  });

  it('never leaves the plot', () => {
    const any = fc.double({ min: -50, max: 50, noNaN: true });
    fc.assert(
      fc.property(any, any, (x, error) => {
        const at = placePoint(scale, { x, error, good: false });
        expect(at.x >= 50 && at.x <= 350 && at.y >= 10 && at.y <= 130).toBe(true);
      }),
    );
  });

  it('is in the middle of a domain of a single diamond', () => {
    expect(plotX({ ...scale, domain: [2, 2] }, 2)).toBe(200);
  });

  it('has the whole diamonds of its domain under it', () => {
    expect(wholeDiamonds([0, 4])).toEqual([0, 1, 2, 3, 4]);
    expect(wholeDiamonds([1.5, 3.2])).toEqual([2, 3]);
    expect(wholeDiamonds([2.2, 2.8])).toEqual([]);
  });
});

describe('the ruler', () => {
  it('has zero in its middle and reaches equally far to either side', () => {
    expect(rulerX(1, 1) - rulerX(1, 0)).toBe(rulerX(1, 0) - rulerX(1, -1));
    expect(rulerX(1, 0)).toBe(180);
  });

  it('reads a finger’s number where it draws that number', () => {
    const most = fc.constantFrom(0.5, 1, 1.5, 2);
    fc.assert(
      fc.property(most, fc.double({ min: -1, max: 1, noNaN: true }), (most, part) => {
        expect(reachOn(most, rulerX(most, part * most)).along).toBeCloseTo(part * most, 9);
      }),
    );
  });

  it('has a tick for every tenth on it, and for zero', () => {
    expect(rulerTicks(0.3)).toEqual([-0.3, -0.2, -0.1, 0, 0.1, 0.2, 0.3]);
    expect(rulerTicks(1)).toHaveLength(21);
    expect(rulerTicks(0.25)).toEqual([-0.2, -0.1, 0, 0.1, 0.2]);
  });
});
