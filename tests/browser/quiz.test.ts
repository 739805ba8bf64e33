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
import { readEvents } from './events.ts';
import { violationsOn } from './everywhere.ts';
import { firstNumbers, learnWell, type Player, playerWho, playerWith } from './seed.ts';

let app: App;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.close());

describe('a player’s first days', () => {
  it('answers ten cards, closes, opens again and finds the same state and fewer questions', async () => {
    const profile = await app.newProfile();
    const player = await playerWith({ newLinesADay: 12 });
    const page = await app.openOnDisk(profile, { player });
    const errors = watchErrors(page);
    // Each of the twelve lines is shown and asked.
    await page.locator('.agenda .big strong', { hasText: '24' }).waitFor();
    const remembered: Remembered = new Map();
    await beginQuiz(page, remembered);
    for (let n = 0; n < 10; n++) {
      if (n === 4) await answer(page, '0');
      else await answerRight(page, remembered);
      await page.keyboard.press('Enter');
      expect(await reachQuestion(page, remembered)).toBe('asking');
    }
    const asked = await page.locator('.facts [role=status]').textContent();
    const steps = (await readEvents(page)).length;
    const held = await heldWords(page, app.url);
    await page.context().close();

    const again = await app.openOnDisk(profile);
    // The miss takes one more.
    await again.locator('.agenda .big strong', { hasText: String(24 + 1 - steps) }).waitFor();
    expect(await heldWords(again, app.url)).toBe(held);
    await again.getByRole('button', { name: 'Continue' }).click();
    await settled(again);
    expect(await again.locator('.facts [role=status]').textContent()).toBe(asked);
    expect(errors).toEqual([]);
    await again.context().close();
  });

  it('reloads in the middle of a session at the same card, in the same picture', async () => {
    const page = await asking();
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
    const player = await playerWith({ newLinesADay: 2 });
    const page = await app.open({ player });
    await page.locator('.agenda .big strong', { hasText: '4' }).waitFor();
    await page.goto(`${app.url}#/quiz`);
    const remembered: Remembered = new Map();
    while ((await reachQuestion(page, remembered)) === 'asking') {
      await answerRight(page, remembered);
      await page.keyboard.press('Enter');
    }
    await page.getByRole('heading', { name: 'Nothing left for today' }).waitFor();
    expect(await violationsOn(page)).toEqual([]);
    await page.getByText(/^2 answers today: 2 (pocketed|dead center)\.$/).waitFor();
    await page.getByRole('button', { name: 'To Today' }).click();
    await page.locator('.agenda .big', { hasText: 'Nothing left for today' }).waitFor();
    // At least both lines again, and two new ones that are shown and asked.
    const words = await page.getByText(/^Tomorrow: about \d+ questions\.$/).textContent();
    expect(Number(/\d+/.exec(words ?? '')?.[0])).toBeGreaterThanOrEqual(6);
    await page.context().close();
  });
});

describe('a window', () => {
  it('is asked on a later day, in two signed fields by the pad, and drawn at its speed', async () => {
    const page = await app.open({ player: await playerOfNumbers() });
    const errors = watchErrors(page);
    await page.getByRole('button', { name: 'Begin' }).click();
    await settled(page);
    expect(await page.locator('.answer-box').count()).toBe(2);
    expect(await violationsOn(page)).toEqual([]);
    const press = async (...keys: string[]) => {
      for (const name of keys) await page.getByRole('button', { name, exact: true }).click();
    };
    await press('0', 'decimal point', '1', 'change the sign', 'Then firm');
    await press('3', 'Call it');
    await page.locator('main.quiz[data-phase="answered"]').waitFor();
    const events = await readEvents(page);
    expect(events.at(-1)).toMatchObject({ kind: 'window', answer: [-0.1, 3], outcome: 'off' });
    await page.getByText('line at firm').waitFor();
    await page.getByText(/You called .*firm \+3\.0 \([\d.]+ high\)/).waitFor();
    expect(await violationsOn(page)).toEqual([]);
    expect(errors).toEqual([]);
    await page.context().close();
  });
});

describe('the number pad', () => {
  it('takes digits, point, erase and show me by touch', async () => {
    const page = await asking();
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
    const page = await asking();
    await page.getByRole('button', { name: 'Show me' }).click();
    await page.getByRole('heading', { name: 'The number' }).waitFor();
    const events = await readEvents(page);
    expect(events.at(-1)).toMatchObject({ type: 'answered', answer: null, outcome: 'off' });
    await page.context().close();
  });
});

describe('bad input', () => {
  let page: Page;
  beforeAll(async () => {
    page = await asking();
  });
  afterAll(() => page.context().close());

  it.each([
    ['', 'Type the number first, or point at the rail.'],
    ['9', 'That rail counts from 0 to'],
    ['1..5', 'That is not a number'],
    ['1.2345', 'Three decimals at most'],
  ])('%j gets a sentence, no grade, and nothing is lost', async (text, sentence) => {
    // As if nothing had been typed before.
    await page.reload();
    await atQuestion(page);
    const before = await readEvents(page);
    await page.keyboard.type(text);
    await page.keyboard.press('Enter');
    await page.getByText(sentence).waitFor();
    expect(await page.locator('.answer-box').textContent()).toBe(text);
    expect(await readEvents(page)).toEqual(before);
  });

  it('a full disk: the answer stays on the screen, and is kept once there is room', async () => {
    await page.reload();
    await atQuestion(page);
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
  });
});

describe('taking back', () => {
  it('asks the card again, as if it had not been answered', async () => {
    const page = await asking();
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
  it('answering at once keep every answer once, and come to the same state', async () => {
    const { first, second } = await twoTabs();
    for (let n = 0; n < 4; n++) {
      await Promise.all([first, second].map((page) => tryToAnswer(page)));
    }
    const events = await readEvents(first);
    expect(new Set(events.map((event) => event.id)).size).toBe(events.length);
    expect(events.filter((event) => event.type === 'answered').length).toBeGreaterThanOrEqual(4);
    expect(await heldWords(first, app.url)).toBe(await heldWords(second, app.url));
    await first.context().close();
  });

  it('do not ask twice for what the other has just answered', async () => {
    const { first, second } = await twoTabs();
    const asked = await second.locator('.facts [role=status]').textContent();
    expect(asked).toBe(await first.locator('.facts [role=status]').textContent());
    await first.bringToFront();
    await answer(first, '1.1');
    await second.bringToFront();
    await second.keyboard.type('1.2');
    await second.keyboard.press('Enter');
    await second.getByText('answered in another tab').waitFor();
    expect((await readEvents(first)).filter((event) => event.type === 'answered')).toHaveLength(1);
    await first.context().close();
  });

  it('leave what is typed in one alone when a setting changes in the other', async () => {
    const { first, second } = await twoTabs();
    await first.bringToFront();
    await first.keyboard.type('1.3');
    await second.bringToFront();
    await second.goto(`${app.url}#/settings`);
    await second.getByLabel('Theme').selectOption({ label: 'dark' });
    await first.bringToFront();
    await first.locator('html[data-theme="dark"]').waitFor();
    expect(await first.locator('.answer-box').textContent()).toBe('1.3');
    await first.context().close();
  });
});

describe('the keyboard', () => {
  it('answers once for a key that is held, so that the result is seen', async () => {
    const page = await asking();
    await page.keyboard.type('1.1');
    await page.keyboard.down('Enter');
    for (let n = 0; n < 10; n++) await page.keyboard.down('Enter');
    await page.keyboard.up('Enter');
    await page.locator('main.quiz[data-phase="answered"]').waitFor();
    await page.context().close();
  });

  it('answers with Enter after the answer’s box was clicked', async () => {
    const page = await asking();
    await page.keyboard.type('0.8');
    await page.locator('.answer-box').click();
    await page.keyboard.press('Enter');
    await page.locator('main.quiz[data-phase="answered"]').waitFor();
    await page.context().close();
  });

  it('answers with Enter after an answer was taken back by a click', async () => {
    const page = await asking();
    for (let n = 0; n < 2; n++) {
      await answer(page, '1.1');
      await page.keyboard.press('Enter');
      await reachQuestion(page);
    }
    await page.getByRole('button', { name: 'Take back' }).click();
    await settled(page);
    await answer(page, '1.4');
    const taken = (await readEvents(page)).filter((event) => event.type === 'taken back');
    expect(taken).toHaveLength(1);
    await page.context().close();
  });
});

/** A page at its first question: lines are asked without being looked at before. */
async function asking(): Promise<Page> {
  const player = await playerWith({ meetFirst: false });
  const page = await app.open({ player, fragment: '#/quiz' });
  await atQuestion(page);
  return page;
}

async function atQuestion(page: Page): Promise<void> {
  await page.locator('main.quiz[data-phase="asking"]').waitFor();
}

/** One who knows the numbers of two lines so well that their windows come first, and no others. */
function playerOfNumbers(): Promise<Player> {
  return playerWho(async (model) => {
    await model.changeSettings({ newLinesADay: 0, kinds: ['number', 'window'] });
    await learnWell(model, firstNumbers(model, 2));
  });
}

async function twoTabs(): Promise<{ first: Page; second: Page }> {
  const first = await asking();
  const second = await app.open({ of: first.context(), fragment: '#/quiz' });
  await atQuestion(second);
  return { first, second };
}

/** Answers and goes on, whatever the other tab has done meanwhile. */
async function tryToAnswer(page: Page): Promise<void> {
  await page.keyboard.type('1.1');
  await page.keyboard.press('Enter');
  await settled(page);
  if ((await page.locator('main.quiz').getAttribute('data-phase')) === 'answered') {
    await page.keyboard.press('Enter');
  }
  await reachQuestion(page);
  while ((await page.locator('.answer-box').first().textContent()) !== '') {
    await page.keyboard.press('Backspace');
  }
}

async function heldWords(page: Page, url: string): Promise<string | null> {
  await page.goto(`${url}#/`);
  return page.locator('.held').textContent();
}
