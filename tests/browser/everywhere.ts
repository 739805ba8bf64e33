/**
 * A screen as it stands, looked at in every theme and size that is promised: switched in place, so
 * that the way to the screen is gone once. `THROUGHLINE_EVERYWHERE=1` tries each with each.
 */

import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';
import { expect } from 'vitest';

/** axe-core: the rules of WCAG 2.2 A and AA that a program can check. */
const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

export type Theme = 'light' | 'dark';

interface View {
  readonly width: number;
  readonly height: number;
  readonly theme: Theme;
  /** Of the root, px: 32 is 200 % (WCAG 2.2, 1.4.4). */
  readonly text: 16 | 32;
  readonly direction: 'ltr' | 'rtl';
  /** What axe is asked. The other theme has the same markup: it differs in its colors. */
  readonly rules: 'all' | 'contrast' | 'none';
}

const PLAIN = { theme: 'light', text: 16, direction: 'ltr', rules: 'none' } as const;
const PHONE = { ...PLAIN, width: 390, height: 844 };
const DESKTOP = { ...PLAIN, width: 1280, height: 800 };
const SMALL = { ...PLAIN, width: 320, height: 640 };
const ON_ITS_SIDE = { ...PLAIN, width: 844, height: 390 };

const VIEWS: readonly View[] = [
  { ...PHONE, rules: 'all' },
  { ...PHONE, theme: 'dark', rules: 'contrast' },
  { ...PHONE, text: 32 },
  { ...PHONE, direction: 'rtl' },
  SMALL,
  ON_ITS_SIDE,
  { ...DESKTOP, text: 32 },
  { ...DESKTOP, theme: 'dark', rules: 'contrast' },
  { ...DESKTOP, rules: 'all' },
];

const EACH_WITH_EACH: readonly View[] = [
  ...[PHONE, SMALL, ON_ITS_SIDE, DESKTOP].map((size) => ({ ...size, text: 16 as const })),
  // Larger letters where they are promised: not on the smallest phone, nor on one on its side.
  ...[PHONE, DESKTOP].map((size) => ({ ...size, text: 32 as const })),
].flatMap((size) =>
  (['light', 'dark'] as const).flatMap((theme) =>
    (['ltr', 'rtl'] as const).map((direction): View => {
      // axe looks at markup and colors: larger letters and the other direction change neither.
      const isPlain = size.text === 16 && direction === 'ltr';
      const rules = !isPlain ? 'none' : theme === 'light' ? 'all' : 'contrast';
      return { ...size, theme, direction, rules };
    }),
  ),
);

const views = process.env.THROUGHLINE_EVERYWHERE ? EACH_WITH_EACH : VIEWS;

/** What else has to hold in each: a line per fault. */
export type Law = (page: Page) => Promise<readonly string[]>;

/** Fails with a line per fault, each with the view it was seen in. Leaves the page as it was. */
export async function everywhere(page: Page, ...laws: readonly Law[]): Promise<void> {
  const faults = await faultsEverywhere(page, ...laws);
  expect(faults, faults.join('\n')).toEqual([]);
}

/** The same, as a list. */
export async function faultsEverywhere(page: Page, ...laws: readonly Law[]): Promise<string[]> {
  const before = await viewOf(page);
  const faults: string[] = [];
  for (const view of views) {
    await show(page, view);
    const { width, height, theme, text, direction, rules } = view;
    const found = [
      ...(await beyondEdge(page)),
      ...(rules === 'none' ? [] : await violationsOn(page, rules)),
      ...(await Promise.all(laws.map((law) => law(page)))).flat(),
    ];
    const where = `${width} × ${height}, ${theme}, ${direction}, text ${text} px`;
    faults.push(...found.map((fault) => `${where}: ${fault}`));
  }
  await show(page, before);
  return faults;
}

/** In the size and theme that the page has, alone. */
export async function expectSound(page: Page, ...laws: readonly Law[]): Promise<void> {
  const broken = await Promise.all(laws.map((law) => law(page)));
  const rules = await violationsOn(page);
  const faults = [...(await beyondEdge(page)), ...rules, ...broken.flat()];
  expect(faults, faults.join('\n')).toEqual([]);
}

type Shown = Omit<View, 'rules' | 'text'> & { readonly text: number | null };

async function viewOf(page: Page): Promise<Shown> {
  const size = page.viewportSize();
  if (!size) throw new Error('the page has no size of its own');
  const rest = await page.evaluate(() => ({
    theme: matchMedia('(prefers-color-scheme: dark)').matches ? ('dark' as const) : 'light',
    text: Number.parseFloat(document.documentElement.style.fontSize) || null,
    direction: document.documentElement.dir === 'rtl' ? ('rtl' as const) : 'ltr',
  }));
  return { ...size, ...rest } as Shown;
}

async function show(page: Page, { width, height, theme, text, direction }: Shown): Promise<void> {
  await page.setViewportSize({ width, height });
  await page.emulateMedia({ colorScheme: theme });
  await page.evaluate(
    async ([size, dir]) => {
      const { documentElement: root } = document;
      if (size === null || size === 16) root.style.removeProperty('font-size');
      else root.style.fontSize = `${size}px`;
      if (dir === 'rtl') root.dir = dir;
      else root.removeAttribute('dir');
      const frame = () => new Promise((done) => requestAnimationFrame(done));
      await frame();
      await frame();
      // Colors that are on their way are neither the old ones nor the new ones.
      const passing = document.getAnimations().filter(({ effect }) => {
        const { endTime } = effect?.getComputedTiming() ?? {};
        return typeof endTime === 'number' && endTime < 1000;
      });
      await Promise.allSettled(passing.map(({ finished }) => finished));
    },
    [text, direction] as const,
  );
}

/** What is inaccessible on the page as it stands, a line per rule. */
export async function violationsOn(
  page: Page,
  rules: 'all' | 'contrast' = 'all',
): Promise<string[]> {
  if (!(await page.evaluate('"axe" in window'))) await page.evaluate(AXE);
  return page.evaluate(async (only) => {
    interface Found {
      readonly violations: readonly { id: string; nodes: { html: string }[] }[];
    }
    const { axe } = window as unknown as { axe: { run: (options: object) => Promise<Found> } };
    const { violations: found } = await axe.run({
      resultTypes: ['violations'],
      ...(only === 'contrast' ? { runOnly: ['color-contrast'] } : {}),
    });
    return found.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.html).join(' | ')}`);
  }, rules);
}

/** The page is no wider than the screen: nothing is cut off, nothing scrolls sideways. */
export function beyondEdge(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const { scrollWidth, clientWidth } = document.documentElement;
    if (scrollWidth <= clientWidth) return [];
    const out = [...document.querySelectorAll('#app *')].filter((one) => {
      const { left, right } = one.getBoundingClientRect();
      return right > clientWidth + 1 || left < -1;
    });
    const named = out.slice(0, 3).map((one) => `${one.localName}.${one.getAttribute('class')}`);
    return [`the screen is ${scrollWidth - clientWidth} px too wide: ${named.join(', ')}`];
  });
}

export async function expectNothingBeyond(page: Page): Promise<void> {
  expect(await beyondEdge(page)).toEqual([]);
}

/** Buttons and fields that a thumb would miss (WCAG 2.2, 2.5.5: 44 px). */
export function smallerThanThumb(selector: string): Law {
  return async (page) => {
    const small = await page
      .locator(selector)
      .evaluateAll((all) =>
        all
          .filter((one) => one.getBoundingClientRect().height < 44)
          .map((one) => one.textContent || one.getAttribute('aria-label') || one.localName),
      );
    return small.map((name) => `${name} is lower than 44 px`);
  };
}
