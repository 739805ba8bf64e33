/** The data of a drill's error plots: for each kind, its errors by place on the rail. */

import { KINDS, type Kind } from '../../cards/index.ts';
import { isPatternId, patternOf } from '../../charts/index.ts';
import type { ErrorPlotProps, PlotPoint } from '../../figure/index.ts';
import type { Drilled } from '../../scheduler/index.ts';
import { divisions } from '../../table/index.ts';
import { errorsOf, leans } from './result.ts';

export type DrillPlot = ErrorPlotProps & { readonly kind: Kind };

/** Returns one plot for each kind that has errors. */
export function plotsOf(questions: readonly Drilled[]): readonly DrillPlot[] {
  return KINDS.filter(leans).flatMap((kind) => {
    const own = questions.filter((one) => one.kind === kind && one.errors !== null);
    return own.length === 0 ? [] : [plotOf(kind, own)];
  });
}

function plotOf(kind: Kind, questions: readonly Drilled[]): DrillPlot {
  const [tolerance = 0, ...others] = new Set(questions.map((one) => one.tolerance));
  // Each ball has its own tolerance. If the tolerances differ, the plot's unit is the tolerance,
  // not the diamond.
  const unit = others.length === 0 && tolerance > 0 ? 'diamonds' : 'tolerances';
  const points = questions.map((one) => pointOf(one, unit));
  const within = points.filter(({ good }) => good).length;
  return {
    kind,
    points,
    tolerance: unit === 'diamonds' ? tolerance : 1,
    domain: [0, divisionsOf(questions, points)],
    label: `${points.length} errors over the rail, ${within} within tolerance.`,
    xWords: `${X_WORDS[kind] ?? 'start diamond'}${unit === 'tolerances' ? '; errors in tolerances' : ''}`,
  };
}

const X_WORDS: Readonly<Partial<Record<Kind, string>>> = {
  arrival: 'where it arrives, diamonds',
  'rail ball': 'where the ball stands, diamonds',
  'off the rail': 'what the ball is level with, diamonds',
};

function pointOf(question: Drilled, unit: 'diamonds' | 'tolerances'): PlotPoint {
  const [error = 0] = question.errors ?? [];
  const scaled = unit === 'diamonds' ? error : error / (question.tolerance || 1);
  return { x: placeOf(question), error: scaled, good: question.outcome !== 'off' };
}

/**
 * Returns a question's place on a rail, in diamonds: that of its ball or arrival, or else its
 * start.
 */
function placeOf({ kind, asked, answer, errors }: Drilled): number {
  const [called] = answer ?? [];
  const [error] = errors ?? [];
  // The log has the called place and its error. The called place minus the error is where the ball
  // arrives.
  if (kind === 'arrival' && called !== undefined && error !== undefined) return called - error;
  return asked.at ?? asked.start;
}

/**
 * Returns the length of the plotted rail, in diamonds. For starts, it is that of the start rail;
 * otherwise it is 4, or 8 if a place is beyond 4.
 */
function divisionsOf(questions: readonly Drilled[], points: readonly PlotPoint[]): number {
  const isStart = questions.some(({ kind }) => kind === 'number' || kind === 'in between');
  if (!isStart) return points.some(({ x }) => x > 4) ? 8 : 4;
  return Math.max(
    ...questions.map(({ pattern }) =>
      isPatternId(pattern) ? divisions(patternOf(pattern).start.rail) : 8,
    ),
  );
}

/** Returns the errors of a kind, oldest first. */
export function errorsOfKind(questions: readonly Drilled[], kind: Kind): readonly number[] {
  const own = questions.filter((one) => one.kind === kind);
  return leans(kind) ? errorsOf(own, kind === 'arrival' ? 'arrival' : 'aim') : [];
}
