/** The request to the forecaster; loaded when a forecast is first wanted. */

import type { Card } from '../../cards/index.ts';
import { stepsADay, wishOf } from '../../quiz/index.ts';
import { type ForecastRequest, forecastRequestOf, type LogState } from '../../scheduler/index.ts';
import type { Settings } from '../../store/index.ts';

export function requestFor(
  cards: readonly Card[],
  log: LogState,
  today: number,
  settings: Settings,
): ForecastRequest {
  const steps = stepsADay(settings, log, today);
  return forecastRequestOf(cards, log, today, wishOf(settings), steps);
}
