import { describe, expect, it } from 'vitest';
import { withSpeed } from '../../../src/app/parts/condition-sliders.tsx';
import { CLUB_CLOTH, SPEEDS } from '../../../src/table/index.ts';

describe('speed sliders', () => {
  it('keep the speeds in order, whichever moves', () => {
    for (const speed of SPEEDS) {
      for (let value = 0.8; value <= 7; value += 0.05) {
        const moved = withSpeed(CLUB_CLOTH.speeds, speed, value);
        expect(moved[speed]).toBe(value);
        expect(moved.soft).toBeLessThan(moved.medium);
        expect(moved.medium).toBeLessThan(moved.firm);
      }
    }
  });

  it('leave the other speeds alone if they stay in order', () => {
    expect(withSpeed(CLUB_CLOTH.speeds, 'medium', 3)).toEqual({ ...CLUB_CLOTH.speeds, medium: 3 });
  });
});
