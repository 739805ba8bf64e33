/** What the forecast says about the occasion, and what to do if it falls short. */

import { isLineCard, type LineCard } from '../../../cards/index.ts';
import { formatDecimal, patternOf } from '../../../charts/index.ts';
import type { Forecast } from '../../../scheduler/index.ts';
import type { MemoryData } from '../data.ts';

/** "With 10 minutes a day you will know 41 of 60." The goal is nine lines of ten. */
export function shortWords({ held }: Forecast, minutes: number): string {
  const lines = Math.round(held.expected);
  return `With ${minutes} minutes a day you will know ${lines} of ${held.of}.`;
}

/**
 * Says how the player can hold nine lines of ten.
 * @param needed minutes a day; null if no time is enough
 * @param lines how many lines to drop
 */
export function remedyWords(needed: number | null, lines: number): string {
  const drop = lines === 0 ? '' : lines === 1 ? 'drop this line' : `drop these ${lines} lines`;
  if (needed === null) {
    const no = 'By that day no time is enough for nine lines of ten.';
    return drop === '' ? no : `${no} To know the others well, ${drop}:`;
  }
  const more = `For nine lines of ten you need about ${needed} minutes a day`;
  return drop === '' ? `${more}.` : `${more}, or ${drop}:`;
}

/** The lines that a forecast would drop, in its order, without those that are set aside by now. */
export function droppedLines({ cards, log }: MemoryData, { drop }: Forecast): readonly LineCard[] {
  const byId = new Map(cards.filter(isLineCard).map((card) => [card.id, card]));
  return drop.flatMap((id) => byId.get(id) ?? []).filter(({ lineId }) => !log.aside.has(lineId));
}

/** Returns words such as "Cross-side from 1.0, 1.5", one text for each pattern. */
export function linesByPattern(lines: readonly LineCard[]): readonly string[] {
  const starts = new Map<string, LineCard[]>();
  for (const line of lines) {
    const { name } = patternOf(line.pattern);
    starts.set(name, [...(starts.get(name) ?? []), line]);
  }
  return [...starts].map(([name, all]) => {
    const from = all.map(({ start }) => start).sort((a, b) => a - b);
    return `${name} from ${from.map((start) => formatDecimal(start)).join(', ')}`;
  });
}
