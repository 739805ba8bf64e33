/** `npm run bench`: prints ratios of one run; docs/speed.md says how to read them. */

import { benchAnswers } from './answers.ts';
import { benchFloor } from './floor.ts';
import { benchForecasts, type ForecastTime } from './forecasts.ts';
import { printForecasts, printLearners } from './learners/print.ts';
import type { Rate } from './measure.ts';
import { benchGrowth, benchNumbers, heapGrowth } from './numbers.ts';
import { benchOpening } from './opening.ts';
import { benchPage } from './page.ts';
import { benchNext, benchQuestions } from './questions.ts';
import { benchSheets } from './sheets.ts';
import { benchShots, type Way } from './shots.ts';
import { benchTableDay } from './table-day.ts';
import { benchFalseAlarms, benchFit, benchGains } from './weights.ts';

/** Parts of the bench that can be run alone: `npm run bench -- learners`. */
const PARTS: Readonly<Record<string, () => unknown>> = {
  shots: printShots,
  questions: () => row('fresh questions per second', benchQuestions()),
  answers: printAnswers,
  'table-day': printTableDay,
  weights: printWeights,
  choosing: printChoosing,
  learners: printLearners,
  forecasts: printForecasts,
  // In Chromium.
  opening: benchOpening,
  page: benchPage,
};

const wanted = process.argv.slice(2);
const unknown = wanted.filter((name) => !(name in PARTS));
if (unknown.length > 0) {
  console.error(`No part ${unknown.join(', ')}: there are ${Object.keys(PARTS).join(', ')}.`);
  process.exit(2);
}
for (const [name, print] of Object.entries(PARTS))
  if (wanted.length === 0 || wanted.includes(name)) await print();

function printShots(): void {
  const shots = benchShots();
  const [ours] = shots.rates;
  if (!ours) throw new Error('the bench has ours first');
  row('shots played per second', shots.rates);
  note(
    `${shots.shots} shots of one to three cushions; furthest from the reference at the target: ` +
      `${shots.off.map((off) => off.toExponential(1)).join(', ')} diamond ` +
      `(the reference from brute force: ${shots.referenceOff.toExponential(1)})`,
  );
  note(`odex within 0.001: ${said(shots.stated)}; as near as ours: ${said(shots.asNear)}`);
  printNumbers(shots.stated);
  const floor = benchFloor(ours.perSecond);
  console.log(
    `a shot takes ${floor.times.toFixed(1)} times the arithmetic of its steps: ` +
      `${floor.stepsPerShot.toFixed(1)} steps of ${floor.flopsPerStep} operations at ` +
      `${(floor.flopsPerSecond / 1e9).toFixed(2)}e9 per second`,
  );
}

function printNumbers(odex: Way): void {
  const numbers = benchNumbers(odex);
  row('one-cushion numbers solved per second', numbers.rates);
  const perNumber = 1000 / (numbers.rates[0]?.perSecond ?? Number.NaN);
  note(`all ${numbers.all} of the 9 ft catalogue take ${(numbers.all * perNumber).toFixed(1)} ms`);
  const sheets = benchSheets();
  console.log(
    `whole catalogue, ${sheets.lines} lines of all patterns, three speeds, with make windows: ` +
      `${sheets.ms.toFixed(0)} ms`,
  );
  const growth = benchGrowth().map(({ lines, perLine }) => `${lines} lines ${perLine.toFixed(2)}`);
  console.log(`time per line, as a part of the first: ${growth.join(', ')}`);
  const heap = heapGrowth();
  console.log(
    `heap after ${heap.recomputes} recomputes of those numbers: ${heap.bytes} bytes more`,
  );
}

function printAnswers(): void {
  const { rates, answers } = benchAnswers();
  row('answers scheduled per second', rates);
  note(`${answers} answers, sorted, folded and indexed, against next_state alone`);
  const next = benchNext();
  row('answers added and next questions found per second', next);
  note(next.map(({ name, perSecond }) => `${name} ${(1000 / perSecond).toFixed(3)} ms`).join(', '));
}

function printTableDay(): void {
  const tableDay = benchTableDay();
  console.log(
    `the condition of another table from test shots (aim ± 0.05, arrivals to a quarter; before, the ` +
      `worst number is ${tableDay.before.toFixed(2)} diamond off): `,
  );
  for (const { shots: count, given, evenings, worst, typical } of tableDay.rows) {
    const error =
      given === 0
        ? ''
        : `, worst number ${worst.toFixed(3)}, root mean square ${typical.toFixed(3)}`;
    note(`${count} shots: told on ${given} of ${evenings} evenings${error}`);
  }
}

function printWeights(): void {
  console.log('memory weights fitted to a player’s own answers:');
  for (const { answers: count, ms, folds } of benchFit())
    note(`${count} answers: ${(ms / 1000).toFixed(2)} s, ${Math.round(folds)} folds of them`);
  for (const which of ['around', 'published'] as const)
    for (const one of benchGains(which))
      note(
        `${one.players} players with weights ${which === 'around' ? 'around the published' : 'as published'}, ` +
          `${Math.round(one.answers)} answers: ${one.fitted.toFixed(4)} nats an answer saved of ` +
          `${one.best.toFixed(4)}, ${one.helped} helped; ${one.taken} called better, ${one.harmed} of ` +
          `these wrongly`,
      );
  const alarms = benchFalseAlarms();
  console.log(
    `told of a bias without having one: ${(100 * alarms.part).toFixed(1)} % of ${alarms.players} players`,
  );
}

function printChoosing(): void {
  const words = ({ cards, days, chooseMs, forecastMs }: ForecastTime): string =>
    `${cards} cards, ${days} days ahead: next question ${chooseMs.toFixed(1)} ms, ` +
    `forecast ${forecastMs.toFixed(0)} ms`;
  for (const one of benchForecasts()) console.log(words(one));
}

function row(title: string, [first, ...others]: readonly Rate[]): void {
  if (!first || others.length === 0) throw new Error('a row needs two contenders');
  const rates = [first, ...others].map(
    ({ name, perSecond }) => `${name} ${Math.round(perSecond).toLocaleString('en')}`,
  );
  const ratios = others.map(({ perSecond }) => (first.perSecond / perSecond).toPrecision(3));
  console.log(`${title}: ${rates.join(', ')} — ratio ${ratios.join(', ')}`);
}

function note(text: string): void {
  console.log(`  ${text}`);
}

function said({ tolerance, creep, extrapolate }: Way): string {
  return `tolerance ${tolerance}, creep ${creep}${extrapolate ? ' extrapolated' : ''}`;
}
