/** The forecast for match day, or for a month ahead: made in a worker, and again when the log changes. */

import { computed, type ReadonlySignal, signal } from '@preact/signals';
import type { Card } from '../../cards/index.ts';
import type { Chart } from '../../charts/index.ts';
import type { Forecast, LogState } from '../../scheduler/index.ts';
import type { Settings } from '../../store/index.ts';
import type { Answered, Forecaster } from '../../workers/index.ts';

export type Outlook =
  | { readonly at: 'wanted' }
  | { readonly at: 'made'; readonly forecast: Forecast }
  | { readonly at: 'failed'; readonly say: string };

export interface Forecasting {
  readonly outlook: ReadonlySignal<Outlook>;
  /** Makes a forecast from the log and settings now, unless the last one was made from the same. */
  readonly forecast: () => void;
}

export interface ForecastPorts {
  readonly forecaster: Forecaster;
  readonly log: ReadonlySignal<LogState>;
  readonly settings: ReadonlySignal<Settings>;
  readonly chart: ReadonlySignal<Chart>;
  readonly cards: ReadonlySignal<readonly Card[]>;
  readonly day: ReadonlySignal<number>;
}

/** What a forecast is made from. */
interface From {
  readonly wish: string;
  readonly log: LogState;
}

interface Made extends From {
  readonly forecast: Forecast;
}

export function keepForecast(ports: ForecastPorts): Forecasting {
  const made = signal<Made | null>(null);
  const problem = signal<string | null>(null);
  const wish = computed(() => wishIn(ports));
  const outlook = computed<Outlook>(() => {
    // After an answer, the last forecast stays until the next is made.
    if (made.value?.wish === wish.value) return { at: 'made', forecast: made.value.forecast };
    return problem.value === null ? { at: 'wanted' } : { at: 'failed', say: problem.value };
  });
  let asked: From | null = null;
  const forecast = (): void => {
    const from: From = { wish: wish.peek(), log: ports.log.peek() };
    // Not compared with the last one made: another may be under way, and would take its place.
    if (asked?.wish === from.wish && asked.log === from.log) return;
    asked = from;
    const fail = (say: string): void => {
      problem.value = say;
      if (asked === from) asked = null;
    };
    makeForecast(ports, from.log, (answered) => {
      if (!answered.ok) return fail(answered.say);
      problem.value = null;
      made.value = { ...from, forecast: answered.answer };
    }).catch(() => fail('No forecast: a part of Throughline could not be fetched.'));
  };
  return { outlook, forecast };
}

async function makeForecast(
  { forecaster, cards, day, settings }: ForecastPorts,
  log: LogState,
  done: (answered: Answered<Forecast>) => void,
): Promise<void> {
  const { requestFor } = await import('./forecast-request.ts');
  forecaster.ask(requestFor(cards.peek(), log, day.peek(), settings.peek()), done);
}

/** Everything that a forecast depends on, except the answers, as a text. */
function wishIn({ settings, chart, cards, day }: ForecastPorts): string {
  const { occasion, kinds, byHeart, meetFirst, newLinesADay, minutes, use, tolerance, naming } =
    settings.value;
  const { document } = chart.value;
  const revision = document.revisions.length + document.earlier.length;
  const asked = cards.value.length;
  return JSON.stringify([
    document.id,
    revision,
    asked,
    day.value,
    occasion,
    kinds,
    byHeart,
    meetFirst,
    newLinesADay,
    minutes,
    use,
    tolerance,
    naming,
  ]);
}
