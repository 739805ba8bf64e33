import 'fake-indexeddb/auto';
import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { createDice } from '../../src/cards/index.ts';
import { type App, startApp } from '../browser/app.ts';
import { BLANK, readDatabase } from '../browser/database.ts';
import { acknowledge, deedsIn, type Ledger, newLedger } from './ledger.ts';
import { endBrowsers, startBrowser } from './own-browser.ts';
import { numberedAnswers, passLines, reachQuiz, typeAnswer } from './player.ts';
import { judge } from './raw-log.ts';
import { A_KILL, pause, rounds, SEED } from './runs.ts';

/** Answers that each tab calls; another tab may be first with some. */
const TRIES = rounds(8, 8);

let app: App;
beforeAll(async () => {
  app = await startApp();
});
afterEach(endBrowsers);
afterAll(() => app.close());

describe(`tabs that answer at once (${TRIES} answers each, seed ${SEED})`, () => {
  it.each([2, 3])(
    '%d of them keep every answer once, even if the browser is killed meanwhile',
    async (tabs) => {
      const profile = await app.newProfile();
      const next = numberedAnswers();
      const ledgers = Array.from({ length: tabs }, newLedger);
      const dice = createDice(SEED + tabs);
      const browser = await startBrowser(profile);
      const pages = [browser.page];
      while (pages.length < tabs) pages.push(await browser.newWindow());
      for (const page of pages) await reachQuiz(page, app.url);
      await Promise.all(pages.map((page, n) => answerAll(page, ledgers[n] as Ledger, next, TRIES)));
      const calm = await held(pages);

      // Again, and this time the browser dies meanwhile.
      const dying = pages.map((page, n) =>
        answerAll(page, ledgers[n] as Ledger, next, TRIES).catch(() => undefined),
      );
      await pause(dice.next() * 1500);
      await browser.kill();
      await Promise.all(dying);

      const again = await startBrowser(profile);
      await again.page.goto(app.url + BLANK);
      const raw = await readDatabase(again.page);
      if (!raw) throw new Error('the database is gone');
      const { events, twice, unread, foldsAlike } = await judge(raw);
      const found = deedsIn(events);
      const acknowledged = ledgers.flatMap((ledger) => ledger.acknowledged);
      const inFlight = ledgers.flatMap(({ inFlight: one }) => (one === null ? [] : [one]));
      const beyond = found.filter((deed) => !acknowledged.includes(deed));
      const figures = {
        tabs,
        acknowledged: acknowledged.length,
        found: found.length,
        inFlight: beyond.filter((deed) => inFlight.includes(deed)).length,
        lost: acknowledged.filter((deed) => !found.includes(deed)).length,
        twice: found.length - new Set(found).size + twice.length,
      };
      console.log(`tabs at once: ${JSON.stringify(figures)}`);
      expect(figures).toMatchObject({ lost: 0, twice: 0, inFlight: beyond.length });
      expect({ unread, foldsAlike }).toEqual({ unread: 0, foldsAlike: true });
      expect(new Set(calm).size).toBe(1);
    },
    A_KILL * 3,
  );
});

/** Answers what is asked; skips what another tab has answered meanwhile. */
async function answerAll(
  page: Page,
  ledger: Ledger,
  next: () => string,
  tries: number,
): Promise<void> {
  for (let n = 0; n < tries; n++) {
    if ((await passLines(page)) !== 'asking') return;
    // Clears what remains of an answer that another tab was ahead of.
    const box = page.locator('.answer-box').first();
    while ((await box.count()) > 0 && (await box.textContent()) !== '') {
      await page.keyboard.press('Backspace');
    }
    const { deed, key } = await typeAnswer(page, next());
    ledger.inFlight = deed;
    await page.keyboard.press(key);
    const said = page.getByText('answered in another tab');
    await page.locator('main.quiz[data-phase="answered"]').or(said).first().waitFor();
    if (await said.isVisible()) {
      ledger.inFlight = null;
      continue;
    }
    acknowledge(ledger);
    await page.keyboard.press('Enter');
  }
}

/** The known lines that each tab shows after a reload. */
function held(pages: readonly Page[]): Promise<readonly (string | null)[]> {
  return Promise.all(
    pages.map(async (page) => {
      await page.goto(`${app.url}#/`);
      return page.locator('.held').textContent();
    }),
  );
}
