/** Makes the request to the planner. This code loads when the player first plans for a match day. */

import type { Card } from '../../cards/index.ts';
import { questionsIn, queueSettings, useOf, worthOf } from '../../quiz/index.ts';
import { type LogState, type PlanRequest, planRequestOf } from '../../scheduler/index.ts';
import type { Occasion, Settings } from '../../store/index.ts';

export function requestFor(
  occasion: Occasion,
  cards: readonly Card[],
  log: LogState,
  today: number,
  settings: Settings,
): PlanRequest {
  return planRequestOf(cards, log, today, queueSettings(settings), {
    day: occasion.day,
    answersADay: questionsIn(occasion.minutes, log),
    worth: (pattern) => worthOf(useOf(settings.use, pattern)),
  });
}
