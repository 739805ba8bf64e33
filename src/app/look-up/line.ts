/**
 * Draws the line of a found path where it is on the table, which may mirror its pattern's picture.
 */

import { type FoundPath, replay } from '../../cards/index.ts';
import { type Chart, formatDecimal, launchOf, shiftAt, toNumber } from '../../charts/index.ts';
import type { PickerLine } from '../../figure/index.ts';
import { followsAim } from '../../quiz/index.ts';
import { aimNamed, mirrorRoute, SPEEDS } from '../../table/index.ts';

export function lineOf(chart: Chart, path: FoundPath): PickerLine {
  const { setting, naming } = chart;
  const route = mirrorRoute(path.route, path.mirror);
  const start = toNumber(path.start);
  const drawn = SPEEDS.flatMap((tone) => {
    const number = path.numbers[tone];
    if (typeof number === 'string') return [];
    const aim = aimNamed(setting.table, route, start, number.exact, naming);
    const launch = launchOf(chart, path.route, tone);
    // A kick's numbers come from the model, so they have no measured shift.
    const shift = path.route.target.kind === 'pocket' ? shiftAt(chart, path, tone) : 0;
    const { stretches } = replay(setting, route, start, aim - shift, launch);
    const { exact, printed } = number;
    return [{ tone, stretches, shift, aim, exact, label: formatDecimal(printed) }];
  });
  const from = { count: route.start, diamond: start };
  // Only one number is shown at the rail, because three would overlap.
  const named = drawn.filter(({ tone }) => tone === 'medium');
  return {
    paths: drawn,
    aims: named
      .filter(({ shift }) => followsAim(shift))
      .map(({ tone, aim }) => ({ tone, from, through: { count: route.aim, diamond: aim } })),
    marks: named.map(({ tone, exact, label }) => ({
      ...{ tone, count: route.aim, diamond: exact, label },
    })),
  };
}
