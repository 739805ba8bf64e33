/** How long it takes to choose a question, and to forecast as the worker does. */

import { type Card, cardsOf } from '../src/cards/index.ts';
import { computeChart, HARBOUR_LANE, toDecimal } from '../src/charts/index.ts';
import { wishOf } from '../src/quiz/index.ts';
import { foldLog, forecastFor, forecastRequestOf, nextStep } from '../src/scheduler/index.ts';
import { DEFAULT_SETTINGS } from '../src/store/index.ts';
import { answerAt, dayOf, MOST_CARDS, manyCards } from './questions.ts';

export interface ForecastTime {
  readonly cards: number;
  readonly days: number;
  /** Medians. */
  readonly chooseMs: number;
  readonly forecastMs: number;
}

const ROUNDS = 9;
const ANSWERS = 2000;
const STEPS_A_DAY = 38;

export function benchForecasts(): readonly ForecastTime[] {
  const cards = cardsOf(computeChart(HARBOUR_LANE), toDecimal(0.1));
  return [
    timesOf(cards, 30),
    timesOf(cards, 60),
    timesOf(cards, 365),
    timesOf(manyCards(MOST_CARDS), 30),
  ];
}

function timesOf(cards: readonly Card[], days: number): ForecastTime {
  const log = foldLog(Array.from({ length: ANSWERS }, (_, seq) => answerAt(cards, seq)));
  const today = dayOf(ANSWERS);
  const wish = { ...wishOf(DEFAULT_SETTINGS), day: today + days };
  const request = forecastRequestOf(cards, log, today, wish, STEPS_A_DAY);
  return {
    cards: cards.length,
    days,
    chooseMs: medianMs(() => nextStep(cards, log, today, wish)),
    forecastMs: medianMs(() => forecastFor(request)),
  };
}

function medianMs(run: () => unknown): number {
  const times = Array.from({ length: ROUNDS }, () => {
    const start = performance.now();
    run();
    return performance.now() - start;
  }).sort((a, b) => a - b);
  return times[Math.floor(ROUNDS / 2)] ?? Number.NaN;
}
