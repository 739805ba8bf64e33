/** Lists lines and how well they are held, for the Memory page. */

import type { Card, LineCard } from '../../cards/index.ts';
import { holdOfLine, type LoadDay, type LogState, numberCards } from '../../scheduler/index.ts';

/** A line, represented by its number card, and how well it is held. */
export interface HeldLine {
  readonly card: LineCard;
  /**
   * The chance that the player calls the number right, 0–1. Null if neither the line nor the lines
   * from which it follows were ever asked.
   */
  readonly hold: number | null;
}

/** Returns every line once, in the order of the cards. */
export function linesHeld(cards: readonly Card[], log: LogState, day: number): readonly HeldLine[] {
  return numberCards(cards).map((card) => {
    const hold = holdOfLine(card, log, day);
    return { card, hold: hold > 0 || log.memories.has(card.id) ? hold : null };
  });
}

/** Returns the weakest lines among those that were asked and are not set aside, weakest first. */
export function weakestOf(
  lines: readonly HeldLine[],
  { aside }: LogState,
  most: number,
): readonly (HeldLine & { readonly hold: number })[] {
  return lines
    .flatMap(({ card, hold }) => (hold === null || aside.has(card.lineId) ? [] : [{ card, hold }]))
    .sort((a, b) => a.hold - b.hold)
    .slice(0, most);
}

/** How many answers were given, and what they have yielded. */
export interface Yield {
  readonly answers: number;
  /**
   * How many answers there were for each line that is held now; null while less than one line is
   * held.
   */
  readonly each: number | null;
  /**
   * How many answers there were in the last four weeks and in the four weeks before. Null until
   * there are eight weeks.
   */
  readonly trend: { readonly last: number; readonly before: number } | null;
}

const TREND = 4;

export function yieldOf(weeks: readonly LoadDay[], held: number): Yield {
  const sum = (some: readonly LoadDay[]) => some.reduce((all, { answers }) => all + answers, 0);
  const answers = sum(weeks);
  const enough = weeks.length >= 2 * TREND;
  const trend = { last: sum(weeks.slice(-TREND)), before: sum(weeks.slice(-2 * TREND, -TREND)) };
  return { answers, each: held >= 1 ? answers / held : null, trend: enough ? trend : null };
}
