import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { cardsOf, isLineCard } from '../../src/cards/index.ts';
import { computeChart, HARBOUR_LANE, toDecimal, toNumber } from '../../src/charts/index.ts';
import {
  type Answered,
  DEFAULT_WEIGHTS,
  memoryModel,
  PUBLISHED,
} from '../../src/scheduler/index.ts';
import { DEFAULT_SETTINGS, formatBackup } from '../../src/store/index.ts';
import { played } from '../scheduler/players.ts';
import { type App, answer, beginQuiz, startApp, watchErrors } from './app.ts';
import { readType } from './events.ts';
import { everywhere, expectSound } from './everywhere.ts';
import { playerOf, studyDayNow } from './seed.ts';

let app: App;

beforeAll(async () => {
  app = await startApp();
});

afterAll(async () => {
  await app.close();
});

/** Remembers four times as long as the published weights say, and gains more each time. */
const LONG = memoryModel(
  DEFAULT_WEIGHTS.map((weight, n) => (n < 4 ? 4 * weight : n === 8 ? weight + 0.8 : weight)),
);

describe('weights of one’s own', () => {
  it('are fitted in a worker, seen, taken and given back', async () => {
    const page = await opened({ truth: LONG, length: 500 });
    const errors = watchErrors(page);
    const sheet = page.getByRole('region', { name: 'Your own forgetting' });
    await sheet.getByText('In use: the published weights.').waitFor();
    await sheet.getByRole('button', { name: 'Fit to my answers' }).press('Enter');
    const use = sheet.getByRole('button', { name: 'Use these' });
    await use.waitFor({ timeout: 45_000 });
    expect(await sheet.getByRole('status').textContent()).toMatch(
      /^Fitted to [\d,]+ answers\. Better on \d+ later ones it had not seen: 0\.\d{3} → 0\.\d{3}\.$/,
    );
    expect(await sheet.getByRole('img', { name: /^Recall, (in use now|fitted):/ }).count()).toBe(2);
    await expectSound(page);
    await use.press('Enter');
    await sheet.getByText('In use: weights fitted to your own answers.').waitFor();
    const [taken] = await readType(page, 'weights taken');
    expect(taken?.weights).toHaveLength(21);

    await page.reload();
    await sheet.getByRole('button', { name: 'Back to the published weights' }).press('Enter');
    await sheet.getByText('In use: the published weights.').waitFor();
    expect((await readType(page, 'weights taken')).at(-1)?.weights).toBeNull();
    expect(errors).toEqual([]);
    await page.context().close();
  });

  it('can be stopped while they are being fitted, and nothing is changed', async () => {
    const page = await opened({ truth: PUBLISHED, length: 500 });
    const sheet = page.getByRole('region', { name: 'Your own forgetting' });
    await sheet.getByRole('button', { name: 'Fit to my answers' }).waitFor();
    // Within the page, so that no fit is done before the hand gets to the other button.
    await sheet.evaluate(async (region) => {
      const press = (name: string) =>
        [...region.querySelectorAll('button')].find((one) => one.textContent === name)?.click();
      press('Fit to my answers');
      const progress = () => region.querySelector('progress[aria-label="Fitting to your answers"]');
      while (!progress()) await new Promise(requestAnimationFrame);
      press('Stop');
    });
    await sheet.getByText('Stopped: nothing changed.').waitFor();
    expect(await sheet.getByRole('button', { name: 'Use these' }).count()).toBe(0);
    expect(await readType(page, 'weights taken')).toEqual([]);
    await page.context().close();
  });

  it('say how many answers they still need', async () => {
    const page = await opened({ truth: PUBLISHED, length: 20 });
    const sheet = page.getByRole('region', { name: 'Your own forgetting' });
    await sheet.getByRole('button', { name: 'Fit to my answers' }).click();
    await sheet.getByText(/About \d+ more are needed\./).waitFor();
    await page.context().close();
  });
});

describe('a bias', () => {
  it('is told on the Memory page, with a drill, in every theme and size', async () => {
    const page = await opened({ truth: PUBLISHED, length: 120 });
    const sheet = page.getByRole('region', { name: 'Which way you miss' });
    await sheet
      .getByText(/^You call .+ 0\.\d+ high\.$/)
      .first()
      .waitFor();
    await everywhere(page);
    await sheet
      .getByRole('link', { name: /^Drill it: / })
      .first()
      .click();
    await page.waitForURL(/#\/drills\/1-/);
    await page.getByText(/of 10/).first().waitFor();
    await page.context().close();
  });

  it('is told after an answer, not before', async () => {
    const page = await opened({ truth: PUBLISHED, length: 120 }, '#/');
    await beginQuiz(page);
    expect(await page.locator('.bias-cue').count()).toBe(0);
    await answer(page, '1');
    await page.getByText(/^You tend to call .+ 0\.\d+ high: \d+ of your last \d+\.$/).waitFor();
    await page.context().close();
  });
});

interface History {
  readonly truth: typeof PUBLISHED;
  /** Study-days. */
  readonly length: number;
}

/** A page of a player whose every error is one step or more too high: Memory, if not another. */
async function opened(history: History, fragment = '#/memory'): Promise<Page> {
  const settings = { ...DEFAULT_SETTINGS, kinds: ['number'] as const };
  const events = eventsOf(history, studyDayNow() - 1);
  const backup = formatBackup({ events, charts: [], settings, unread: [] }, '2026-01-01T00:00:00Z');
  return app.open({ fragment, player: await playerOf(backup) });
}

/** Their answers to the numbers of the demo chart, up to a study-day. */
function eventsOf({ truth, length }: History, last: number): readonly Answered[] {
  const lines = cardsOf(computeChart(HARBOUR_LANE), toDecimal(0.1))
    .filter(isLineCard)
    .filter(({ kind }) => kind === 'number');
  const steps = played({ truth, seed: 2, cards: lines.length, length, newADay: 2 });
  const shift = last - Math.max(...steps.map(({ day }) => day));
  return steps.map(({ card, day, outcome }, seq) => {
    const line = lines[Number(card.slice('line '.length))];
    if (!line) throw new Error(`${card} is not on the chart`);
    const right = toNumber(line.line.numbers.medium.printed);
    const error = outcome === 'off' ? 0.3 : 0.1;
    const at = (day + shift) * 86_400_000 + 43_200_000 + seq;
    return {
      version: 1,
      id: `seeded:${seq}`,
      device: 'seeded',
      seq,
      day: day + shift,
      at,
      type: 'answered',
      card: line.id,
      kind: 'number',
      answer: [Math.round(10 * (right + error)) / 10],
      errors: [error],
      outcome,
      ms: 4000,
    };
  });
}
