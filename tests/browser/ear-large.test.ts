import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { computeChart, HARBOUR_LANE, patternOf } from '../../src/charts/index.ts';
import { type App, answerRight, enlarge, type Remembered, reachQuestion, startApp } from './app.ts';

let app: App;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.close());

const names = computeChart(HARBOUR_LANE).patterns.map((id) => patternOf(id).name);
const longest = names.reduce((a, b) => (b.length > a.length ? b : a));

/** Text at 200 % as WCAG 2.2 has it in 1.4.4; the two phones are ours. */
describe.each([
  ['a phone', 390, 844, 32],
  ['a small phone', 320, 640, 32],
  ['a small phone with text at 100 %', 320, 640, 16],
  ['a phone on its side', 844, 390, 16],
] as const)('by ear on %s', (_, width, height, text) => {
  it('a number and a window: all of it is on the screen, and nothing lies on a label', async () => {
    const met: Remembered = new Map();
    const of = await meetLines(met);
    for (const daysAhead of [0, 1]) {
      const page = await app.open({ of, fragment: '#/ear', width, height, daysAhead });
      await enlarge(page, text);
      await page.getByRole('button', { name: 'Begin without voice' }).click();
      await at(page, 'thinking');
      await expectAllSeen(page);
      const asked = await page.locator('p.ear-asked').textContent();
      expect(asked).toMatch(daysAhead === 0 ? /^medium$/ : /^How far .*\?$/);
      await page.mouse.click(width / 2, height / 2);
      await at(page, 'judging');
      await expectAllSeen(page);
      await lengthen(page);
      await expectAllSeen(page);
      await page.close();
      if (daysAhead === 0) await callBoth(of, met);
    }
  });
});

/** A player who has looked at two lines, and has been asked neither. */
async function meetLines(met: Remembered): Promise<BrowserContext> {
  const page = await app.open({ fragment: '#/settings' });
  await page.getByLabel('New lines a day').selectOption({ label: '2' });
  await page.goto(`${app.url}#/quiz`);
  await reachQuestion(page, met);
  await page.close();
  return page.context();
}

/** Both called right: their windows are asked from tomorrow. */
async function callBoth(of: BrowserContext, met: Remembered): Promise<void> {
  const page = await app.open({ of, fragment: '#/quiz' });
  while ((await reachQuestion(page, met)) === 'asking') {
    await answerRight(page, met);
    await page.keyboard.press('Enter');
  }
  await page.close();
}

async function at(page: Page, phase: string): Promise<void> {
  await page.locator(`main.ear[data-phase="${phase}"]`).waitFor();
}

/** The longest that can stand there: the longest name of a pattern, a long score, and a problem. */
function lengthen(page: Page): Promise<void> {
  return page.evaluate((name) => {
    const put = (selector: string, text: string): void => {
      const element = document.querySelector(selector);
      if (!element) throw new Error(`no ${selector}`);
      element.textContent = text;
    };
    put('.ear-words h1', name);
    put('.ear-bar span', '12 had, 13 not');
    put('.ear-problem', 'The voice has failed. The questions go on here, to be read.');
  }, longest);
}

async function expectAllSeen(page: Page): Promise<void> {
  const { beyond, covered } = await page.evaluate(() => {
    const boxes = (selector: string) =>
      [...document.querySelectorAll(selector)].map((element) => ({
        name: `${element.tagName} ${element.textContent}`,
        box: element.getBoundingClientRect(),
      }));
    const isOut = ({ left, top, right, bottom }: DOMRect) =>
      left < -0.5 || top < -0.5 || right > innerWidth + 0.5 || bottom > innerHeight + 0.5;
    const meet = (a: DOMRect, b: DOMRect) =>
      a.left < b.right - 1 && b.left < a.right - 1 && a.top < b.bottom - 1 && b.top < a.bottom - 1;
    const texts = boxes('.ear-words > *, .ear-below > *, .ear-foot p, .ear-bar > *');
    const labels = boxes('.ear-area span');
    return {
      beyond: boxes('.ear, .ear *').flatMap(({ name, box }) => (isOut(box) ? [name] : [])),
      covered: labels.flatMap((label) =>
        texts.flatMap(({ name, box }) => (meet(label.box, box) ? [`${label.name}: ${name}`] : [])),
      ),
    };
  });
  expect(beyond).toEqual([]);
  expect(covered).toEqual([]);
}
