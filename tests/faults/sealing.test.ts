import 'fake-indexeddb/auto';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { createDice } from '../../src/cards/index.ts';
import { type App, startApp } from '../browser/app.ts';
import { BLANK, deleteDatabase, type Records, readDatabase } from '../browser/database.ts';
import { oldAnswers, putEvents } from './old-log.ts';
import { endBrowsers, type OwnBrowser, startBrowser } from './own-browser.ts';
import { idsOnDisk, judge } from './raw-log.ts';
import { A_KILL, pause, rounds, SEED } from './runs.ts';
import { timeOfWrite, untilNote, writesChunks } from './watch.ts';

const KILLS = rounds(2, 10);

/** One chunk and part of another. */
const FIRST = oldAnswers('older', 2500, 130);
/** Answered after the first: days that go back mean a wrong clock, and are not sealed. */
const SECOND = oldAnswers('older', 2100, 20, FIRST.length);

let app: App;
beforeAll(async () => {
  app = await startApp();
});
afterEach(endBrowsers);
afterAll(() => app.close());

describe(`the browser is killed while old answers are sealed (${KILLS} times, seed ${SEED})`, () => {
  it(
    'keeps each of them exactly once, and the next start seals them',
    async () => {
      const profile = await app.newProfile();
      const dice = createDice(SEED);
      const figures = { kills: 0, answers: 0, sealed: 0, notYet: 0, lost: 0, twice: 0 };
      let browser = await startBrowser(profile);
      let took = 200;
      for (; figures.kills < KILLS; figures.kills++) {
        // Every other time with sealed answers already there.
        const again = figures.kills % 2 === 1;
        await browser.page.goto(app.url + BLANK);
        if (!again) await deleteDatabase(browser.page);
        await putEvents(browser.page, again ? SECOND : FIRST);
        const all = again ? [...FIRST, ...SECOND] : FIRST;
        await dieSealing(browser, took * 1.5 * dice.next());

        browser = await startBrowser(profile);
        const raw = await rawOf(browser);
        const { twice, unread, foldsAlike } = await judge(raw);
        const ids = new Set(idsOnDisk(raw));
        figures.answers += all.length;
        figures.lost += all.filter(({ id }) => !ids.has(id)).length;
        figures.twice += twice.length;
        const left = (raw.events ?? []).length;
        figures[left === 0 ? 'sealed' : 'notYet'] += 1;
        expect([0, again ? SECOND.length : FIRST.length]).toContain(left);
        expect({ unread, foldsAlike, lost: figures.lost, twice: figures.twice }).toEqual({
          unread: 0,
          foldsAlike: true,
          lost: 0,
          twice: 0,
        });
        took = (await sealInPeace(browser, all.length)) ?? took;
      }
      await browser.kill();
      console.log(`killed while sealing: ${JSON.stringify(figures)}`);
    },
    (KILLS + 1) * A_KILL,
  );
});

/** @param after ms after its write began */
async function dieSealing(browser: OwnBrowser, after: number): Promise<void> {
  const begun = untilNote(browser, (note) => note.at === 'write begun' && writesChunks(note));
  await browser.page.goto(app.url);
  await begun;
  await pause(after);
  await browser.kill();
}

/**
 * Opens the app and lets it seal.
 * @returns how long the write took, ms; null if nothing was left to seal
 */
async function sealInPeace(browser: OwnBrowser, answers: number): Promise<number | null> {
  const timed = timeOfWrite(browser, writesChunks);
  await browser.page.goto(app.url);
  await browser.page.locator('.agenda').waitFor();
  await expect
    .poll(async () => ((await readDatabase(browser.page))?.events ?? []).length, {
      timeout: A_KILL,
    })
    .toBe(0);
  const raw = await rawOf(browser);
  const { events, twice, foldsAlike } = await judge(raw);
  expect({ events: events.length, twice, foldsAlike }).toEqual({
    events: answers,
    twice: [],
    foldsAlike: true,
  });
  return timed();
}

async function rawOf({ page }: OwnBrowser): Promise<Records> {
  await page.goto(app.url + BLANK);
  const raw = await readDatabase(page);
  if (!raw) throw new Error('the database is gone');
  return raw;
}
