import { readFile } from 'node:fs/promises';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { isLineCard } from '../../src/cards/index.ts';
import { parseBackup } from '../../src/store/index.ts';
import { type App, answer, beginQuiz, startApp, watchErrors } from './app.ts';
import { BLANK, deleteDatabase } from './database.ts';
import { readType } from './events.ts';
import { violationsOn } from './everywhere.ts';
import { playerWho } from './seed.ts';

let app: App;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.close());

describe('a database that was emptied', () => {
  it('is told from a new device, and a backup brings the answers back', async () => {
    const page = await answered(2);
    await page.goto(`${app.url}#/settings`);
    const file = await saveBackup(page);
    await page.getByText('The last backup was saved less than a day ago.').waitFor();
    await empty(page);
    await page.goto(app.url);
    const notice = page.getByRole('region', { name: 'Answers are missing' });
    await notice.getByText(/\d+ answers were on this device and are gone/).waitFor();
    const errors = watchErrors(page);
    expect(await violationsOn(page)).toEqual([]);
    expect(await readType(page, 'answered')).toEqual([]);

    await notice.locator('input[type=file]').setInputFiles({
      name: 'other.json',
      mimeType: 'application/json',
      buffer: Buffer.from('{}'),
    });
    await notice.getByText('That file is not a Throughline backup.').waitFor();
    await notice.locator('input[type=file]').setInputFiles(file);
    await notice.waitFor({ state: 'detached' });
    expect(await readType(page, 'answered')).toHaveLength(2);
    await page.reload();
    await page.locator('.agenda').waitFor();
    expect(await notice.count()).toBe(0);
    expect(errors).toEqual([]);
    await page.context().close();
  });

  it('may be left behind; then it is not spoken of again', async () => {
    const page = await answered(1);
    await page.goto(`${app.url}#/settings`);
    await page.getByText('No backup was saved on this device yet.').waitFor();
    await empty(page);
    await page.goto(app.url);
    const notice = page.getByRole('region', { name: 'Answers are missing' });
    // Answering on does not hide it.
    await beginQuiz(page);
    await answer(page, '1.1');
    await page.goto(app.url);
    await notice.getByRole('button', { name: 'Begin afresh' }).click();
    await notice.waitFor({ state: 'detached' });
    await page.reload();
    await page.locator('.agenda').waitFor();
    await page.goto(`${app.url}#/settings`);
    await page.getByText('No backup was saved on this device yet.').waitFor();
    expect(await notice.count()).toBe(0);
    await page.context().close();
  });
});

describe('little room', () => {
  it('is told, answers are kept, and a backup is one press away', async () => {
    const page = await app.open();
    await page.addInitScript(() => {
      navigator.storage.estimate = async () => ({ usage: 90_000_000, quota: 100_000_000 });
    });
    await page.reload();
    const notice = page.getByRole('region', { name: 'Little room is left' });
    await notice.getByText('about 10 MB').waitFor();
    expect(await violationsOn(page)).toEqual([]);
    await beginQuiz(page);
    await answer(page, '1.1');
    await page.goto(`${app.url}#/`);
    const backup = parseBackup(await readFile(await saveBackup(page), 'utf8'));
    expect(backup.ok && backup.backup.events.some(({ type }) => type === 'answered')).toBe(true);
    await page.context().close();
  });
});

describe('the browser’s promise', () => {
  it('is asked for by a press alone, and shown', async () => {
    const page = await app.open({ fragment: '#/settings' });
    await promising(page, true);
    await page.getByText('which has not promised to keep them').waitFor();
    await page.getByText(/^The app and its data use .* of the .* that the browser gives/).waitFor();
    expect(await timesAsked(page)).toBe(0);
    await page.getByRole('button', { name: 'Ask the browser to keep them' }).click();
    await page.getByText('which has promised to keep them').waitFor();
    expect(await timesAsked(page)).toBe(1);
    await page.context().close();
  });

  it('is offered once after the first session; a refusal is told in words', async () => {
    const page = await answered(9);
    await page.goto(`${app.url}#/`);
    await promising(page, false);
    const notice = page.getByRole('region', { name: 'Keep your answers' });
    await notice.waitFor();
    expect(await violationsOn(page)).toEqual([]);
    expect(await timesAsked(page)).toBe(0);
    await notice.getByRole('button', { name: 'Ask it to keep them' }).click();
    await notice.getByText('Your browser declined.').waitFor();
    await notice.getByRole('button', { name: 'Understood' }).click();
    await notice.waitFor({ state: 'detached' });
    await page.reload();
    await page.locator('.agenda').waitFor();
    await page.goto(`${app.url}#/settings`);
    await page.getByText('which has not promised to keep them').waitFor();
    expect(await notice.count()).toBe(0);
    await page.context().close();
  });
});

/** Today's page of a player who has met so many lines and has been asked each. */
async function answered(times: number): Promise<Page> {
  const player = await playerWho(async (model) => {
    const numbers = model.cards.value.filter(isLineCard).filter(({ kind }) => kind === 'number');
    const when = { day: model.today(), at: model.now() };
    for (const { id, lineId } of numbers.slice(0, times)) {
      await model.append({ type: 'met', line: lineId, ...when });
      await model.append({
        type: 'answered',
        card: id,
        kind: 'number',
        answer: null,
        errors: null,
        outcome: 'off',
        ms: 3000,
        ...when,
      });
    }
  });
  const page = await app.open({ player });
  await page.locator('.agenda').waitFor();
  // The mark is made by what is fetched beside the screen.
  await page.waitForFunction(() => localStorage.getItem('throughline-kept') !== null);
  return page;
}

/** A browser that promises to keep the data, or does not. */
async function promising(page: Page, promises: boolean): Promise<void> {
  await page.addInitScript((will) => {
    let kept = false;
    Object.assign(window, { asked: 0 });
    navigator.storage.persisted = async () => kept;
    navigator.storage.persist = async () => {
      (window as unknown as { asked: number }).asked += 1;
      kept = will;
      return will;
    };
  }, promises);
  await page.reload();
}

function timesAsked(page: Page): Promise<number> {
  return page.evaluate(() => (window as unknown as { asked: number }).asked);
}

async function saveBackup(page: Page): Promise<string> {
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Save a backup' }).first().click(),
  ]);
  return download.path();
}

async function empty(page: Page): Promise<void> {
  await page.goto(app.url + BLANK);
  await deleteDatabase(page);
}
