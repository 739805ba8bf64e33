import 'fake-indexeddb/auto';
import { rmSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { type App, serve, startApp } from '../browser/app.ts';
import { BLANK, readDatabase } from '../browser/database.ts';
import { newerBuild } from '../browser/newer-build.ts';
import { deedsIn, type Ledger, newLedger } from './ledger.ts';
import { endBrowsers, startBrowser } from './own-browser.ts';
import { call, numberedAnswers, passLines, reachQuiz, typeAnswer } from './player.ts';
import { judge } from './raw-log.ts';

let app: App;
let newer: string;
beforeAll(async () => {
  app = await startApp();
  newer = newerBuild();
});
afterEach(endBrowsers);
afterAll(async () => {
  await app.close();
  rmSync(newer, { recursive: true });
});

describe('a newer version that takes over during a session', () => {
  it('does not disturb it: nothing reloads, typed text stays, every answer is kept', async () => {
    const profile = await app.newProfile();
    const host = await serve('dist');
    const browser = await startBrowser(profile);
    const { page } = browser;
    const ledger = newLedger();
    const next = numberedAnswers();
    await reachQuiz(page, host.url);
    await page.waitForFunction(() => navigator.serviceWorker.controller?.state === 'activated');
    await answerAndContinue(page, ledger, next());
    await page.evaluate(() => Object.assign(window, { sameOne: true }));
    const typed = next();
    const called = await typeAnswer(page, typed);

    await host.stop();
    const other = await serve(newer, host.port);
    await forceUpdate(page);
    expect(await page.locator('.answer-box').first().textContent()).toBe(typed);
    await call(page, ledger, called);
    await page.keyboard.press('Enter');
    await passLines(page);
    await answerAndContinue(page, ledger, next());
    expect(await page.evaluate(() => 'sameOne' in window)).toBe(true);

    // It loads when the session ends, and all answers are there.
    await page.getByRole('button', { name: 'Stop' }).click();
    await page.locator('meta[name="build"][content="newer"]').waitFor({ state: 'attached' });
    await page.locator('.agenda').waitFor();
    await page.goto(host.url + BLANK);
    const { events, twice, foldsAlike } = await judge((await readDatabase(page)) ?? {});
    console.log(
      `updated in a session: ${JSON.stringify({ acknowledged: ledger.acknowledged.length, found: deedsIn(events).length })}`,
    );
    expect(deedsIn(events)).toEqual(ledger.acknowledged);
    expect({ twice, foldsAlike }).toEqual({ twice: [], foldsAlike: true });
    await browser.kill();
    await other.stop();
  });
});

async function answerAndContinue(page: Page, ledger: Ledger, typed: string): Promise<void> {
  await call(page, ledger, await typeAnswer(page, typed));
  await page.keyboard.press('Enter');
  await passLines(page);
}

/** Makes the newer service worker take over at once; the app would wait. */
async function forceUpdate(page: Page): Promise<void> {
  await page.evaluate(async () => {
    const registration = await navigator.serviceWorker.ready;
    const changed = new Promise<void>((resolve) => {
      navigator.serviceWorker.addEventListener('controllerchange', () => resolve());
    });
    await registration.update();
    const coming = registration.installing ?? registration.waiting;
    if (!coming) throw new Error('no newer version was found');
    if (coming.state !== 'installed') {
      await new Promise<void>((resolve) => {
        coming.addEventListener('statechange', () => coming.state === 'installed' && resolve());
      });
    }
    coming.postMessage({ type: 'SKIP_WAITING' });
    await changed;
  });
}
