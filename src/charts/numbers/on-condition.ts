/** Moves a chart to another condition, including its measured numbers. */

import {
  type Condition,
  divisions,
  type LineNumbers,
  type Setting,
  SPEEDS,
  type Speed,
  solveStarts,
} from '../../table/index.ts';
import { type Decimal, toDecimal, toNumber } from '../document/decimal.ts';
import type { ChartState, MeasuredLine } from '../document/document.ts';
import { patternOf } from '../document/patterns.ts';
import type { Chart } from './chart.ts';

/** The resolution of typed numbers: a thousandth of a diamond. */
const FINEST = 10;

/**
 * Returns a chart's state on another condition. Computed numbers follow the condition by
 * themselves. A measured number was right for the old condition, so it moves as far as the model's
 * number for the same line moves. It stays if the model has no number under one of the conditions,
 * or if it would move off the rail.
 */
export function stateOn(
  { state, setting }: Pick<Chart, 'state' | 'setting'>,
  condition: Condition,
) {
  const there = { ...setting, condition };
  const measured = state.measured.map((line) => moved(line, setting, there));
  return { ...state, condition, measured } satisfies ChartState;
}

function moved(line: MeasuredLine, here: Setting, there: Setting): MeasuredLine {
  const [before, after] = [solvedAt(here, line), solvedAt(there, line)];
  const most = toDecimal(divisions(patternOf(line.pattern).aim.rail));
  const numbers = SPEEDS.flatMap((speed): readonly (readonly [Speed, Decimal])[] => {
    const own = line[speed];
    const [from, to] = [before?.[speed].aim ?? null, after?.[speed].aim ?? null];
    if (own === undefined || from === null || to === null) return [];
    const by = FINEST * Math.round(toDecimal(to - from) / FINEST);
    const number = (own + by) as Decimal;
    return number >= 0 && number <= most ? [[speed, number]] : [];
  });
  return { ...line, ...Object.fromEntries(numbers) };
}

function solvedAt(setting: Setting, { pattern: id, start }: MeasuredLine): LineNumbers | undefined {
  const pattern = patternOf(id);
  return solveStarts(setting, pattern, [toNumber(start)], pattern.stroke)[0];
}
