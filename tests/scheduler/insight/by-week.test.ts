import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { byWeek } from '../../../src/scheduler/index.ts';

describe('answers by week', () => {
  it('are counted in weeks that end today', () => {
    // Today is 100: this week began on day 94, the one before on day 87.
    expect(byWeek([100, 94, 93, 87, 87], 100)).toEqual([
      { day: 87, answers: 3 },
      { day: 94, answers: 2 },
    ]);
  });

  it('have a week of 0 where there were none', () => {
    expect(byWeek([80, 100], 100).map(({ answers }) => answers)).toEqual([1, 0, 1]);
  });

  it('reach to today, however long ago the last was', () => {
    expect(byWeek([80], 100).at(-1)).toEqual({ day: 94, answers: 0 });
  });

  it('from a clock that was ahead are today’s; without answers there is no week', () => {
    expect(byWeek([300], 100)).toEqual([{ day: 94, answers: 1 }]);
    expect(byWeek([], 100)).toEqual([]);
  });

  it('are counted once each, in any order, in weeks a week apart', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 500 })), (days) => {
        const weeks = byWeek(days, 400);
        expect(weeks.reduce((sum, { answers }) => sum + answers, 0)).toBe(days.length);
        expect(byWeek([...days].reverse(), 400)).toEqual(weeks);
        for (const [n, { day }] of weeks.entries()) {
          expect(day).toBe(394 - 7 * (weeks.length - 1 - n));
        }
      }),
      { seed: 4 },
    );
  });
});
