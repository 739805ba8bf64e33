import 'fake-indexeddb/auto';
import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { createDice, type Dice } from '../../src/cards/index.ts';
import { type App, type Profile, startApp } from '../browser/app.ts';
import { BLANK, deleteDatabase, readDatabase } from '../browser/database.ts';
import { deedsIn, newLedger } from './ledger.ts';
import { BROUGHT, backupOf, oldAnswers } from './old-log.ts';
import { endBrowsers, type OwnBrowser, startBrowser } from './own-browser.ts';
import { call, numberedAnswers, reachQuiz, typeAnswer } from './player.ts';
import { idsOnDisk, judge } from './raw-log.ts';
import { A_KILL, pause, rounds, SEED } from './runs.ts';
import { untilNote, writesChunks } from './watch.ts';

const KILLS = rounds(2, 8);
/** Few events are stored one per record, many in chunks. */
const SIZES = [1500, 6000] as const;

let app: App;
beforeAll(async () => {
  app = await startApp();
});
afterEach(endBrowsers);
afterAll(() => app.close());

describe(`the browser is killed while a backup is restored (${KILLS} times, seed ${SEED})`, () => {
  it(
    'has all of it or nothing, and keeps earlier answers',
    async () => {
      const profile = await app.newProfile();
      const dice = createDice(SEED);
      const next = numberedAnswers();
      const figures = { kills: 0, all: 0, nothing: 0, reported: 0, part: 0, lost: 0, twice: 0 };
      let browser = await startBrowser(profile);
      for (; figures.kills < KILLS; figures.kills++) {
        const theirs = oldAnswers('theirs', SIZES[figures.kills % 2] as number, 30);
        const ledger = newLedger();
        await browser.page.goto(app.url + BLANK);
        if (await readDatabase(browser.page)) await deleteDatabase(browser.page);
        await reachQuiz(browser.page, app.url);
        await call(browser.page, ledger, await typeAnswer(browser.page, next()));
        const reported = await dieRestoring(browser, await fileOf(profile, theirs), dice);
        if (reported) figures.reported += 1;

        browser = await startBrowser(profile);
        await browser.page.goto(app.url + BLANK);
        const raw = await readDatabase(browser.page);
        if (!raw) throw new Error('the database is gone');
        const ids = new Set(idsOnDisk(raw));
        const here = theirs.filter(({ id }) => ids.has(id)).length;
        const outcome = here === 0 ? 'nothing' : here === theirs.length ? 'all' : 'part';
        figures[outcome] += 1;
        const { events, twice, unread, foldsAlike } = await judge(raw);
        figures.twice += twice.length;
        const own = deedsIn(events.filter(({ device }) => device !== 'theirs'));
        figures.lost += ledger.acknowledged.length - own.length;
        const [, charts] = (raw.documents ?? []).find(([key]) => key === 'charts') ?? [];
        // The chart is there exactly if the answers are.
        expect(Object.hasOwn(charts as object, BROUGHT)).toBe(outcome === 'all');
        if (reported) expect(outcome).toBe('all');
        expect(own).toEqual(ledger.acknowledged);
        expect({ outcome, unread, foldsAlike, twice }).toEqual({
          outcome: outcome === 'part' ? 'all or nothing' : outcome,
          unread: 0,
          foldsAlike: true,
          twice: [],
        });
      }
      await browser.kill();
      console.log(`killed while restoring: ${JSON.stringify(figures)}`);
    },
    (KILLS + 1) * A_KILL,
  );
});

/**
 * Restores a file and kills the browser meanwhile.
 * @returns whether the page reported it as restored
 */
async function dieRestoring(browser: OwnBrowser, file: string, dice: Dice): Promise<boolean> {
  const { page } = browser;
  await page.goto(`${app.url}#/settings`);
  await page.getByText('Restore from a file').waitFor();
  let reported = false;
  const restored = page.getByText(/^Restored \d+ entries/);
  restored.waitFor().then(
    () => {
      reported = true;
    },
    () => undefined,
  );
  const begun = untilNote(browser, (note) => note.at === 'write begun' && writesChunks(note));
  // The one in Settings: a notice about missing answers may have one, too.
  const chosen = page.locator('main .backup-actions input[type=file]').setInputFiles(file);
  // The browser may be dead before it answers.
  chosen.catch(() => undefined);
  await Promise.race([begun, chosen.then(() => begun)]);
  await pause(dice.next() * 600);
  await browser.kill();
  return reported;
}

async function fileOf(profile: Profile, events: Parameters<typeof backupOf>[0]): Promise<string> {
  const file = join(profile.folder, `backup-${events.length}.json`);
  await writeFile(file, backupOf(events));
  return file;
}
