/** Prints the results of the simulated players. */

import { benchLearners } from './learners.ts';
import type { Band } from './learners-sums.ts';

const PLAYERS = 200;

export function printLearners(): void {
  const report = benchLearners(PLAYERS);
  console.log(
    `${report.players} simulated players, ${report.lines} lines, 24 days, 15 % of them missed; ` +
      '95 % intervals:',
  );
  for (const { name, rows } of report.per100) {
    for (const { budget, answers, held, per100 } of rows) {
      console.log(
        `  ${name}, ${budget} a day: ${held.toFixed(1)} lines held for ${answers.toFixed(0)} ` +
          `answers, ${band(per100, 1)} per 100`,
      );
    }
  }
  console.log('answers the plan needs for the lines that due order holds:');
  for (const { budget, held, answers, ratio, ratioOfBest } of report.againstDue) {
    console.log(
      `  ${budget} a day, ${held.toFixed(1)} lines, ${answers.toFixed(0)} answers: times ` +
        `${band(ratio, 2)}; of due order's best settings times ${band(ratioOfBest, 2)}`,
    );
  }
  console.log('what the plan says on the first day, and what is truly held on the day:');
  for (const { budget, said, held, within } of report.forecasts) {
    console.log(
      `  ${budget} a day: ${said.expected.toFixed(1)} (${said.low}–${said.high}), held ` +
        `${held.toFixed(1)}, ${(100 * within).toFixed(0)} % of players within`,
    );
  }
  for (const { chart, players, lines, cards, rows } of report.anchors) {
    console.log(
      `answers by anchors for the lines that the plan holds by heart, ${chart}, ${players} ` +
        `players, ${lines} lines by ${cards} cards:`,
    );
    for (const { budget, held, answers, ratio } of rows) {
      console.log(
        `  ${budget} a day, ${held.toFixed(1)} lines, ${answers.toFixed(0)} answers: times ` +
          band(ratio, 2),
      );
    }
  }
}

function band({ value, low, high }: Band, digits: number): string {
  return `${value.toFixed(digits)} (${low.toFixed(digits)}–${high.toFixed(digits)})`;
}
