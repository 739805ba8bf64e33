import { describe, expect, it } from 'vitest';
import { trial } from '../../../bench/learners.ts';
import { halves, quarters } from '../../../bench/learners-chart.ts';
import { dueOrder, planned } from '../../../bench/learners-ways.ts';

describe('simulated players', () => {
  const { byHeart, byAnchors } = halves();

  it.each([halves(), quarters()])('learn the same lines by heart and by anchors', (courses) => {
    const { lines, interpolated } = courses.byAnchors;
    const all = [...lines, ...interpolated.map(({ id }) => id)];
    expect(all.sort()).toEqual([...courses.byHeart.lines].sort());
  });

  it('hold at least as many lines per answer by the plan as in due order', () => {
    const plan = perAnswer(trial(3, byHeart, planned(6), [8]));
    const due = perAnswer(trial(3, byHeart, dueOrder(0.9, 6), [8]));
    expect(plan).toBeGreaterThanOrEqual(due);
  });

  it('give no more answers than there is time for', () => {
    const { seasons } = trial(3, byAnchors, planned(6), [5]);
    for (const { answers } of seasons.flat()) expect(answers).toBeLessThanOrEqual(24 * 5);
  });
});

function perAnswer({ seasons }: ReturnType<typeof trial>): number {
  const all = seasons.flat();
  const sum = (of: (season: (typeof all)[number]) => number) =>
    all.reduce((total, season) => total + of(season), 0);
  return sum(({ held }) => held) / sum(({ answers }) => answers);
}
