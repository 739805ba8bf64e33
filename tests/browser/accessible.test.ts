import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type App, answer, beginQuiz, settled, startApp, watchErrors } from './app.ts';
import { ADDRESSES, EVERY_SCREEN, goTo, openAs } from './every-screen.ts';
import { everywhere, type Law } from './everywhere.ts';

let app: App;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.close());

it('every screen of the router is in the list', () => {
  const source = readFileSync('src/app/router.ts', 'utf8');
  const names = [...source.matchAll(/(?:readonly name: |^ {2})'([a-z-]+)'/gm)].map(
    ([, name]) => name,
  );
  expect(names.length).toBeGreaterThan(15);
  expect(Object.keys(EVERY_SCREEN).sort()).toEqual(names.sort());
});

/**
 * What is wider than its box and hidden there. Print shows paper, made smaller as a whole; what a
 * file's field says is the browser's.
 */
const nothingIsCut: Law = (page) =>
  page.evaluate(() =>
    [...document.querySelectorAll<HTMLElement>('#app *')]
      .filter((one) => {
        const { overflowX } = getComputedStyle(one);
        const isCut = overflowX === 'hidden' || overflowX === 'clip';
        const isSeen = one.clientWidth > 1 && !one.matches('.visually-hidden');
        const isOurs = !one.closest('.print-page, .preview') && !one.matches('input[type=file]');
        return isCut && isSeen && isOurs && one.scrollWidth > one.clientWidth + 1;
      })
      .map((one) => `cuts ${one.localName}.${one.className} ${one.textContent?.slice(0, 40)}`),
  );

/** Figures and numbers run from left to right, whatever the words do. */
const nothingIsTurned: Law = (page) =>
  page.evaluate(() =>
    [...document.querySelectorAll('svg, input[inputmode="decimal"]')]
      .filter((one) => getComputedStyle(one).direction === 'rtl')
      .map((one) => `turns ${one.localName} ${one.getAttribute('aria-label')}`),
  );

describe('every screen, in every theme and size', () => {
  let page: Page;
  let errors: string[];
  beforeAll(async () => {
    page = await openAs(app, 'Ann');
    errors = watchErrors(page);
  });
  afterAll(() => page.context().close());

  it.each(ADDRESSES)(
    '%s breaks no rule, is no wider than the screen, cuts and turns nothing',
    async (address) => {
      await goTo(page, app.url + address);
      await everywhere(page, nothingIsCut, nothingIsTurned);
      expect(errors).toEqual([]);
    },
  );

  it('figures are drawn on them', async () => {
    let drawn = 0;
    for (const address of [
      '#/charts/cross-side',
      '#/memory',
      '#/print/cross-side',
      '#/edit/cross-side',
    ]) {
      await goTo(page, app.url + address);
      drawn += await page.locator('svg, input[inputmode="decimal"]').count();
    }
    expect(drawn).toBeGreaterThan(20);
  });
});

/** As somebody sees them who has done nothing yet. */
const OF_A_NEW_PLAYER = [
  ['Today', '', 'Today'],
  ['Charts', '#/charts', 'Charts'],
  ['a pattern', '#/charts/cross-side', 'Cross-side'],
  ['Drills', '#/drills', 'Drills'],
  ['Rehearsal', '#/rehearsal', 'Rehearsal'],
  ['By ear', '#/ear', 'No line met yet'],
  ['Look up', '#/look-up', 'Look up'],
  ['Placement', '#/placement', 'Placement'],
  ['Print', '#/print/cross-side', 'Print'],
  ['Settings', '#/settings', 'Settings'],
] as const;

describe('a new player, in every theme and size', () => {
  let page: Page;
  beforeAll(async () => {
    page = await app.open({ firstVisit: true });
  });
  afterAll(() => page.context().close());

  it.each(OF_A_NEW_PLAYER)(
    '%s has its heading, no errors, nothing beyond the edge, nothing inaccessible',
    async (_screen, fragment, heading) => {
      const errors = watchErrors(page);
      await goTo(page, app.url + fragment);
      await page.getByRole('heading', { level: 1, name: heading }).waitFor();
      await everywhere(page);
      expect(errors).toEqual([]);
    },
  );

  it('every state of the quiz is sound, fits its screen, and nothing lies on anything', async () => {
    const errors = watchErrors(page);
    await page.goto(app.url);
    await page.getByRole('button', { name: 'Begin' }).click();
    expect(await settled(page)).toBe('meeting');
    await everywhere(page);
    await page.goto(app.url);
    await beginQuiz(page);
    await everywhere(
      page,
      nothingScrolls,
      apart('.stage .table-figure', '.stage .facts', '.controls'),
    );
    await page.keyboard.press('Enter');
    await page.getByText('Type the number first, or point at the rail.').waitFor();
    await everywhere(page);
    await answer(page, '1.1');
    await everywhere(page, nothingScrolls, apart('.stage .table-figure', '.controls'));
    expect(errors).toEqual([]);
  });
});

/** Parts of a screen do not overlap, and none has shrunk to nothing. */
function apart(...parts: readonly string[]): Law {
  return async (page) => {
    const boxes = await Promise.all(parts.map((part) => page.locator(part).boundingBox()));
    return boxes.flatMap((a, n) => {
      if (!a) return [`${parts[n]} is not there`];
      const small = a.height > 100 ? [] : [`${parts[n]} is ${a.height} px high`];
      const over = boxes.slice(n + 1).flatMap((b) => {
        if (!b) return [];
        const beside = a.x + a.width <= b.x + 1 || b.x + b.width <= a.x + 1;
        const above = a.y + a.height <= b.y + 1 || b.y + b.height <= a.y + 1;
        return beside || above ? [] : [`${parts[n]} and another overlap`];
      });
      return [...small, ...over];
    });
  };
}

/**
 * The pad and the table are in the thumb's reach without scrolling, with text of the usual size on
 * a phone that is held upright and on a desktop.
 */
const nothingScrolls: Law = (page) =>
  page.evaluate(() => {
    const { innerWidth: width, innerHeight: height } = window;
    const usual = getComputedStyle(document.documentElement).fontSize === '16px';
    if (!usual || height < 800) return [];
    const beyond = document.documentElement.scrollHeight - height;
    const lowest = document.querySelector('.controls')?.getBoundingClientRect().bottom ?? Infinity;
    return [
      ...(beyond > 0 ? [`${beyond} px lie below a screen of ${width} × ${height}`] : []),
      ...(lowest > height ? ['the controls are not within reach'] : []),
    ];
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
      await goTo(page, app.url + address);
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
      await goTo(page, app.url + address);
      // From the top, and not from the heading that the focus arrived on.
      await page.reload();
      await page.locator('main:not([aria-busy]) h1').first().waitFor();
      expect(await walk(page)).toBeGreaterThanOrEqual(least);
      await page.context().close();
    },
  );
});
