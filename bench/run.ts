/** `npm run bench`: prints a table of ratios; README.md says how to read it. */

import { benchAnswers } from './answers.ts';
import { benchCatalogue, FLOPS_PER_STEP, flopRate, timesTheFloor } from './catalogue.ts';
import type { Rate } from './measure.ts';
import { benchShots, stepsPerImpact } from './shots.ts';

const shots = benchShots();
const [ours, loose, fine] = shots.rates;
const [oursOff, looseOff, fineOff] = shots.off.map((off) => off.toExponential(1));
row('shots per second, odex within 0.001 diamond', [ours, loose]);
row('shots per second, odex as near as ours', [ours, fine]);
console.log(
  `  ${shots.shots} one-cushion shots; furthest from brute force at the target: ours ${oursOff}, ` +
    `odex ${looseOff} (tolerance ${shots.stated.tolerance}, creep ${shots.stated.creep}) ` +
    `and ${fineOff} diamond (tolerance ${shots.own.tolerance}, creep ${shots.own.creep})`,
);
const rate = flopRate();
const steps = stepsPerImpact();
console.log(
  `  ${steps.toFixed(1)} steps an impact; ${timesTheFloor(ours.perSecond, steps, rate).toFixed(1)} times ` +
    `what their ${FLOPS_PER_STEP} operations a step take at ${(rate / 1e9).toFixed(2)} G a second`,
);
const table = benchCatalogue();
console.log(
  `one-cushion numbers, 9 ft, every half diamond, three speeds: ${table.numbersMs.toFixed(1)} ms`,
);
console.log(
  `whole catalogue, ${table.lines} lines with make windows: ${table.catalogueMs.toFixed(0)} ms`,
);
console.log(
  `cost of a line at half, quarter and eighth starts: ${table.perLine.map((cost) => cost.toFixed(2)).join(', ')}`,
);
console.log(
  `heap after ${table.recomputes} recomputes: ${(table.grownBytes / 1024).toFixed(0)} kB more`,
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
