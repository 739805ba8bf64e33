import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  type App,
  answer,
  answerRight,
  beginQuiz,
  type Remembered,
  reachQuestion,
  settled,
  startApp,
  watchErrors,
} from './app.ts';

let app: App;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.close());

describe('a player’s first days', () => {
  it('answers ten cards, closes, opens again and finds the same state and fewer due', async () => {
    const profile = await app.newProfile();
    const page = await app.open(profile);
    const errors = watchErrors(page);
    await page.goto(`${app.url}#/settings`);
    await page.getByLabel('New lines a day').selectOption({ label: '12' });
    await page.goto(`${app.url}#/`);
    const before = await dueCount(page);
    expect(before).toBe(12);
    const remembered: Remembered = new Map();
    await beginQuiz(page, remembered);
    for (let n = 0; n < 10; n++) {
      if (n === 4) await answer(page, '0');
      else await answerRight(page, remembered);
      await page.keyboard.press('Enter');
      expect(await reachQuestion(page, remembered)).toBe('asking');
    }
    const asked = await page.locator('.facts [role=status]').textContent();
    const held = await heldWords(page, app.url);
    await page.context().close();

    const again = await app.open(profile);
    const after = await dueCount(again);
    expect(after).toBe(before - 9);
    expect(await heldWords(again, app.url)).toBe(held);
    await again.getByRole('button', { name: 'Go on' }).click();
    await settled(again);
    expect(await again.locator('.facts [role=status]').textContent()).toBe(asked);
    expect(errors).toEqual([]);
    await again.context().close();
  });

  it('reloads in the middle of a session at the same card, in the same picture', async () => {
    const page = await app.open(await app.newProfile());
    await beginQuiz(page);
    await answer(page, '1.5');
    await page.keyboard.press('Enter');
    await reachQuestion(page);
    const asked = await page.locator('.facts [role=status]').textContent();
    await page.reload();
    await settled(page);
    expect(await page.locator('.facts [role=status]').textContent()).toBe(asked);
    await page.context().close();
  });

  it('is done when everything has been asked, and says so', async () => {
    const page = await app.open(await app.newProfile());
    await page.goto(`${app.url}#/settings`);
    await page.getByLabel('New lines a day').selectOption({ label: '2' });
    await page.goto(`${app.url}#/quiz`);
    const remembered: Remembered = new Map();
    while ((await reachQuestion(page, remembered)) === 'asking') {
      await answerRight(page, remembered);
      await page.keyboard.press('Enter');
    }
    await page.getByRole('heading', { name: 'Nothing left for today' }).waitFor();
    await page.getByRole('button', { name: 'To Today' }).click();
    await page.getByText('Nothing due').waitFor();
    await page.getByText(/^(Tomorrow|In \d+ days): /).waitFor();
    await page.context().close();
  });
});

describe('the number pad', () => {
  it('takes digits, point, erase and show me by touch', async () => {
    const page = await app.open(await app.newProfile());
    await beginQuiz(page);
    const box = page.locator('.answer-box');
    for (const key of ['1', 'decimal point', '7', '5']) {
      await page.getByRole('button', { name: key, exact: true }).click();
    }
    expect(await box.textContent()).toBe('1.75');
    await page.getByRole('button', { name: 'Erase' }).click();
    expect(await box.textContent()).toBe('1.7');
    // A pressed key must not take the focus: Enter answers, it does not press Erase again.
    await page.keyboard.press('Enter');
    await page.locator('main.quiz[data-phase="answered"]').waitFor();
    expect(await page.locator('.verdict').textContent()).toContain('You called 1.7');
    await page.context().close();
  });

  it('shows the number on request, and counts that as not known', async () => {
    const page = await app.open(await app.newProfile());
    await beginQuiz(page);
    await page.getByRole('button', { name: 'Show me' }).click();
    await page.getByRole('heading', { name: 'The number' }).waitFor();
    const events = await readEvents(page);
    expect(events.at(-1)).toMatchObject({ type: 'answered', answer: null, outcome: 'off' });
    await page.context().close();
  });
});

describe('bad input', () => {
  it.each([
    ['', 'Type the number first.'],
    ['9', 'That rail counts from 0 to'],
    ['1..5', 'That is not a number'],
    ['1.2345', 'Three decimals at most'],
  ])('%j gets a sentence, no grade, and nothing is lost', async (text, sentence) => {
    const page = await app.open(await app.newProfile());
    await beginQuiz(page);
    const before = await readEvents(page);
    await page.keyboard.type(text);
    await page.keyboard.press('Enter');
    await page.getByText(sentence).waitFor();
    expect(await page.locator('.answer-box').textContent()).toBe(text);
    expect(await readEvents(page)).toEqual(before);
    await page.context().close();
  });

  it('a full disk: the answer stays on the screen, and is kept once there is room', async () => {
    const page = await app.open(await app.newProfile());
    await beginQuiz(page);
    const before = await readEvents(page);
    await page.evaluate(() => {
      const { add } = IDBObjectStore.prototype;
      Object.assign(window, { makeRoom: () => (IDBObjectStore.prototype.add = add) });
      IDBObjectStore.prototype.add = () => {
        throw new DOMException('no room', 'QuotaExceededError');
      };
    });
    await page.keyboard.type('2.1');
    await page.keyboard.press('Enter');
    await page.getByText('Not saved: the device has no room left.').waitFor();
    expect(await page.locator('.answer-box').textContent()).toBe('2.1');
    expect(await readEvents(page)).toEqual(before);
    await page.evaluate(() => (window as unknown as { makeRoom: () => void }).makeRoom());
    await page.keyboard.press('Enter');
    await page.locator('main.quiz[data-phase="answered"]').waitFor();
    expect(await readEvents(page)).toHaveLength(before.length + 1);
    await page.context().close();
  });
});

describe('taking back', () => {
  it('asks the card again, as if it had not been answered', async () => {
    const page = await app.open(await app.newProfile());
    await beginQuiz(page);
    const asked = await page.locator('.facts [role=status]').textContent();
    await answer(page, '0.7');
    await page.getByRole('button', { name: 'Take back' }).click();
    await page.locator('main.quiz[data-phase="asking"]').waitFor();
    expect(await page.locator('.facts [role=status]').textContent()).toBe(asked);
    const events = await readEvents(page);
    expect(events.at(-1)).toMatchObject({ type: 'taken back' });
    await page.context().close();
  });
});

describe('two tabs', () => {
  it('answering at once keep every answer once, and see each other’s', async () => {
    const profile = await app.newProfile();
    const first = await app.open(profile);
    const second = await first.context().newPage();
    await second.goto(app.url);
    await beginQuiz(first);
    await second
      .getByRole('button', { name: 'Go on' })
      .or(second.getByRole('button', { name: 'Begin' }))
      .click();
    await reachQuestion(second);
    await Promise.all([answer(first, '1.1'), answer(second, '1.2')]);
    const events = await readEvents(first);
    const answers = events.filter((event) => event.type === 'answered');
    expect(answers).toHaveLength(2);
    expect(new Set(events.map((event) => event.id)).size).toBe(events.length);
    await first.goto(`${app.url}#/`);
    await second.goto(`${app.url}#/`);
    await first.getByText('You hold').waitFor();
    expect(await heldWords(first, app.url)).toBe(await heldWords(second, app.url));
    await first.context().close();
  });
});

async function dueCount(page: Page): Promise<number> {
  return Number(await page.locator('.start .big strong').textContent());
}

async function heldWords(page: Page, url: string): Promise<string | null> {
  await page.goto(`${url}#/`);
  return page.locator('.held').textContent();
}

interface StoredEvent {
  readonly id: string;
  readonly type: string;
  readonly seq: number;
}

/** The log as it lies on the disk, by number. */
async function readEvents(page: Page): Promise<StoredEvent[]> {
  const events = await page.evaluate(
    () =>
      new Promise<unknown>((resolve, reject) => {
        const request = indexedDB.open('throughline');
        request.onerror = () => reject(request.error);
        request.onsuccess = () => {
          const all = request.result.transaction('events').objectStore('events').getAll();
          all.onsuccess = () => {
            request.result.close();
            resolve(all.result);
          };
        };
      }),
  );
  return (events as StoredEvent[]).sort((a, b) => a.seq - b.seq);
}
