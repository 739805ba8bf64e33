import { signal } from '@preact/signals';
import { describe, expect, it } from 'vitest';
import { keepForecast } from '../../../src/app/state/forecasting.ts';
import { cardsOf } from '../../../src/cards/index.ts';
import { computeChart, HARBOUR_LANE, toDecimal } from '../../../src/charts/index.ts';
import { questionsIn } from '../../../src/quiz/index.ts';
import {
  AHEAD,
  type Forecast,
  type ForecastRequest,
  foldLog,
} from '../../../src/scheduler/index.ts';
import { DEFAULT_SETTINGS, type Settings } from '../../../src/store/index.ts';
import type { Answered } from '../../../src/workers/index.ts';
import { answer } from '../../scheduler/making.ts';

const chart = computeChart(HARBOUR_LANE);
const cards = cardsOf(chart, toDecimal(0.1));
const OCCASION = { name: 'Harbour Lane Open', day: 124, minutes: 20 };

describe('a forecast', () => {
  it('is asked of the worker for the day that counts, and is what the worker says', async () => {
    const { forecasting, ask, asked } = start({ occasion: OCCASION });
    expect(forecasting.outlook.value).toEqual({ at: 'wanted' });
    await ask();
    expect(asked).toHaveLength(1);
    expect(asked[0]?.request).toMatchObject({ today: 100, day: 124, rolling: false, stepsDone: 0 });
    expect(asked[0]?.request.stepsADay).toBe(questionsIn(OCCASION.minutes, foldLog([])));
    asked[0]?.done({ ok: true, answer: forecastOf(12) });
    expect(forecasting.outlook.value).toEqual({ at: 'made', forecast: forecastOf(12) });
  });

  it.each([
    ['is set', null],
    ['is ahead', { ...OCCASION, day: 100 }],
  ])('is for a month ahead if no day that counts %s', async (_, occasion) => {
    const { ask, asked } = start({ occasion });
    await ask();
    expect(asked[0]?.request).toMatchObject({ today: 100, day: 100 + AHEAD, rolling: true });
    expect(asked[0]?.request.stepsADay).toBe(questionsIn(DEFAULT_SETTINGS.minutes, foldLog([])));
  });

  it('is not asked for again while nothing changes', async () => {
    const { ask, asked } = start({});
    await ask();
    asked[0]?.done({ ok: true, answer: forecastOf(12) });
    await ask();
    expect(asked).toHaveLength(1);
  });

  it('stays after an answer until the next one is made', async () => {
    const { forecasting, ask, asked, log } = start({});
    await ask();
    asked[0]?.done({ ok: true, answer: forecastOf(12) });
    log.value = foldLog([answer(0, cards[0]?.id ?? '', 100)]);
    await ask();
    expect(asked).toHaveLength(2);
    expect(asked[1]?.request.stepsDone).toBe(1);
    expect(forecasting.outlook.value).toEqual({ at: 'made', forecast: forecastOf(12) });
    asked[1]?.done({ ok: true, answer: forecastOf(13) });
    expect(forecasting.outlook.value).toEqual({ at: 'made', forecast: forecastOf(13) });
  });

  it('is wanted again on another day', async () => {
    const { forecasting, ask, asked, day } = start({});
    await ask();
    asked[0]?.done({ ok: true, answer: forecastOf(12) });
    day.value = 101;
    expect(forecasting.outlook.value).toEqual({ at: 'wanted' });
    await ask();
    expect(asked[1]?.request).toMatchObject({ today: 101, day: 101 + AHEAD });
  });

  // A forecast used to stay when the player chose whether new lines are shown first.
  it.each<Partial<Settings>>([
    { occasion: OCCASION },
    { minutes: 20 },
    { newLinesADay: 2 },
    { kinds: ['number'] },
    { byHeart: 'every line' },
    { meetFirst: false },
    { use: { 'cross-side': 'seldom' } },
    { tolerance: 500 },
    { naming: 'opposite' },
  ])('is wanted again with other settings: %o', async (change) => {
    const { forecasting, ask, asked, settings } = start({});
    await ask();
    asked[0]?.done({ ok: true, answer: forecastOf(12) });
    settings.value = { ...settings.value, ...change };
    expect(forecasting.outlook.value).toEqual({ at: 'wanted' });
  });

  it('stays if settings change that it does not depend on', async () => {
    const { forecasting, ask, asked, settings } = start({});
    await ask();
    asked[0]?.done({ ok: true, answer: forecastOf(12) });
    settings.value = { ...settings.value, theme: 'dark', units: 'cm', pauseSeconds: 8 };
    await ask();
    expect(asked).toHaveLength(1);
    expect(forecasting.outlook.value.at).toBe('made');
  });

  it('is not shown if the player changed their wish before it came', async () => {
    const { forecasting, ask, asked, settings } = start({});
    await ask();
    settings.value = { ...settings.value, minutes: 20 };
    asked[0]?.done({ ok: true, answer: forecastOf(12) });
    expect(forecasting.outlook.value).toEqual({ at: 'wanted' });
  });

  // The forecast for the wish in between used to be the last one made, and none was asked after it.
  it('is made for a wish that the player returns to while another is under way', async () => {
    const { forecasting, ask, asked, settings } = start({});
    await ask();
    asked[0]?.done({ ok: true, answer: forecastOf(12) });
    const before = settings.value;
    settings.value = { ...before, minutes: 20 };
    await ask();
    settings.value = before;
    await ask();
    for (const { done } of asked.slice(1)) done({ ok: true, answer: forecastOf(13) });
    expect(forecasting.outlook.value).toEqual({ at: 'made', forecast: forecastOf(13) });
  });

  it('that cannot be made says why, and may be made the next time', async () => {
    const { forecasting, ask, asked } = start({});
    await ask();
    asked[0]?.done({ ok: false, say: 'no room' });
    expect(forecasting.outlook.value).toEqual({ at: 'failed', say: 'no room' });
    await ask();
    asked[1]?.done({ ok: true, answer: forecastOf(12) });
    expect(forecasting.outlook.value).toEqual({ at: 'made', forecast: forecastOf(12) });
  });
});

interface Asked {
  readonly request: ForecastRequest;
  readonly done: (answered: Answered<Forecast>) => void;
}

function start(part: Partial<Settings>) {
  const asked: Asked[] = [];
  const log = signal(foldLog([]));
  const settings = signal<Settings>({ ...DEFAULT_SETTINGS, ...part });
  const day = signal(100);
  const forecasting = keepForecast({
    forecaster: { ask: (request, done) => void asked.push({ request, done }) },
    log,
    settings,
    chart: signal(chart),
    cards: signal(cards),
    day,
  });
  return {
    forecasting,
    ask: async () => {
      forecasting.forecast();
      await settled();
    },
    asked,
    log,
    settings,
    day,
  };
}

/** Stands for what a worker answers. */
function forecastOf(expected: number): Forecast {
  return {
    held: { expected, low: 10, high: 15, of: 20 },
    curve: [{ day: 100, held: 3 }],
    load: [{ day: 100, answers: 20 }],
    enough: false,
    stepsNeeded: null,
    drop: [],
  };
}

/** A part of the code is loaded before the worker is asked. */
async function settled(): Promise<void> {
  await import('../../../src/app/state/forecast-request.ts');
  await new Promise((resolve) => setTimeout(resolve, 5));
}
