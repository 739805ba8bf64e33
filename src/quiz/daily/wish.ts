/** What the player wants of the chooser, from the settings; and what tomorrow brings. */

import type { Card } from '../../cards/index.ts';
import { dayAhead, type LogState, type Wish } from '../../scheduler/index.ts';
import type { Settings } from '../../store/index.ts';
import { useOf, worthOf } from '../stage/use.ts';
import { questionsIn } from './pace.ts';

export function wishOf(settings: Settings): Wish {
  const { newLinesADay, meetFirst, kinds, byHeart, occasion, use } = settings;
  return {
    kinds,
    anchorsOnly: byHeart === 'anchors',
    meetFirst,
    newLinesADay,
    day: occasion?.day ?? null,
    worth: (pattern) => worthOf(useOf(use, pattern)),
  };
}

/** Returns the player's minutes a day: those of the day that counts, if one is ahead. */
export function minutesADay({ occasion, minutes }: Settings, today: number): number {
  return occasion && occasion.day > today ? occasion.minutes : minutes;
}

/** Returns how many questions and new lines the player has time for in a day. */
export function stepsADay(settings: Settings, log: LogState, today: number): number {
  return questionsIn(minutesADay(settings, today), log);
}

/** Returns, for example, "Tomorrow: about 19 questions." Every screen uses these words. */
export function tomorrowWords(
  cards: readonly Card[],
  log: LogState,
  today: number,
  settings: Settings,
): string {
  const tomorrow = today + 1;
  const most = stepsADay(settings, log, tomorrow);
  const { steps } = dayAhead(cards, log, tomorrow, wishOf(settings), most);
  if (steps === 0) return 'Tomorrow: nothing to ask.';
  return `Tomorrow: ${steps === 1 ? 'one question' : `about ${steps} questions`}.`;
}
