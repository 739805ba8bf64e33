import 'fake-indexeddb/auto';
import { readFile } from 'node:fs/promises';
import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { parseBackup } from '../../src/store/index.ts';
import { type App, startApp } from '../browser/app.ts';
import { BLANK, readDatabase } from '../browser/database.ts';
import { deedsIn, newLedger } from './ledger.ts';
import { endBrowsers, type OwnBrowser, startBrowser } from './own-browser.ts';
import { call, passLines, reachQuiz, typeAnswer } from './player.ts';
import { judge } from './raw-log.ts';

let app: App;
beforeAll(async () => {
  app = await startApp();
});
afterEach(endBrowsers);
afterAll(() => app.close());

describe('a disk without room', () => {
  it('refuses an answer with a sentence, keeps what was typed, and accepts it later', async () => {
    const { page, ledger, setRoom } = await fullDisk();
    await reachQuiz(page, app.url);
    const before = await readDatabase(page);
    const called = await typeAnswer(page, '0.002');
    for (let n = 0; n < 3; n++) {
      await page.keyboard.press(called.key);
      await page.getByText('Not saved: the device has no room left').waitFor();
      expect(await page.locator('.answer-box').textContent()).toBe('0.002');
    }
    expect(await readDatabase(page)).toEqual(before);

    await setRoom(null);
    await call(page, ledger, called);
    const { events, twice, unread, foldsAlike } = await judge((await readDatabase(page)) ?? {});
    expect(deedsIn(events)).toEqual(ledger.acknowledged);
    expect({ twice, unread, foldsAlike }).toEqual({ twice: [], unread: 0, foldsAlike: true });
  });

  it('lets the app be opened, read and backed up', async () => {
    const { page, ledger } = await fullDisk();
    await page.goto(`${app.url}#/settings`);
    await page.getByLabel('Theme').selectOption({ label: 'dark' });
    await page.getByText('Not saved: the device has no room left').waitFor();
    expect(deedsIn(await saveBackup(page))).toEqual(ledger.acknowledged);
  });
});

/** The disk fills up after one answer is kept. */
async function fullDisk() {
  const profile = await app.newProfile();
  const ledger = newLedger();
  const before = await startBrowser(profile);
  await reachQuiz(before.page, app.url);
  await call(before.page, ledger, await typeAnswer(before.page, '0.001'));
  // Past the next new line, so that the app opens at a question.
  await before.page.keyboard.press('Enter');
  await passLines(before.page);
  await before.kill();
  // Chromium checks the quota only now and then, so it must be used up before the first write.
  const browser = await startBrowser(profile);
  await browser.page.goto(app.url + BLANK);
  const setRoom = await quota(browser);
  await setRoom(1);
  return { page: browser.page, ledger, setRoom };
}

/** Sets the app's quota, bytes; null for the browser's own. */
async function quota({ context, page }: OwnBrowser) {
  const session = await context.newCDPSession(page);
  const origin = new URL(app.url).origin;
  return async (bytes: number | null): Promise<void> => {
    await session.send('Storage.overrideQuotaForOrigin', {
      origin,
      ...(bytes === null ? {} : { quotaSize: bytes }),
    });
  };
}

async function saveBackup(page: Page) {
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    // The button of Settings: a notice about the quota may have one, too.
    page.getByRole('main').getByRole('button', { name: 'Save a backup' }).click(),
  ]);
  const parsed = parseBackup(await readFile(await download.path(), 'utf8'));
  if (!parsed.ok) throw new Error(parsed.say);
  return parsed.backup.events;
}
