/** A player who answers with a different number each time, so that all answers are distinct. */

import type { Page } from 'playwright-core';
import { settled } from '../browser/app.ts';
import { acknowledge, answeredDeed, type Ledger } from './ledger.ts';

const DAY_MS = 86_400_000;

/** Sets the page's clock ahead by days; survives reloads of the page. */
export async function setAhead(page: Page, days: number): Promise<void> {
  await page.addInitScript((ms) => {
    const now = Date.now;
    Date.now = () => now() + ms;
  }, days * DAY_MS);
}

/**
 * Opens the quiz from Today at a question, advancing the clock by days if nothing is left to ask.
 * @returns how many days
 */
export async function reachQuiz(page: Page, url: string): Promise<number> {
  for (let days = 0; ; days++) {
    await page.goto(`${url}#/`);
    await page.reload();
    await page.locator('.agenda').waitFor();
    const begin = page.getByRole('button', { name: /^(Begin|Continue)$/ });
    if (await begin.isVisible()) {
      await begin.click();
      if ((await passLines(page)) === 'asking') return days;
    }
    await setAhead(page, 1);
  }
}

/** Passes new lines until a question comes or nothing is left. */
export async function passLines(page: Page): Promise<string> {
  for (;;) {
    const phase = await settled(page);
    if (phase !== 'meeting') return phase;
    const shown = await page.locator('.verdict').textContent();
    await page.getByRole('button', { name: 'Got it' }).click();
    await page.waitForFunction(
      (before) =>
        document.querySelector('main.quiz')?.getAttribute('data-phase') !== 'meeting' ||
        document.querySelector('.verdict')?.textContent !== before,
      shown,
    );
  }
}

/**
 * Types an answer into every field without calling it.
 * @returns what to call
 */
export async function typeAnswer(page: Page, typed: string): Promise<Called> {
  const fields = await page.locator('.answer-box').count();
  // A choice has no field: show the answer.
  if (fields === 0) return { deed: answeredDeed(null), key: '?' };
  for (let n = 0; n < fields; n++) {
    if (n > 0) await page.keyboard.press('Enter');
    await page.keyboard.type(typed);
  }
  return { deed: answeredDeed(typed), key: 'Enter' };
}

export interface Called {
  readonly deed: string;
  /** The key that calls it. */
  readonly key: string;
}

/** Calls what was typed and waits until the page shows it as kept. */
export async function call(page: Page, ledger: Ledger, { deed, key }: Called): Promise<void> {
  ledger.inFlight = deed;
  await page.keyboard.press(key);
  await page.locator('main.quiz[data-phase="answered"]').waitFor();
  acknowledge(ledger);
}

/** Takes back the answer on the screen, and waits until its card is asked again. */
export async function takeBack(page: Page, ledger: Ledger): Promise<void> {
  ledger.inFlight = `taken back: ${ledger.acknowledged.at(-1)}`;
  await page.getByRole('button', { name: 'Take back' }).click();
  await page.locator('main.quiz[data-phase="asking"]').waitFor();
  acknowledge(ledger);
}

/** Answers that are all different and on every rail: 0.001, 0.002 and so on. */
export function numberedAnswers(): () => string {
  let last = 0;
  return () => (++last / 1000).toFixed(3);
}
