/** Changes that were begun on one revision of a chart, built on a later one. */

import type { ChartState } from './document.ts';
import { mergeStates } from './merge-states.ts';

/** Where both changed the same, the player's own change holds: they are about to save it. */
export function carriedOver(base: ChartState, own: ChartState, later: ChartState): ChartState {
  return mergeStates([base], own, later, () => 'mine').state;
}
