import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type App, answer, beginQuiz, settled, startApp } from './app.ts';
import { playerWith } from './seed.ts';

let app: App;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.close());

describe('settings', () => {
  it('take effect at once and are there after a reload', async () => {
    const page = await app.open({ fragment: '#/settings' });
    await page.getByLabel('Theme').selectOption({ label: 'dark' });
    await page.locator('html[data-theme="dark"]').waitFor();
    await page.reload();
    await page.locator('html[data-theme="dark"]').waitFor();
    await page.context().close();
  });

  it.each([
    ['Settings', '#/settings', (page: Page) => page.getByLabel('Theme').selectOption('dark')],
    ['Today', '#/', (page: Page) => page.getByRole('radio', { name: '5', exact: true }).click()],
    [
      'Drills',
      '#/drills',
      (page: Page) => page.getByRole('radio', { name: 'from the head' }).click(),
    ],
  ] as const)('on %s a disk that is full says so', async (_, fragment, change) => {
    // One who was here before: of a new one the screen stands before the database is made.
    const page = await app.open({ fragment, player: await playerWith({}) });
    await page.getByRole('navigation').waitFor();
    await page.evaluate(() => {
      IDBObjectStore.prototype.put = () => {
        throw new DOMException('no room', 'QuotaExceededError');
      };
    });
    await change(page);
    await page.getByText('Not saved: the device has no room left.').waitFor();
    await page.context().close();
  });

  it('let a beginner have the printed picture only', async () => {
    const page = await app.open({ fragment: '#/settings' });
    await page.getByLabel('Pictures').selectOption({ label: 'as printed only' });
    await page.goto(`${app.url}#/`);
    await beginQuiz(page);
    for (let n = 0; n < 3; n++) {
      // Starts on the foot and head rail belong to the patterns that begin there, as printed.
      expect([
        'left rail, from the foot',
        'foot rail, from the right',
        'head rail, from the left',
      ]).toContain(await page.locator('.facts .fact-note').first().textContent());
      await answer(page, '1');
      await page.keyboard.press('Enter');
      await settled(page);
      if ((await page.locator('main.quiz').getAttribute('data-phase')) === 'meeting') break;
    }
    await page.context().close();
  });
});

describe('backups', () => {
  it('go out as a file and come back on another device', async () => {
    const page = await app.open();
    await beginQuiz(page);
    await answer(page, '1.1');
    await page.goto(`${app.url}#/settings`);
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Save a backup' }).click(),
    ]);
    const file = await download.path();
    const other = await app.open({ fragment: '#/settings' });
    await other.getByLabel('Restore from a file').setInputFiles(file);
    await other.getByText(/^Restored \d+ entries of the log\.$/).waitFor();
    await other.getByLabel('Restore from a file').setInputFiles(file);
    await other.getByText('Nothing was missing').waitFor();
    await other.getByLabel('Restore from a file').setInputFiles({
      name: 'cut.json',
      mimeType: 'application/json',
      buffer: Buffer.from(readFileSync(file, 'utf8').slice(0, -30)),
    });
    await other.getByText('That file is cut off or is not a backup').waitFor();
    await page.context().close();
    await other.context().close();
  });
});
