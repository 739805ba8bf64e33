/** The lines held on the day if the plan is followed: many courses, and their spread. */

import { createRunner, type Room, type Worths } from './course.ts';
import { addPart, runsFor } from './market.ts';
import type { Planning, Stock } from './stock.ts';

export interface Outlook {
  readonly expected: number;
  /** 5th and 95th percentile of the count of lines held. */
  readonly low: number;
  readonly high: number;
  /** By step, and on the day: expected lines held before the step's answers. */
  readonly held: Float64Array;
  /** By step: answers expected. */
  readonly answers: Float64Array;
  /** By item: expected hold on the day. By interpolated line: the same. */
  readonly holds: Float64Array;
  readonly interpolated: Float64Array;
}

/** So many counts of lines held are drawn from the holds of one course. */
const DRAWS = 10;

export function outlookOf(
  planning: Planning,
  worths: Worths,
  room: Room,
  runs: number,
  dice: () => number,
): Outlook {
  const { stock, horizon } = planning;
  const runner = createRunner(planning);
  const held = new Float64Array(horizon.steps + 1);
  const answers = new Float64Array(horizon.steps);
  const holds = new Float64Array(stock.items.length);
  const interpolated = new Float64Array(stock.interpolated.length);
  const counts: number[] = [];
  for (let run = 0; run < runs; run++) {
    runner.run(worths, room, dice, (step, hold) => {
      held[step] = (held[step] as number) + linesHeld(stock, hold) / runs;
    });
    addPart(answers, runner.course.answers, runs);
    addPart(holds, runner.course.holds, runs);
    addPart(
      interpolated,
      interpolatedHolds(stock, (n) => runner.course.holds[n] as number),
      runs,
    );
    for (let draw = 0; draw < DRAWS; draw++) counts.push(drawn(stock, runner.course.holds, dice));
  }
  counts.sort((a, b) => a - b);
  const at = (part: number) => counts[Math.round(part * (counts.length - 1))] ?? 0;
  const expected = held[horizon.steps] as number;
  const [low, high] = [Math.min(at(0.05), expected), Math.max(at(0.95), expected)];
  return {
    expected,
    low: Math.floor(low),
    high: Math.ceil(high),
    held,
    answers,
    holds,
    interpolated,
  };
}

/** Courses for a forecast; smaller plans get more. */
export function forecastRuns(planning: Planning): number {
  return runsFor(planning, 400_000, 8, 120);
}

function linesHeld(stock: Stock, hold: (n: number) => number): number {
  let sum = 0;
  for (const n of stock.counted) sum += hold(n);
  for (const { needs } of stock.interpolated)
    if (needs) sum += hold(needs[0]) * hold(needs[1]) * hold(needs[2]);
  return sum;
}

function interpolatedHolds({ interpolated }: Stock, hold: (n: number) => number): Float64Array {
  return Float64Array.from(interpolated, ({ needs }) =>
    needs ? hold(needs[0]) * hold(needs[1]) * hold(needs[2]) : 0,
  );
}

/** A random count of lines held; each item is recalled or not for all lines that need it. */
function drawn(stock: Stock, holds: Float64Array, dice: () => number): number {
  const hits = new Uint8Array(holds.length);
  for (let n = 0; n < holds.length; n++) hits[n] = dice() < (holds[n] as number) ? 1 : 0;
  return linesHeld(stock, (n) => hits[n] as number);
}
