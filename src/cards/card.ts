/**
 * Cards: what a chart asks. A card's id is made of what it asks and of nothing else, so that a chart
 * computed again, or a line whose number was corrected, keeps its memory.
 */

import {
  type Chart,
  type Decimal,
  formatDecimal,
  type Line,
  minus,
  type PatternId,
  patternOf,
  toNumber,
} from '../charts/index.ts';
import type { Route, Speed, Target } from '../table/index.ts';

export const KINDS = ['number', 'window'] as const;
/**
 * `number`: start, target and speed are given, the aim-through diamond is asked.
 * `window`: the same line; asked is what soft takes off its medium number and what firm adds.
 */
export type Kind = (typeof KINDS)[number];

interface CardBase {
  readonly id: string;
  /** The line it belongs to: its cards are siblings, introduced together and kept apart. */
  readonly lineId: string;
  readonly pattern: PatternId;
  readonly start: Decimal;
  readonly line: Line;
  /** Id of the sibling that has to hold before this card is asked; null for a line's first card. */
  readonly after: string | null;
}

export interface NumberCard extends CardBase {
  readonly kind: 'number';
  readonly speed: Speed;
  readonly truth: readonly [Decimal];
}

/** Truth: printed soft − medium, and printed firm − medium. */
export interface WindowCard extends CardBase {
  readonly kind: 'window';
  readonly truth: readonly [Decimal, Decimal];
}

export type Card = NumberCard | WindowCard;

/**
 * All cards of a chart, in the order in which lines are met: fewer cushions first, whole diamonds
 * before halves, and from the middle of a pattern to its ends, where lines are steep or flat and
 * seldom come up.
 */
export function cardsOf(chart: Chart): readonly Card[] {
  const { id } = chart.document;
  const lines = [...chart.lines].sort(
    (a, b) =>
      cushionsOf(a) - cushionsOf(b) ||
      roundness(a.start) - roundness(b.start) ||
      fromMiddle(a) - fromMiddle(b),
  );
  // A number that names another point is another number: it has a memory of its own.
  const suffix = chart.naming === 'through' ? '' : `/${chart.naming}`;
  return lines.flatMap((line) => {
    const lineId = `${lineIdOf(id, line)}${suffix}`;
    return [numberCard(lineId, line), windowCard(lineId, line)];
  });
}

function numberCard(lineId: string, line: Line): NumberCard {
  return {
    kind: 'number',
    id: `${lineId}/medium/number`,
    lineId,
    pattern: line.pattern,
    start: line.start,
    speed: 'medium',
    line,
    after: null,
    truth: [line.numbers.medium.printed],
  };
}

function windowCard(lineId: string, line: Line): WindowCard {
  const { soft, medium, firm } = line.numbers;
  return {
    kind: 'window',
    id: `${lineId}/medium/window`,
    lineId,
    pattern: line.pattern,
    start: line.start,
    line,
    after: `${lineId}/medium/number`,
    truth: [minus(soft.printed, medium.printed), minus(firm.printed, medium.printed)],
  };
}

function lineIdOf(chartId: string, line: Line): string {
  const pattern = patternOf(line.pattern);
  return `${chartId}/${line.pattern}/${formatDecimal(line.start, 0)}/${targetId(pattern)}`;
}

function targetId(route: Route): string {
  const target: Target = route.target;
  if (target.kind === 'pocket') return target.pocket;
  return `${target.count.rail}-from-${target.count.from}-${target.diamond}`;
}

function cushionsOf(line: Line): number {
  return patternOf(line.pattern).cushions.length;
}

/** How far a line starts from the middle of its pattern, diamonds. */
function fromMiddle(line: Line): number {
  const [first, last] = patternOf(line.pattern).starts;
  return Math.abs(toNumber(line.start) - (first + last) / 2);
}

/** Whole diamonds before halves before quarters. */
function roundness(start: Decimal): number {
  if (start % 10_000 === 0) return 0;
  return start % 5_000 === 0 ? 1 : 2;
}
