/** Two players' profiles in real Chromium, and one folder on a real WebDAV server. */

import { readdirSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { type Dav, PASSWORD, startDav, USER } from '../sync/dav.ts';
import { type App, answer, beginQuiz, reachQuestion, startApp, watchErrors } from './app.ts';
import { readEvents } from './events.ts';
import { everywhere } from './everywhere.ts';

let app: App;
let dav: Dav;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.close());
afterEach(() => dav.close());

const PASSPHRASE = 'four words of chalk';

describe('two devices', () => {
  it('that answer and edit offline show the same when both are back', async () => {
    dav = await startDav();
    const [one, two] = [await opened(), await opened()];
    const errors = [watchErrors(one), watchErrors(two)];
    await fillIn(one);
    await one.getByRole('button', { name: 'Connect' }).click();
    await one.getByText('Nothing of Throughline is in this folder yet.').waitFor();
    await one.getByLabel('Passphrase once more').fill('four words of cheese');
    await one.getByRole('button', { name: 'Begin here' }).click();
    await one.getByText('The two passphrases are not the same.').waitFor();
    await one.getByLabel('Passphrase once more').fill(PASSPHRASE);
    await one.getByRole('button', { name: 'Begin here' }).click();
    await worked(one);

    await fillIn(two, 'four words of talk');
    await two.getByRole('button', { name: 'Connect' }).click();
    await two.getByText('The passphrase does not fit this folder').waitFor();
    await two.getByLabel('Passphrase', { exact: true }).fill(PASSPHRASE);
    await two.getByRole('button', { name: 'Connect' }).click();
    await worked(two);

    for (const page of [one, two]) {
      await fetchAll(page);
      await page.context().setOffline(true);
    }
    await play(one, 3);
    await play(two, 2);
    await edit(one, '1.1', 'Measured with one.');
    await edit(two, '1.3', 'Measured with two.');
    await one.goto(`${app.url}#/settings`);
    await one.getByText(/\d+ entries of the log/).waitFor();

    // What comes online syncs by itself.
    for (const page of [one, two]) {
      await page.goto(`${app.url}#/settings`);
      await page.context().setOffline(false);
      await nothingWaits(page);
    }
    for (const page of [one, two, one]) await syncNow(page);
    const [here, there] = [await shown(one), await shown(two)];
    expect(there).toEqual(here);
    expect(here.ids.length).toBeGreaterThan(5);
    expect(here.whys).toContain('Measured with one.');
    expect(here.whys).toContain('Measured with two.');
    expect(here.whys[0]).toMatch(/^Edits of two devices, joined/);
    expect(errors.flat().filter((error) => !error.includes('ERR_INTERNET'))).toEqual([]);
    for (const page of [one, two]) await page.context().close();
  });

  it('send and take in what a session brought, once it is over', async () => {
    dav = await startDav();
    const page = await opened();
    await connectNew(page);
    await page.goto(`${app.url}#/`);
    const puts = () => dav.asked.filter((asked) => asked.startsWith('PUT')).length;
    const before = puts();
    await answerSome(page, 2);
    // In the session nothing was sent.
    expect(puts()).toBe(before);
    await leave(page);
    await page.goto(`${app.url}#/settings`);
    await nothingWaits(page);
    expect(puts()).toBeGreaterThan(before);
    await page.context().close();
  });
});

describe('what Settings says of syncing', () => {
  it('can be read by all in every theme and size, connected or not', async () => {
    dav = await startDav();
    const page = await opened();
    await page.getByLabel('Address of the folder').waitFor();
    await everywhere(page);
    await connectNew(page);
    await everywhere(page);
    await page.getByRole('button', { name: 'Disconnect', exact: true }).click();
    await page.getByRole('button', { name: 'Disconnect this device' }).click();
    await page.getByLabel('Address of the folder').waitFor();
    await page.context().close();
  });

  it('is a sentence where the server does not let pages in, or the password is wrong', async () => {
    dav = await startDav(false);
    const page = await opened();
    await fillIn(page);
    await page.getByRole('button', { name: 'Connect' }).click();
    await page.getByText('does not let this page in').waitFor();
    await dav.close();
    dav = await startDav();
    await fillIn(page);
    await page.getByLabel(/^Password/).fill('other');
    await page.getByRole('button', { name: 'Connect' }).click();
    await page.getByText('does not accept this user name and password').waitFor();
    await page.getByLabel('Address of the folder').fill('http://cloud.example/dav');
    await page.getByRole('button', { name: 'Connect' }).click();
    await page.getByText('has to begin with https://').waitFor();
    await page.context().close();
  });

  it('is a sentence for a hostile folder, and nothing was changed', async () => {
    dav = await startDav();
    const page = await opened();
    await connectNew(page);
    await page.goto(`${app.url}#/`);
    await play(page, 2);
    await page.goto(`${app.url}#/settings`);
    await nothingWaits(page);
    const before = await readEvents(page);

    const told: string[] = [];
    const other = createServer((request, response) => {
      told.push(request.headers.authorization ?? 'nothing');
      response.writeHead(207, { 'Access-Control-Allow-Origin': '*' }).end();
    });
    await new Promise<void>((resolve) => other.listen(0, '127.0.0.1', resolve));
    const elsewhere = `http://127.0.0.1:${(other.address() as AddressInfo).port}/`;
    const attacks: readonly (readonly [Dav['meddle'] & object, RegExp])[] = [
      [
        (_, response) => {
          response.writeHead(307, { Location: elsewhere }).end();
          return true;
        },
        /cannot be reached/,
      ],
      [
        ({ method }, response) => {
          if (method !== 'PROPFIND') return false;
          response.writeHead(207).end(`<!DOCTYPE a [<!ENTITY b "c">]><a>&b;</a>`);
          return true;
        },
        /not one that this app can trust/,
      ],
      [
        ({ method }, response) => {
          if (method !== 'PROPFIND') return false;
          response.writeHead(207).end('x'.repeat(5_000_000));
          return true;
        },
        /not one that this app can trust/,
      ],
      [
        ({ method, url }, response) => {
          if (method !== 'GET' || !url?.endsWith('.json')) return false;
          const weak = { kind: 'throughline-sync', version: 1, vault: 'a'.repeat(32) };
          const rest = { kdf: 'PBKDF2-HMAC-SHA-256', iterations: 1, salt: 'A'.repeat(43) };
          response.writeHead(200).end(JSON.stringify({ ...weak, ...rest, check: 'A'.repeat(52) }));
          return true;
        },
        /made too quickly/,
      ],
    ];
    for (const [meddle, words] of attacks) {
      dav.meddle = meddle;
      await page.getByRole('button', { name: 'Sync now' }).click();
      await page.locator('.sync .problem').getByText(words).waitFor();
      expect(await readEvents(page)).toEqual(before);
    }
    expect(told).toEqual([]);
    dav.meddle = null;
    await syncNow(page);
    expect(await page.locator('.sync .problem').count()).toBe(0);
    await new Promise<void>((resolve) => other.close(() => resolve()));
    await page.context().close();
  });
});

async function opened(): Promise<Page> {
  return app.open({ fragment: '#/settings' });
}

async function fillIn(page: Page, passphrase = PASSPHRASE): Promise<void> {
  await page.getByLabel('Address of the folder').fill(dav.address);
  await page.getByLabel(/^User name/).fill(USER);
  await page.getByLabel(/^Password/).fill(PASSWORD);
  await page.getByLabel('Passphrase', { exact: true }).fill(passphrase);
}

async function connectNew(page: Page): Promise<void> {
  await fillIn(page);
  await page.getByRole('button', { name: 'Connect' }).click();
  await page.getByLabel('Passphrase once more').fill(PASSPHRASE);
  await page.getByRole('button', { name: 'Begin here' }).click();
  await worked(page);
}

async function worked(page: Page): Promise<void> {
  await page
    .locator('.sync-facts dd')
    .filter({ hasText: /\d\d:\d\d/ })
    .waitFor();
  await page.getByRole('button', { name: 'Sync now' }).waitFor();
}

async function nothingWaits(page: Page): Promise<void> {
  await page
    .locator('.sync-facts dd')
    .filter({ hasText: /^nothing$/ })
    .waitFor();
  await page.getByRole('button', { name: 'Sync now' }).waitFor();
}

async function syncNow(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Sync now' }).click();
  await page.getByRole('button', { name: 'Syncing' }).waitFor({ state: 'detached' });
  await nothingWaits(page);
}

/** All that the app would fetch when it is first wanted, so that it is there offline. */
async function fetchAll(page: Page): Promise<void> {
  for (const name of readdirSync('dist/assets').filter((one) => !/worker/.test(one))) {
    const url = `${app.url}assets/${name}`;
    if (name.endsWith('.js')) await page.addScriptTag({ type: 'module', url });
    if (name.endsWith('.css')) await page.addStyleTag({ url });
  }
}

async function play(page: Page, questions: number): Promise<void> {
  await answerSome(page, questions);
  await leave(page);
}

/** Stays in the session. */
async function answerSome(page: Page, questions: number): Promise<void> {
  await page.evaluate(() => {
    location.hash = '#/';
  });
  await beginQuiz(page);
  for (let n = 0; n < questions; n++) {
    if (n > 0) await reachQuestion(page);
    await answer(page, '1.2');
    await page.keyboard.press('Enter');
  }
}

async function leave(page: Page): Promise<void> {
  await page.evaluate(() => {
    location.hash = '#/';
  });
  await page.locator('.today').waitFor();
}

async function edit(page: Page, number: string, why: string): Promise<void> {
  await page.evaluate(() => {
    location.hash = '#/edit/foot-to-side';
  });
  await page.getByLabel('From 2.0, soft', { exact: true }).fill(number);
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await page.getByLabel('Your name').fill('Quay Street');
  await page.getByLabel('Why').fill(why);
  await page.getByRole('button', { name: 'Save the revision' }).click();
  await page.getByText('Saved as revision 4.').waitFor();
}

async function shown(page: Page) {
  const ids = (await readEvents(page)).map(({ id }) => id).sort();
  await page.goto(`${app.url}#/charts/foot-to-side/2`);
  const row = await page.locator('.number-table tr.chosen').textContent();
  await page.goto(`${app.url}#/`);
  const today = await page.locator('.today .agenda').textContent();
  await page.goto(`${app.url}#/charts`);
  await page.locator('.revisions li').first().waitFor();
  const whys = await page.locator('.revisions li > span:last-child').allTextContents();
  return { ids, row, today, whys: whys.map((text) => text.replace(/ Quay Street$/, '')) };
}
