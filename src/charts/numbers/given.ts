/** Gives a chart's measured lines to a sheet, so that they are not solved. */

import { aimNamed, type Speed, type Unreachable } from '../../table/index.ts';
import { type Decimal, toNumber } from '../document/decimal.ts';
import type { MeasuredLine } from '../document/document.ts';
import { type PatternId, patternOf } from '../document/patterns.ts';
import { startsOf } from '../document/starts.ts';
import { bySpeed } from './by-speed.ts';
import type { Chart } from './chart.ts';
import type { Gap, Line } from './line.ts';
import type { GivenLine, GivenNumber, SheetRequest } from './sheet-aims.ts';

/**
 * Returns the lines of a pattern that have a measured number. All numbers are through the sight.
 */
export function givenLines(chart: Chart, id: PatternId): readonly GivenLine[] {
  const own = ({ pattern }: { readonly pattern: PatternId }) => pattern === id;
  const lines = chart.lines.filter((line) => own(line) && line.source === 'measured');
  const measured = chart.state.measured.filter(own);
  const gaps = chart.gaps.filter(own).flatMap((gap) => {
    const line = measured.find(({ start }) => start === gap.start);
    return line ? [gapOf(line, gap)] : [];
  });
  return [...lines.map((line) => lineOf(chart, line)), ...gaps].sort((a, b) => a.start - b.start);
}

/** Returns the starts of a pattern's sheet: all starts at which the chart has a line or a gap. */
export function sheetStarts(chart: Chart, id: PatternId): readonly Decimal[] {
  const given = givenLines(chart, id).map(({ start }) => start);
  const { basis } = chart.document;
  const solved = basis === 'computed' ? startsOf(chart.document, patternOf(id)) : [];
  return [...new Set([...solved, ...given])].sort((a, b) => a - b);
}

/** Returns a request for the sheet of one of a chart's patterns, with the chart's own numbers. */
export function sheetRequest(chart: Chart, id: PatternId, anchorBound: number): SheetRequest {
  const pattern = patternOf(id);
  return {
    setting: chart.setting,
    route: pattern,
    starts: sheetStarts(chart, id),
    printStep: chart.document.printStep,
    naming: chart.naming,
    stroke: pattern.stroke ?? {},
    anchorBound,
    given: givenLines(chart, id),
  };
}

function lineOf({ setting, naming }: Chart, { pattern, start, numbers }: Line): GivenLine {
  const through = (speed: Speed): GivenNumber => {
    const { exact, source } = numbers[speed];
    return {
      aim: aimNamed(setting.table, patternOf(pattern), toNumber(start), exact, naming),
      source,
    };
  };
  return { start, numbers: bySpeed(through) };
}

/**
 * Returns a measured line with a gap: the numbers that it has, and the reason why the others are
 * missing.
 */
function gapOf(line: MeasuredLine, { why }: Gap): GivenLine {
  const of = (speed: Speed): GivenNumber | Unreachable => {
    const number = line[speed];
    return number === undefined ? why : { aim: toNumber(number), source: 'measured' };
  };
  return { start: line.start, numbers: bySpeed(of) };
}
