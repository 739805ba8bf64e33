/** The suggested order of a draft's lines, by how easily they drop; solved in a worker. */

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

/** Weights of how often a pattern comes up. Our own choice. */
const WEIGHTS: Readonly<Record<Use, number>> = { often: 3, 'now and then': 2, seldom: 1 };

/** @param done called with the order, or with a sentence why there is none */
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
