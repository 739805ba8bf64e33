import 'fake-indexeddb/auto';
import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { type App, startApp } from '../browser/app.ts';
import { BLANK, readDatabase } from '../browser/database.ts';
import { deedsIn, newLedger } from './ledger.ts';
import { endBrowsers, startBrowser } from './own-browser.ts';
import { call, numberedAnswers, passLines, reachQuiz, typeAnswer } from './player.ts';
import { judge } from './raw-log.ts';

let app: App;
beforeAll(async () => {
  app = await startApp();
});
afterEach(endBrowsers);
afterAll(() => app.close());

/** Days by which the device's clock is off, one after the other in one session. */
const JUMPS = [0, 10, -20, 0, 1100, -400, 0];
/** To before 1970, which no event can have as its date. */
const BEFORE_1970 = -60 * 365;

describe('the device’s clock', () => {
  it('may jump forwards and back in a session: every answer is kept, and the next day works', async () => {
    const profile = await app.newProfile();
    const browser = await startBrowser(profile);
    const { page } = browser;
    const ledger = newLedger();
    const next = numberedAnswers();
    await page.addInitScript(() => {
      const now = Date.now;
      Date.now = () => now() + Number(sessionStorage.getItem('wrong') ?? 0);
    });
    await reachQuiz(page, app.url);
    // Without a time limit, which a jump would end.
    await page.goto(`${app.url}#/quiz`);
    for (const days of JUMPS) {
      await setClock(page, days);
      for (let n = 0; n < 2; n++) {
        // If the jump leaves nothing to ask, the session ends and loses nothing.
        if ((await passLines(page)) !== 'asking') break;
        await call(page, ledger, await typeAnswer(page, next()));
        await page.keyboard.press('Enter');
      }
    }
    await browser.kill();

    const again = await startBrowser(profile);
    await again.page.goto(app.url + BLANK);
    const { events, twice, unread, foldsAlike } = await judge(
      (await readDatabase(again.page)) ?? {},
    );
    console.log(
      `clock jumping: ${JSON.stringify({ jumps: JUMPS.length, acknowledged: ledger.acknowledged.length, found: deedsIn(events).length })}`,
    );
    expect(deedsIn(events)).toEqual(ledger.acknowledged);
    expect(ledger.acknowledged.length).toBeGreaterThan(4);
    expect({ twice, unread, foldsAlike }).toEqual({ twice: [], unread: 0, foldsAlike: true });
    // With the right clock there is something to ask again.
    await reachQuiz(again.page, app.url);
    await call(again.page, ledger, await typeAnswer(again.page, next()));
  });

  it('at an impossible date: an answer is refused with the reason, and accepted once the clock is right', async () => {
    const browser = await startBrowser(await app.newProfile());
    const { page } = browser;
    const ledger = newLedger();
    await page.addInitScript(() => {
      const now = Date.now;
      Date.now = () => now() + Number(sessionStorage.getItem('wrong') ?? 0);
    });
    await reachQuiz(page, app.url);
    const called = await typeAnswer(page, '0.001');
    await setClock(page, BEFORE_1970);
    await page.keyboard.press(called.key);
    await page.getByText('Not saved: the device’s clock shows an impossible date').waitFor();
    expect(await page.locator('.answer-box').textContent()).toBe('0.001');
    await setClock(page, 0);
    await call(page, ledger, called);
    const { events } = await judge((await readDatabase(page)) ?? {});
    expect(deedsIn(events)).toEqual(ledger.acknowledged);
  });
});

async function setClock(page: Page, days: number): Promise<void> {
  await page.evaluate((ms) => sessionStorage.setItem('wrong', String(ms)), days * 86_400_000);
}
