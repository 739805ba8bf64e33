/**
 * Suggests an order for a draft's lines. A worker computes how easily the ball drops on each line.
 */

import {
  anchorBound,
  type Candidate,
  type Chart,
  chartWith,
  type Ordered,
  type Sheet,
  sheetRequest,
  suggestOrder,
  widthOf,
} from '../../charts/index.ts';
import { useOf } from '../../quiz/index.ts';
import { type Settings, toleranceOf, type Use } from '../../store/index.ts';
import type { Solver } from '../../workers/index.ts';
import type { Editing } from '../state/editing/editing.ts';
import type { Model } from '../state/model.ts';

/** The weight of a pattern, by how often it comes up. The values are our own choice. */
const WEIGHTS: Readonly<Record<Use, number>> = { often: 3, 'now and then': 2, seldom: 1 };

/**
 * Asks for the suggested order.
 * @param done called with the order, or with a sentence that says why there is none
 */
export function askOrder(
  model: Pick<Model, 'settings'>,
  editing: Editing,
  solver: Solver,
  done: (order: readonly Ordered[] | string) => void,
): void {
  const settings = model.settings.peek();
  const chart = chartWith(editing.document.peek(), editing.draft.peek().now);
  const bound = anchorBound(toleranceOf(settings));
  const requests = chart.patterns.map((id) => sheetRequest(chart, id, bound));
  solver.ask(requests, (solved) => {
    if (!solved.ok) done(solved.say);
    else done(suggestOrder(candidates(chart, solved.answer, settings)));
  });
}

function candidates(
  { patterns, lines }: Chart,
  sheets: readonly Sheet[],
  { use }: Settings,
): readonly Candidate[] {
  return lines.map(({ pattern, start }) => {
    const sheet = sheets[patterns.indexOf(pattern)];
    const number = sheet?.lines.find((line) => line.start === start)?.numbers.medium;
    const window = typeof number === 'object' ? number.makeWindow : null;
    return { pattern, start, width: widthOf(window), use: WEIGHTS[useOf(use, pattern)] };
  });
}
