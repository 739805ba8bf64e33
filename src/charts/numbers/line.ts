/** A line of a chart with its numbers, or the reason why it lacks one. */

import type { Speed, Unreachable } from '../../table/index.ts';
import type { Decimal } from '../document/decimal.ts';
import type { Basis } from '../document/document.ts';
import type { PatternId } from '../document/patterns.ts';

/**
 * Where a number comes from. `interpolated`: from the curve through the measured numbers of its
 * pattern. `by window`: from the line's measured number at another speed, plus the solved
 * difference between the speeds.
 */
export const NUMBER_SOURCES = ['computed', 'measured', 'interpolated', 'by window'] as const;
export type NumberSource = (typeof NUMBER_SOURCES)[number];

/**
 * A number at one speed, in the chart's naming: `exact` as solved or measured, and `printed` as
 * rounded.
 */
export interface LineNumber {
  readonly exact: number;
  readonly printed: Decimal;
}

/** A number of a chart's line. */
export interface ChartNumber extends LineNumber {
  readonly source: NumberSource;
}

export interface Line {
  readonly pattern: PatternId;
  readonly start: Decimal;
  /** `measured` if any of the line's numbers is measured. */
  readonly source: Basis;
  readonly numbers: Readonly<Record<Speed, ChartNumber>>;
}

/** A start of a pattern that has no number at one of the speeds. */
export interface Gap {
  readonly pattern: PatternId;
  readonly start: Decimal;
  readonly speed: Speed;
  readonly why: Unreachable;
}
