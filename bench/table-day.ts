/**
 * How accurate the fitted condition of a table becomes with the number of test shots: the largest
 * error of a number over the chart, on tables like our presets, with a club player's errors.
 */

import type { Chart } from '../src/charts/index.ts';
import { computeChart, HARBOUR_LANE, patternOf, toNumber } from '../src/charts/index.ts';
import type { TableShot } from '../src/shots/index.ts';
import { conditionOf } from '../src/shots/index.ts';
import { CONDITIONS, type Condition, type Setting, SPEEDS } from '../src/table/index.ts';
import { dice } from '../tests/oracle/dice.ts';
import { CLUB_PLAYER, readAt } from '../tests/shots/table-shots.ts';

const COUNTS = [4, 8, 16, 32, 64];
const SEEDS = 5;

export interface FitError {
  readonly shots: number;
  /** Evenings on which a condition was found, of all. */
  readonly given: number;
  readonly evenings: number;
  /** Medians over those evenings, diamonds: of the worst number and of the root mean square. */
  readonly worst: number;
  readonly typical: number;
}

export function benchTableDay(): { readonly before: number; readonly rows: readonly FitError[] } {
  const chart = computeChart(HARBOUR_LANE);
  const tables = ['slick new cloth', 'worn and slow', 'dead cushions'] as const;
  const evenings = tables.flatMap((name) =>
    Array.from({ length: SEEDS }, (_, n) => ({ condition: CONDITIONS[name], seed: n + 1 })),
  );
  const rows = COUNTS.map((shots): FitError => {
    const errors = evenings.flatMap(({ condition, seed }) => {
      const answer = conditionOf(chart, shotsOn(chart, condition, shots, seed));
      return answer.ok ? [errorOf(on(answer.fit.condition), on(condition))] : [];
    });
    return {
      shots,
      given: errors.length,
      evenings: evenings.length,
      worst: median(errors.map(({ worst }) => worst)),
      typical: median(errors.map(({ typical }) => typical)),
    };
  });
  const before = median(tables.map((name) => errorOf(chart, on(CONDITIONS[name])).worst));
  return { before, rows };
}

function on(condition: Condition): Chart {
  const last =
    HARBOUR_LANE.revisions[HARBOUR_LANE.revisions.length - 1] ?? HARBOUR_LANE.revisions[0];
  return computeChart({ ...HARBOUR_LANE, revisions: [{ ...last, condition }] });
}

function shotsOn(chart: Chart, condition: Condition, count: number, seed: number): TableShot[] {
  const truth: Setting = { ...chart.setting, condition };
  const roll = dice(seed);
  const shots: TableShot[] = [];
  while (shots.length < count) {
    const line = chart.lines[Math.floor(roll() * chart.lines.length)];
    const speed = SPEEDS[Math.floor(roll() * SPEEDS.length)];
    if (!line || !speed) continue;
    const aim = toNumber(line.numbers[speed].printed);
    const { pattern } = line;
    const called = { pattern, route: patternOf(pattern), start: toNumber(line.start), speed, aim };
    const shot = readAt(truth, called, CLUB_PLAYER, roll);
    if (shot) shots.push(shot);
  }
  return shots;
}

function errorOf(a: Chart, b: Chart): { readonly worst: number; readonly typical: number } {
  const theirs = new Map(b.lines.map((line) => [`${line.pattern} ${line.start}`, line]));
  const gaps = a.lines.flatMap((line) => {
    const other = theirs.get(`${line.pattern} ${line.start}`);
    return other
      ? SPEEDS.map((speed) => Math.abs(line.numbers[speed].exact - other.numbers[speed].exact))
      : [];
  });
  const squares = gaps.reduce((sum, gap) => sum + gap * gap, 0);
  return { worst: Math.max(...gaps), typical: Math.sqrt(squares / gaps.length) };
}

function median(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;
}
