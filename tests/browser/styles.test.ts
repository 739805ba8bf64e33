import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { type App, startApp } from './app.ts';
import { ADDRESSES, goTo, openAs } from './every-screen.ts';

let app: App;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.close());

/** Screens that are compared; the long run compares all. */
const COMPARED = ADDRESSES.filter((_, n) => process.env.THROUGHLINE_EVERYWHERE || n % 5 === 1);

// A style sheet comes with its screen and stays, so the order of the sheets depends on the visits.
it('a screen looks the same whichever screens came before it', async () => {
  const page = await openAs(app, 'Ann', { width: 1280, height: 800 });
  const alone = new Map<string, readonly string[]>();
  for (const address of COMPARED) {
    await page.goto('about:blank');
    alone.set(address, await lookOf(page, address));
  }
  for (const address of [...ADDRESSES].reverse()) await goTo(page, app.url + address);
  for (const address of COMPARED) {
    await expect
      .poll(() => lookOf(page, address), { message: address })
      .toEqual(alone.get(address));
  }
  await page.context().close();
}, 240_000);

/** The look of a screen once its workers have answered and nothing moves any more. */
async function lookOf(page: Page, address: string): Promise<readonly string[]> {
  await goTo(page, app.url + address);
  await expect.poll(() => page.locator('[aria-busy="true"]').count()).toBe(0);
  let before = '';
  const rests = async () => {
    const now = (await lookNow(page)).join();
    const same = now === before;
    before = now;
    return same;
  };
  await expect.poll(rests, { interval: 200 }).toBe(true);
  return lookNow(page);
}

/** The place and the styles of every element, apart from the focus. */
function lookNow(page: Page): Promise<readonly string[]> {
  return page.evaluate(() => {
    (document.activeElement as HTMLElement | null)?.blur();
    return [...document.querySelectorAll('body *')].map((one) => {
      const { x, y, width, height } = one.getBoundingClientRect();
      const { font, color, backgroundColor, border, margin, padding, fill, stroke } =
        getComputedStyle(one);
      const place = [x, y + window.scrollY, width, height].map(Math.round);
      const styles = [font, color, backgroundColor, border, margin, padding, fill, stroke];
      return [one.localName, one.getAttribute('class'), ...place, ...styles].join(' | ');
    });
  });
}
