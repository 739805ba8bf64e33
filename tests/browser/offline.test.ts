import { rmSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type App, answer, beginQuiz, serve, startApp, watchErrors } from './app.ts';
import { BLANK, deleteDatabase, writeDatabase } from './database.ts';
import { ADDRESSES, asPlayer } from './every-screen.ts';
import { newerBuild } from './newer-build.ts';

type Host = Awaited<ReturnType<typeof serve>>;

let app: App;
let host: Host;

beforeEach(async () => {
  app = await startApp();
  host = await serve('dist');
});

afterEach(async () => {
  await app.close();
  await host.stop();
});

/** Opens the app at `host`, which a test may stop or change. */
async function openHosted(profile = app.newProfile(), fragment = ''): Promise<Page> {
  const page = await app.openOnDisk(await profile);
  await page.goto(host.url + fragment);
  return page;
}

/** The service worker has fetched everything and serves this page. */
async function keptOnDevice(page: Page): Promise<void> {
  await page.waitForFunction(() => navigator.serviceWorker.controller?.state === 'activated');
}

describe('without a network', () => {
  it('every screen opens for the first time after the host is gone', async () => {
    const page = await openHosted();
    await page.goto(host.url + BLANK);
    await deleteDatabase(page);
    await writeDatabase(page, await asPlayer('A player'));
    await page.goto(`${host.url}#/settings`);
    await keptOnDevice(page);
    await host.stop();
    const errors = watchErrors(page);
    for (const fragment of [...ADDRESSES, '#/settings']) {
      await page.goto(host.url + fragment);
      // Else the heading may be that of the screen before.
      await page.reload();
      await page.locator('main:not([aria-busy]) h1').first().waitFor();
      expect(await page.getByText('could not be fetched').count(), fragment).toBe(0);
    }
    expect(await page.getByText('it works without a network').count()).toBe(1);
    // What workers solve, too: a table that is tried out.
    await page.goto(`${host.url}#/charts/cross-corner`);
    await page.locator('.number-table').waitFor();
    await page.goto(host.url);
    await beginQuiz(page);
    await answer(page, '1.4');
    expect(errors).toEqual([]);
  });

  it('the app starts, asks and keeps answers when its host is gone from the start', async () => {
    const profile = app.newProfile();
    const first = await openHosted(profile);
    await keptOnDevice(first);
    await first.context().close();
    await host.stop();
    const page = await openHosted(profile);
    await beginQuiz(page);
    await answer(page, '1.4');
    await page.goto(host.url);
    await page.getByRole('button', { name: 'Continue' }).waitFor();
  });
});

describe('a newer version', () => {
  let newer: string;

  beforeEach(() => {
    newer = newerBuild();
  });

  afterEach(() => rmSync(newer, { recursive: true }));

  it('waits until nothing is under way in any tab, and then comes to all of them', async () => {
    const asking = await openHosted();
    await keptOnDevice(asking);
    await beginQuiz(asking);
    const resting = await asking.context().newPage();
    await resting.goto(`${host.url}#/settings`);
    await changeHost(newer);

    await resting.getByRole('button', { name: 'Look for a newer version' }).click();
    const change = resting.getByRole('button', { name: 'Change to it now' });
    await change.click();
    await resting.getByText('Something is under way in another tab').waitFor();
    expect(await isNewer(asking)).toBe(false);
    expect(await isNewer(resting)).toBe(false);

    // The session goes on, with files that were not needed before, and ends where the player wants.
    await answer(asking, '1.4');
    expect(await asking.getByText('A newer Throughline').count()).toBe(0);
    await asking.evaluate(() => {
      location.hash = '#/';
    });
    await asking.getByText('A newer Throughline').waitFor();

    await change.click();
    await expect.poll(() => isNewer(resting)).toBe(true);
    await expect.poll(() => isNewer(asking)).toBe(true);
    await asking.getByRole('button', { name: 'Continue' }).waitFor();
  });

  it('is there at the next start if it was not taken', async () => {
    const profile = app.newProfile();
    const page = await openHosted(profile);
    await keptOnDevice(page);
    await changeHost(newer);
    await page.reload();
    await page.getByRole('button', { name: 'Change to it now' }).waitFor();
    await page.context().close();
    const next = await openHosted(profile);
    await expect.poll(() => isNewer(next)).toBe(true);
    expect(await next.getByText('A newer Throughline').count()).toBe(0);
  });
});

/** Puts another build in the place of the one that is served. */
async function changeHost(folder: string): Promise<void> {
  await host.stop();
  host = await serve(folder, host.port);
}

async function isNewer(page: Page): Promise<boolean> {
  return (await page.locator('meta[name="build"][content="newer"]').count()) === 1;
}
