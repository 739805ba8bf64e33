/**
 * The built app in a real Chromium at a quarter of its speed, against an empty page built alike: the
 * first card on a new device, the first card without a network, and the time from an answer to its
 * outcome, to its complete display and to its record on disk, on a log of 100,000 answers.
 */

import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import type { Page } from 'playwright-core';
import { build } from 'vite';
import { offline } from '../scripts/offline-plugin.ts';
import { type App, type Profile, reachQuestion, serve, startApp } from '../tests/browser/app.ts';
import { seeded } from './seeding.ts';

const SLOWER = 4;
const ROUNDS = 15;
const ANSWERS = 100_000;
const ANSWERED = 100;
/** Milliseconds during which nothing queries the page. */
const LEFT_ALONE = 700;

declare global {
  var painted: number | undefined;
  var feedback: Record<'told' | 'shown' | 'kept', number[]>;
}

interface Contender {
  readonly folder: string;
  readonly fragment: string;
  /** Selector of the first card. */
  readonly first: string;
}

/** Opens a contender: milliseconds from the navigation to its first card. */
type Start = (one: Contender) => Promise<number>;

export async function benchPage(): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'throughline-empty-'));
  const contenders = [
    { folder: 'dist', fragment: '#/quiz', first: 'main.quiz .verdict' },
    { folder, fragment: '', first: 'main h1' },
  ] as const;
  await buildEmpty(folder);
  const app = await startApp();
  try {
    const cold: Start = (one) => coldStart(app, one);
    await firstCards('first card on a device that never saw the app', contenders, cold);
    const visits = new Map<Contender, Visit>();
    for (const one of contenders) visits.set(one, await visited(app, one));
    const offline: Start = (one) => offlineStart(app, one, visits.get(one));
    await firstCards('first card without a network', contenders, offline);
    await feedbackTimes(app);
  } finally {
    await app.close();
    rmSync(folder, { recursive: true });
  }
}

async function buildEmpty(folder: string): Promise<void> {
  await build({
    configFile: false,
    root: resolve('bench/empty-page'),
    base: './',
    logLevel: 'error',
    plugins: [offline(resolve('src/workers/service-worker.ts'))],
    oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
    build: {
      outDir: folder,
      emptyOutDir: true,
      target: 'es2022',
      modulePreload: { polyfill: false },
    },
  });
}

async function firstCards(
  name: string,
  [ours, empty]: readonly [Contender, Contender],
  start: Start,
): Promise<void> {
  const times = { ours: [] as number[], empty: [] as number[] };
  for (let round = 0; round < ROUNDS; round++) {
    times.ours.push(await start(ours));
    times.empty.push(await start(empty));
  }
  const [card, page] = [quantile(times.ours, 0.5), quantile(times.empty, 0.5)];
  console.log(
    `${name}, ${SLOWER}× slower: ${card.toFixed(0)} ms, the empty page ${page.toFixed(0)} ms — ` +
      `ratio ${(card / page).toPrecision(3)}`,
  );
}

async function coldStart(app: App, one: Contender): Promise<number> {
  const host = await serve(one.folder);
  const time = await paintedAfter(app, await app.newProfile(), host.url, one);
  await host.stop();
  return time;
}

interface Visit {
  readonly profile: Profile;
  readonly url: string;
}

/** A profile that has opened the contender once, and the address of a host that is gone. */
async function visited(app: App, one: Contender): Promise<Visit> {
  const [profile, host] = [await app.newProfile(), await serve(one.folder)];
  const page = await app.openOnDisk(profile);
  await page.goto(host.url + one.fragment);
  // Unlike the app, the empty page is served by its worker only from the second visit.
  await page.waitForFunction(() => navigator.serviceWorker.ready.then(() => true));
  await page.waitForTimeout(1000);
  await page.context().close();
  await host.stop();
  return { profile, url: host.url };
}

async function offlineStart(app: App, one: Contender, visit?: Visit): Promise<number> {
  if (!visit) throw new Error('never visited');
  return paintedAfter(app, visit.profile, visit.url, one);
}

/** Milliseconds from the navigation to the frame that paints the first card. */
async function paintedAfter(
  app: App,
  profile: Profile,
  url: string,
  one: Contender,
): Promise<number> {
  const page = await app.openOnDisk(profile, { fragment: 'icon.svg' });
  await slow(page);
  await page.addInitScript((first) => {
    const look = (): void => {
      // What exists in this frame is painted by its end, before the next task.
      if (document.querySelector(first))
        setTimeout(() => Object.assign(globalThis, { painted: performance.now() }), 0);
      else requestAnimationFrame(look);
    };
    requestAnimationFrame(look);
  }, one.first);
  await page.goto(url + one.fragment);
  const painted = await (await page.waitForFunction(() => globalThis.painted)).jsonValue();
  await page.context().close();
  return painted ?? Number.NaN;
}

async function feedbackTimes(app: App): Promise<void> {
  const profile = await seeded(app, ANSWERS);
  const told: number[] = [];
  const shown: number[] = [];
  const kept: number[] = [];
  // Each round is on a later day, so that cards are due.
  for (let round = 0; told.length < ANSWERED; round++) {
    const page = await app.openOnDisk(profile, { fragment: 'icon.svg', daysAhead: 20 * round });
    await slow(page);
    await page.addInitScript(watchFeedback);
    await page.goto(`${app.url}#/quiz`);
    for (let n = 0; n < 25 && told.length + n < ANSWERED; n++) {
      if ((await reachQuestion(page)) !== 'asking') break;
      await answerUnwatched(page);
      await page.keyboard.press('Enter');
    }
    const times = await page.evaluate(() => globalThis.feedback);
    told.push(...times.told);
    shown.push(...times.shown);
    kept.push(...times.kept);
    await page.context().close();
  }
  console.log(
    `from an answer to its painted outcome, ${SLOWER}× slower, ${ANSWERS.toLocaleString('en')} ` +
      `answers in the log: ${spread(told)}; to all of it: ${spread(shown)}; ` +
      `to its being on the disk: ${spread(kept)} ` +
      `(${told.length} answers)`,
  );
}

function spread(times: readonly number[]): string {
  const [median, most] = [quantile(times, 0.5), quantile(times, 0.95)];
  return `median ${median.toFixed(0)} ms, 95th percentile ${most.toFixed(0)} ms`;
}

async function answerUnwatched(page: Page): Promise<void> {
  const fields = await page.locator('.answer-box').count();
  if (fields === 0) await page.locator('.choices button').first().click();
  for (let n = 0; n < fields; n++) {
    await page.keyboard.type('1.4');
    await page.waitForTimeout(LEFT_ALONE);
    await page.keyboard.press('Enter');
  }
  await page.waitForTimeout(LEFT_ALONE);
  await page.locator('main.quiz[data-phase="answered"]').waitFor();
}

/** Runs in the page: measures from the key or tap that answers to the frames that show the result. */
function watchFeedback(): void {
  globalThis.feedback = { told: [], shown: [], kept: [] };
  const signs = {
    told: '.answer-panel .outcome',
    shown: '.stage.answered .path',
    kept: 'main.quiz[data-phase="answered"]',
  };
  const began: Record<keyof typeof signs, number | null> = { told: null, shown: null, kept: null };
  const begin = ({ timeStamp }: Event): void => {
    if (document.querySelector('main.quiz[data-phase="asking"]'))
      began.told = began.shown = began.kept = timeStamp;
  };
  document.addEventListener('keydown', begin, { capture: true });
  document.addEventListener('click', begin, { capture: true });
  const look = (): void => {
    for (const which of ['told', 'shown', 'kept'] as const) {
      const from = began[which];
      if (from === null || !document.querySelector(signs[which])) continue;
      began[which] = null;
      setTimeout(() => globalThis.feedback[which].push(performance.now() - from), 0);
    }
    requestAnimationFrame(look);
  };
  requestAnimationFrame(look);
}

async function slow(page: Page): Promise<void> {
  const session = await page.context().newCDPSession(page);
  await session.send('Emulation.setCPUThrottlingRate', { rate: SLOWER });
}

function quantile(values: readonly number[], part: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(part * sorted.length))] ?? Number.NaN;
}
