/** Decides which answers of a drill also count as answers to the cards of the daily quiz. */

import { type Card, isLineCard } from '../../cards/index.ts';
import { type Drilled, type LogState, mayCount } from '../../scheduler/index.ts';
import type { Settings } from '../../store/index.ts';
import { wishOf } from '../daily/wish.ts';

/** The player when a drill's question is answered. */
interface Player {
  /** All cards of the chart in use. */
  readonly cards: readonly Card[];
  readonly log: LogState;
  readonly settings: Settings;
  readonly today: number;
}

/**
 * Returns whether an answer to a skill counts. Only the first one of a run does, because later ones
 * profit from what the drill has just shown. A skill counts even if the daily quiz leaves out its
 * kind.
 * @param earlier the answers of the run so far
 */
export function countsFor(
  { cards, log, settings, today }: Player,
  earlier: readonly Pick<Drilled, 'pattern' | 'zone' | 'kind'>[],
  skill: Card,
): boolean {
  if (!settings.drillsCount || isLineCard(skill)) return false;
  const { pattern, zone, kind } = skill;
  const isSame = (one: (typeof earlier)[number]): boolean =>
    one.pattern === pattern && one.zone === zone && one.kind === kind;
  if (earlier.some(isSame)) return false;
  const wish = wishOf(settings);
  return mayCount(cards, log, today, { ...wish, kinds: [...wish.kinds, kind] }, skill.id);
}
