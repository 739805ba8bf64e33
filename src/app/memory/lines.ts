/** Lines and how they are held, for the Memory page. */

import type { Card, LineCard } from '../../cards/index.ts';
import { holdOfLine, type LoadDay, type LogState, numberCards } from '../../scheduler/index.ts';

/** A line by its number card. */
export interface HeldLine {
  readonly card: LineCard;
  /** 0–1; null if neither it nor the lines that it follows from were ever asked. */
  readonly hold: number | null;
}

/** Every line once, in the order of the cards. */
export function linesHeld(cards: readonly Card[], log: LogState, day: number): readonly HeldLine[] {
  return numberCards(cards).map((card) => {
    const hold = holdOfLine(card, log, day);
    return { card, hold: hold > 0 || log.memories.has(card.id) ? hold : null };
  });
}

/** The weakest of the lines that were asked and are not set aside, weakest first. */
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

/** What the answers so far have yielded. */
export interface Yield {
  readonly answers: number;
  /** Answers for each line that is held now; null while less than one line is held. */
  readonly each: number | null;
  /** Answers in the last four weeks and in the four before; null until there are eight weeks. */
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
