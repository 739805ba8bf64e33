import { readFile } from 'node:fs/promises';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { cardsOf } from '../../src/cards/index.ts';
import { computeChart, HARBOUR_LANE, toDecimal } from '../../src/charts/index.ts';
import type { Answered } from '../../src/scheduler/index.ts';
import { parseBackup } from '../../src/store/index.ts';
import { type App, answer, beginQuiz, startApp, watchErrors } from './app.ts';
import { BLANK, readDatabase, writeVersion1 } from './database.ts';
import { readEvents } from './events.ts';

const OLD = 2500;

let app: App;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.close());

describe('a long log that an older app wrote', () => {
  it('opens, is sealed while the page is idle, and stays as it was', async () => {
    const older = await app.open({ fragment: BLANK });
    await writeVersion1(older, {
      events: oldAnswers().map((event) => [event.id, event]),
      documents: [['device', { id: 'older', next: OLD }]],
    });
    const page = await older.context().newPage();
    await page.goto(app.url);
    // The older tab does not give way.
    await page.getByText('Another tab still has an older Throughline open').waitFor();
    await older.close();
    const errors = watchErrors(page);
    await page.reload();

    const before = await today(page);
    expect(before.held).not.toMatch(/^0 /);
    await expect.poll(() => countsOnDisk(page)).toEqual({ recent: 0, sealed: OLD });
    await page.reload();
    expect(await today(page)).toEqual(before);

    await beginQuiz(page);
    await answer(page, '2.5');
    expect((await readEvents(page)).filter(({ type }) => type === 'answered')).toHaveLength(1);

    await page.goto(`${app.url}#/settings`);
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Save a backup' }).click(),
    ]);
    const backup = parseBackup(await readFile(await download.path(), 'utf8'));
    if (!backup.ok) throw new Error(backup.say);
    const ids = new Set(backup.backup.events.map(({ id }) => id));
    expect(oldAnswers().every(({ id }) => ids.has(id))).toBe(true);
    expect(backup.backup.events.length).toBeGreaterThan(OLD);
    expect(errors).toEqual([]);
    await page.context().close();
  });
});

/** What Today says, once it says it. */
async function today(page: Page) {
  const held = (await page.locator('.held-total').textContent()) ?? '';
  return { held, agenda: await page.locator('.agenda').textContent() };
}

/** Of the demo's numbers, in turn; the last ones a month ago. */
function oldAnswers(): readonly Answered[] {
  const cards = cardsOf(computeChart(HARBOUR_LANE), toDecimal(0.1));
  const numbers = cards.filter(({ kind }) => kind === 'number').slice(0, 25);
  const last = Math.floor(Date.now() / 86_400_000) - 30;
  return Array.from({ length: OLD }, (_, seq) => {
    const day = last - 99 + Math.floor(seq / 25);
    return {
      version: 1,
      type: 'answered',
      id: `older:${seq}`,
      device: 'older',
      seq,
      day,
      at: day * 86_400_000 + 43_200_000 + seq,
      card: numbers[seq % 25]?.id ?? '',
      kind: 'number',
      answer: [2],
      errors: [0],
      outcome: 'pocketed',
      ms: 2000,
    };
  });
}

/** How many old answers are records of their own, and how many are in chunks. */
async function countsOnDisk(page: Page) {
  const { events = [], sealed = [] } = (await readDatabase(page)) ?? {};
  return {
    recent: events.filter(([key]) => String(key).startsWith('older:')).length,
    sealed: sealed.flatMap(([, chunk]) => chunk as readonly unknown[]).length,
  };
}
