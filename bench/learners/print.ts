/** Prints how ways to choose and forecasts did on simulated players. */

import {
  type ForecastRow,
  forecasts,
  type Row,
  sixtyLines,
  withDay,
  withoutDay,
} from './report.ts';
import type { Band, ForecastScore } from './trial.ts';
import { TRUTHS } from './truths.ts';

const PLAYERS = 20;
/** Days of the long absence. */
const AWAY = [30, 51] as const;
const AWAY_SIXTY = [14, 21] as const;

export function printLearners(): void {
  console.log(
    `${PLAYERS} simulated players, 15 % of days missed; lines truly known, 95 % intervals:`,
  );
  for (const [name, what] of Object.entries(TRUTHS)) console.log(`  ${name}: ${what}`);
  console.log('all cards, no day set; day 14, day 30, mean of days 60–120; minutes a day:');
  for (const row of withoutDay(PLAYERS)) printRow(row);
  console.log('the same, away on days 30–50:');
  for (const row of withoutDay(PLAYERS, AWAY, ['fsrs'], [5, 10])) printRow(row);
  console.log('all cards, the day in 40 days; minutes a day:');
  for (const row of withDay(PLAYERS)) printRow(row);
  console.log('60 lines by heart, the day in 24 days; answers a day:');
  for (const row of sixtyLines(PLAYERS)) printRow(row);
  console.log('the same, away on days 14–20:');
  for (const row of sixtyLines(PLAYERS, AWAY_SIXTY, ['fsrs'], [8])) printRow(row);
}

export function printForecasts(): void {
  console.log('forecasts for the day in 40 days, all cards; on the first day | after a third:');
  for (const { truth, minutes, first, later } of forecasts(PLAYERS))
    console.log(`  ${truth}, ${minutes} min: ${scoreWords(first)} | ${scoreWords(later)}`);
}

function printRow({ truth, time, way, used, leastKind, ...held }: Row): void {
  const bands = [held.day14, held.day30, held.day60to120, held.theDay].filter(
    (one) => one !== null,
  );
  console.log(
    `  ${truth}, ${time}, ${way}: ${bands.map(bandWords).join(', ')}; ${used.toFixed(0)} min, ` +
      `least kind ${(100 * leastKind).toFixed(0)} %`,
  );
}

function bandWords({ value, low, high }: Band): string {
  return `${value.toFixed(1)} (${low.toFixed(1)}–${high.toFixed(1)})`;
}

function scoreWords({ error, covered, score }: ForecastRow['first'] & ForecastScore): string {
  return (
    `${error > 0 ? '+' : ''}${error.toFixed(1)} lines, ${(100 * covered).toFixed(0)} % covered, ` +
    `score ${score.toFixed(1)}`
  );
}
