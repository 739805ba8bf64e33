/**
 * Finds cards that do not stick: those that cost many answers and are forgotten all the same.
 *
 * A card's yield is its predicted recall 30 days after its last answer, divided by its answers. A
 * card does not stick if all of this holds:
 * - It was asked at least 6 times.
 * - Its recall after those 30 days is below 0.7.
 * - Its yield is below half of the median yield of the other cards of its pattern. Cards with fewer
 *   than 3 answers are not compared. If fewer than 3 others are left, the other cards of all patterns
 *   are used instead; if these are fewer than 3, nothing can be said.
 *
 * Lines set aside are left out of the result. They still count for the median, so that setting one
 * aside does not change what is said of the others. The numbers are common practice, without source.
 */

import type { Card } from '../../cards/index.ts';
import type { LogState } from '../log/state.ts';

const LEAST_ASKED = 6;
const DAYS = 30;
const RECALL = 0.7;
const PART_OF_MEDIAN = 0.5;
const LEAST_COMPARED = 3;
const LEAST_OTHERS = 3;

interface Yielding {
  readonly card: Card;
  readonly answers: number;
  readonly recall: number;
  readonly yields: number;
}

/** Returns the cards that do not stick, worst first: those with the least yield. */
export function notSticking(
  cards: readonly Card[],
  log: Pick<LogState, 'memories' | 'aside' | 'model'>,
): readonly Card[] {
  const all = cards.flatMap((card) => yieldingOf(card, log));
  return all
    .filter(({ answers, recall }) => answers >= LEAST_ASKED && recall < RECALL)
    .filter((one) => one.yields < PART_OF_MEDIAN * medianYield(othersOf(one, all)))
    .filter(({ card }) => !log.aside.has(card.lineId))
    .sort((a, b) => a.yields - b.yields)
    .map(({ card }) => card);
}

function yieldingOf(
  card: Card,
  { memories, model }: Pick<LogState, 'memories' | 'model'>,
): readonly Yielding[] {
  const memory = memories.get(card.id);
  if (!memory || memory.answers < LEAST_COMPARED) return [];
  const recall = model.recall(memory, DAYS);
  return [{ card, answers: memory.answers, recall, yields: recall / memory.answers }];
}

function othersOf(one: Yielding, all: readonly Yielding[]): readonly Yielding[] {
  const others = all.filter((other) => other !== one);
  const own = others.filter(({ card }) => card.pattern === one.card.pattern);
  return own.length >= LEAST_OTHERS ? own : others;
}

/** Returns 0 if too few are there, so that no yield is below it. */
function medianYield(of: readonly Yielding[]): number {
  if (of.length < LEAST_OTHERS) return 0;
  const sorted = of.map(({ yields }) => yields).sort((a, b) => a - b);
  const half = (sorted.length - 1) / 2;
  return ((sorted[Math.floor(half)] as number) + (sorted[Math.ceil(half)] as number)) / 2;
}
