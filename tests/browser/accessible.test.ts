/** Every screen for everybody: by the rules of WCAG 2.2 that axe-core checks, by Chromium’s own
 * accessibility tree, with the keyboard alone, at 200 % and from right to left. */

import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type App, enlarge, settled, startApp } from './app.ts';
import { ADDRESSES, EVERY_SCREEN, openAs } from './every-screen.ts';
import { expectNothingBeyond, violationsOn } from './everywhere.ts';

let app: App;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.close());

it('every screen of the router is in the list', () => {
  const source = readFileSync('src/app/router.ts', 'utf8');
  const names = [...source.matchAll(/readonly name: '([a-z-]+)'/g)].map(([, name]) => name);
  expect(names.length).toBeGreaterThan(15);
  expect(Object.keys(EVERY_SCREEN).sort()).toEqual(names.sort());
});

/** Goes there and waits until all of it is there. */
async function show(page: Page, address: string): Promise<void> {
  await page.goto(app.url + address);
  await page.locator('main:not([aria-busy]) h1').first().waitFor();
  await page.waitForLoadState('networkidle');
}

describe.each(['light', 'dark'] as const)('in the %s theme', (colorScheme) => {
  it.each([
    ['a phone', 390, 844],
    ['a desktop', 1280, 800],
  ] as const)(
    'no screen breaks a rule on %s',
    async (_name, width, height) => {
      const page = await openAs(app, 'Ann', { width, height, colorScheme });
      const broken: string[] = [];
      for (const address of ADDRESSES) {
        await show(page, address);
        broken.push(...(await violationsOn(page)).map((rule) => `${address} ${rule}`));
      }
      expect(broken).toEqual([]);
      await page.context().close();
    },
    240_000,
  );
});

interface Node {
  readonly ignored: boolean;
  readonly role: string;
  readonly name: string;
  readonly level: unknown;
}

/** Chromium’s accessibility tree, flat: what a screen reader is told. */
async function treeOf(page: Page): Promise<readonly Node[]> {
  const session = await page.context().newCDPSession(page);
  const { nodes } = await session.send('Accessibility.getFullAXTree');
  await session.detach();
  return nodes
    .filter(({ ignored }) => !ignored)
    .map(({ ignored, role, name, properties }) => ({
      ...{ ignored, role: String(role?.value), name: String(name?.value ?? '') },
      level: properties?.find((one) => one.name === 'level')?.value.value,
    }));
}

const NAMED = ['button', 'link', 'textbox', 'checkbox', 'radio', 'combobox', 'slider', 'img'];

describe('a screen reader', () => {
  it('finds one heading of the first level, the landmarks, and a name on all that is used', async () => {
    const page = await openAs(app, 'Ann');
    const missing: string[] = [];
    for (const address of ADDRESSES) {
      await show(page, address);
      const tree = await treeOf(page);
      const count = (role: string) => tree.filter((node) => node.role === role).length;
      const heads = tree.filter(({ role, level }) => role === 'heading' && level === 1).length;
      if (heads !== 1) missing.push(`${address} has ${heads} first headings`);
      if (count('main') !== 1) missing.push(`${address} has ${count('main')} main landmarks`);
      const own = /^#\/(quiz|ear|drills\/)/.test(address);
      if (!own && count('navigation') < 1) missing.push(`${address} has no navigation`);
      for (const { role, name } of tree) {
        if (NAMED.includes(role) && name.trim() === '') missing.push(`${address}: a ${role}`);
      }
    }
    expect(missing).toEqual([]);
    await page.context().close();
  }, 180_000);
});

/** What has the focus: its name, and whether it can be seen that it has it. */
function focusOn(page: Page) {
  return page.evaluate(() => {
    const at = document.activeElement;
    if (!at || at === document.body) return null;
    // A hidden input is shown by its label.
    const seen = [at, at.closest('label'), at.nextElementSibling, at.parentElement];
    const isMarked = seen.some((one) => {
      if (!one) return false;
      const { outlineStyle, outlineWidth, boxShadow } = getComputedStyle(one);
      return (outlineStyle !== 'none' && outlineWidth !== '0px') || boxShadow !== 'none';
    });
    const words = (at.getAttribute('aria-label') ?? at.textContent ?? '').trim().slice(0, 60);
    return { tag: at.localName, words, isMarked };
  });
}

/** Goes on by the tabulator until something has the focus that is called so. */
async function tabTo(page: Page, words: RegExp): Promise<void> {
  for (let n = 0; n < 80; n++) {
    await page.keyboard.press('Tab');
    const at = await focusOn(page);
    if (at && words.test(at.words)) {
      expect(at.isMarked, `${at.words} shows its focus`).toBe(true);
      return;
    }
  }
  throw new Error(`no way to ${words}`);
}

/** From the first to the last that takes the focus: none holds it, each shows it. */
async function walk(page: Page): Promise<number> {
  await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
  const unmarked: string[] = [];
  for (let stops = 0; stops < 400; stops++) {
    await page.keyboard.press('Tab');
    const at = await focusOn(page);
    const again = await page.evaluate(() => {
      const one = document.activeElement;
      const seen = one?.hasAttribute('data-walked') ?? false;
      one?.setAttribute('data-walked', '');
      return seen;
    });
    if (at === null || again) {
      expect(unmarked).toEqual([]);
      return stops;
    }
    if (!at.isMarked) unmarked.push(`${at.tag} ${at.words}`);
  }
  throw new Error('the focus does not come out');
}

describe('the keyboard alone', () => {
  it('goes from Today through an answer and back, and the focus arrives on each heading', async () => {
    const page = await app.open();
    await page.getByRole('button', { name: 'Begin' }).waitFor();
    await tabTo(page, /^Begin$/);
    await page.keyboard.press('Enter');
    await page.locator('main.quiz').waitFor();
    for (let phase = await settled(page); phase === 'meeting'; phase = await settled(page)) {
      const shown = await page.locator('.verdict').textContent();
      await page.keyboard.press('Enter');
      await page.waitForFunction(
        (before) => document.querySelector('.verdict')?.textContent !== before,
        shown,
      );
    }
    // A comma is as good as a point.
    await page.keyboard.type('2,5');
    await page.keyboard.press('Enter');
    await page.locator('main.quiz[data-phase="answered"]').waitFor();
    const told = await page.locator('[role="status"]').allTextContents();
    expect(told.join(' ')).toMatch(/2\.5/);
    expect((await treeOf(page)).some(({ role }) => role === 'status')).toBe(true);
    await tabTo(page, /^Stop$/);
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { level: 1, name: 'Today' }).waitFor();
    await page.waitForFunction(() => document.activeElement?.localName === 'h1');
    await tabTo(page, /^Settings$/);
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { level: 1, name: 'Settings' }).waitFor();
    await page.waitForFunction(() => document.activeElement?.textContent === 'Settings');
    await page.context().close();
  });

  it.each([
    ['Settings', '#/settings', 15],
    ['Receive', '#/receive', 6],
    ['the editor', '#/edit/cross-side', 25],
    ['Today', '#/', 10],
    ['Drills', '#/drills', 10],
  ] as const)(
    'is not held by anything on %s, and seen on everything',
    async (_, address, least) => {
      const page = await app.open();
      await show(page, address);
      // From the top, and not from the heading that the focus arrived on.
      await page.reload();
      await page.locator('main:not([aria-busy]) h1').first().waitFor();
      expect(await walk(page)).toBeGreaterThanOrEqual(least);
      await page.context().close();
    },
  );
});

/** What is wider than its box and hidden there. */
function cutOn(page: Page): Promise<string[]> {
  return page.evaluate(() =>
    [...document.querySelectorAll<HTMLElement>('#app *')]
      .filter((one) => {
        const { overflowX } = getComputedStyle(one);
        const isCut = overflowX === 'hidden' || overflowX === 'clip';
        const isSeen = one.clientWidth > 1 && !one.matches('.visually-hidden');
        return isCut && isSeen && one.scrollWidth > one.clientWidth + 1;
      })
      .map((one) => `${one.localName}.${one.className} ${one.textContent?.slice(0, 40)}`),
  );
}

describe('every screen', () => {
  it('at 200 % on a phone is no wider than the phone, and cuts nothing', async () => {
    const page = await openAs(app, 'Ann');
    await enlarge(page, 32);
    const wrong: string[] = [];
    for (const address of ADDRESSES) {
      await show(page, address);
      await expectNothingBeyond(page).catch((error: Error) =>
        wrong.push(`${address} ${error.message}`),
      );
      // Print shows paper, made smaller as a whole.
      if (!address.startsWith('#/print')) {
        wrong.push(...(await cutOn(page)).map((one) => `${address} cuts ${one}`));
      }
    }
    expect(wrong).toEqual([]);
    await page.context().close();
  }, 180_000);

  it('from right to left fits as well, with figures and numbers from left to right', async () => {
    const page = await openAs(app, 'Ann');
    await page.addInitScript(() => {
      document.addEventListener('DOMContentLoaded', () => {
        document.documentElement.dir = 'rtl';
      });
    });
    await page.reload();
    const wrong: string[] = [];
    let drawn = 0;
    for (const address of ADDRESSES) {
      await show(page, address);
      await expectNothingBeyond(page).catch((error: Error) =>
        wrong.push(`${address} ${error.message}`),
      );
      const turned = await page.evaluate(() => {
        const numbers = [...document.querySelectorAll('svg, input[inputmode="decimal"]')];
        return {
          count: numbers.length,
          turned: numbers.filter((one) => getComputedStyle(one).direction === 'rtl').length,
        };
      });
      drawn += turned.count;
      if (turned.turned > 0) wrong.push(`${address} turns ${turned.turned} figures`);
    }
    expect(wrong).toEqual([]);
    expect(drawn).toBeGreaterThan(20);
    await page.context().close();
  }, 180_000);
});
