import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { computeChart, HARBOUR_LANE, patternOf } from '../../src/charts/index.ts';
import { type App, startApp } from './app.ts';
import { everywhere, expectSound, type Law } from './everywhere.ts';
import { firstNumbers, learnWell, meet, type Player, playerWho } from './seed.ts';

let app: App;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.close());

const chart = computeChart(HARBOUR_LANE);
const names = chart.patterns.map((id) => patternOf(id).name);
const longest = names.reduce((a, b) => (b.length > a.length ? b : a));

it.each([
  ['a number', playerToAskNumbers, /^medium$/],
  ['a window', playerToAskWindows, /^How far .*\?$/],
] as const)(
  'by ear, %s: all of it is on the screen, and nothing lies on a label',
  async (_, seed, words) => {
    const page = await app.open({ player: await seed(), fragment: '#/ear' });
    const begin = page.getByRole('button', { name: 'Begin without voice' });
    await begin.waitFor();
    await holdThePause(page);
    await begin.click();
    await at(page, 'thinking');
    await expectAllSeen(page);
    expect(await page.locator('p.ear-asked').textContent()).toMatch(words);
    await page.mouse.click(195, 422);
    await at(page, 'judging');
    await expectAllSeen(page);
    await lengthen(page);
    await expectAllSeen(page);
    await page.context().close();
  },
);

/** One who has looked at two lines, and has been asked neither. */
function playerToAskNumbers(): Promise<Player> {
  return playerWithLines(false);
}

/** One who knows both numbers so well that their windows are asked first. */
function playerToAskWindows(): Promise<Player> {
  return playerWithLines(true);
}

function playerWithLines(areKnown: boolean): Promise<Player> {
  return playerWho(async (model) => {
    await model.changeSettings({ newLinesADay: 2 });
    const cards = firstNumbers(model, 2);
    if (areKnown) await learnWell(model, cards);
    else for (const card of cards) await meet(model, card, 1);
  });
}

/** The pause before the number, of seconds, ends with a press alone. */
async function holdThePause(page: Page): Promise<void> {
  await page.evaluate(() => {
    const { setTimeout: real } = window;
    const short = (run: () => void, ms = 0) => (ms < 1000 ? real(run, ms) : 0);
    Object.assign(window, { setTimeout: short });
  });
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
    put('.ear-bar span', '12 got, 13 missed');
    put('.ear-problem', 'The voice has failed. The questions go on here, to be read.');
  }, longest);
}

/** Wherever everything is looked at, and with text at 200 % on a small phone, which is ours. */
async function expectAllSeen(page: Page): Promise<void> {
  await everywhere(page, allSeen);
  const size = page.viewportSize() ?? { width: 390, height: 844 };
  await page.setViewportSize({ width: 320, height: 640 });
  await page.evaluate(() => document.documentElement.style.setProperty('font-size', '32px'));
  await expectSound(page, allSeen);
  await page.evaluate(() => document.documentElement.style.removeProperty('font-size'));
  await page.setViewportSize(size);
}

const allSeen: Law = (page) =>
  page.evaluate(() => {
    const boxes = (selector: string) =>
      [...document.querySelectorAll(selector)].map((element) => ({
        name: `${element.tagName} ${element.textContent}`,
        box: element.getBoundingClientRect(),
      }));
    const beyond = ({ left, top, right, bottom }: DOMRect) =>
      Math.max(-left, -top, right - innerWidth, bottom - innerHeight);
    const meet = (a: DOMRect, b: DOMRect) =>
      a.left < b.right - 1 && b.left < a.right - 1 && a.top < b.bottom - 1 && b.top < a.bottom - 1;
    const texts = boxes('.ear-words > *, .ear-below > *, .ear-foot p, .ear-bar > *');
    const labels = boxes('.ear-area span');
    const out = boxes('.ear, .ear *').flatMap(({ name, box }) =>
      beyond(box) > 0.5 ? [`${name} is ${beyond(box)} px beyond the screen`] : [],
    );
    const covered = labels.flatMap((label) =>
      texts.flatMap(({ name, box }) =>
        meet(label.box, box) ? [`${name} lies on ${label.name}`] : [],
      ),
    );
    return [...out, ...covered];
  });
