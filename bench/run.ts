/** `npm run bench`: prints a table of ratios; README.md says how to read it. */

import { benchAnswers } from './answers.ts';
import type { Rate } from './measure.ts';
import { benchShots } from './shots.ts';

const shots = benchShots();
row('shots played per second', shots.rates);
console.log(
  `  ${shots.shots} one-cushion shots; furthest from a brute-force reference at the target: ` +
    `ours ${shots.oursOff.toExponential(1)}, odex ${shots.odexOff.toExponential(1)} diamond ` +
    `(odex at its loosest settings within 0.001: tolerance ${shots.accuracy.tolerance}, creep ${shots.accuracy.creep})`,
);
const answers = benchAnswers();
row('answers scheduled per second', answers.rates);
console.log(`  ${answers.answers} answers, sorted, folded and indexed, against next_state alone`);

function row(title: string, [ours, other]: readonly Rate[]): void {
  if (!ours || !other) throw new Error('a row needs two contenders');
  const ratio = ours.perSecond / other.perSecond;
  const rates = [ours, other].map(
    ({ name, perSecond }) => `${name} ${Math.round(perSecond).toLocaleString('en')}`,
  );
  console.log(`${title}: ${rates.join(', ')} — ratio ${ratio.toPrecision(3)}`);
}
