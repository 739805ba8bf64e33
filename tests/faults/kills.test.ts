import 'fake-indexeddb/auto';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { createDice, type Dice } from '../../src/cards/index.ts';
import { type App, startApp } from '../browser/app.ts';
import { BLANK, readDatabase } from '../browser/database.ts';
import { acknowledge, deedsIn, type Ledger, newLedger, settle } from './ledger.ts';
import { endBrowsers, type OwnBrowser, startBrowser } from './own-browser.ts';
import {
  call,
  numberedAnswers,
  passLines,
  reachQuiz,
  setAhead,
  takeBack,
  typeAnswer,
} from './player.ts';
import { judge } from './raw-log.ts';
import { A_KILL, pause, rounds, SEED } from './runs.ts';
import { type Note, untilNote, writesLog } from './watch.ts';

const KILLS = rounds(5, 1);

let app: App;
beforeAll(async () => {
  app = await startApp();
});
afterEach(endBrowsers);
afterAll(() => app.close());

/** When the browser dies, relative to the answer in progress. */
const MOMENTS = [
  'typed',
  'called',
  'being written',
  'written',
  'acknowledged',
  'going on',
  'taking back',
] as const;
type Moment = (typeof MOMENTS)[number];

describe(`the browser is killed while questions are answered (${KILLS} times, seed ${SEED})`, () => {
  it(
    'keeps every acknowledged answer exactly once, and at most the one in flight besides',
    async () => {
      const profile = await app.newProfile();
      const dice = createDice(SEED);
      const ledger = newLedger();
      const next = numberedAnswers();
      const figures = { kills: 0, acknowledged: 0, found: 0, inFlight: 0, lost: 0, twice: 0 };
      const moments = new Map<Moment, number>();
      const relaxed: Note[] = [];
      let days = 0;
      for (;;) {
        const browser = await startBrowser(profile);
        if (figures.kills > 0) await compare(browser, ledger, figures);
        if (figures.kills % 20 === 0 || figures.kills === KILLS) print(figures, days, moments);
        if (figures.kills === KILLS) {
          await browser.kill();
          break;
        }
        browser.listen((note) => {
          if (writesLog(note) && note.durability !== 'strict') relaxed.push(note);
        });
        await setAhead(browser.page, days);
        days += await reachQuiz(browser.page, app.url);
        for (let n = Math.floor(dice.next() * 4); n > 0; n--) {
          days += await answerOne(browser, ledger, next(), dice);
        }
        const moment = dice.pick(MOMENTS);
        moments.set(moment, (moments.get(moment) ?? 0) + 1);
        await dieAt(moment, browser, ledger, next(), dice);
        figures.kills += 1;
      }
      // Writes must be strict, to survive a power cut; killing a process does not test that.
      expect(relaxed).toEqual([]);
    },
    (KILLS + 1) * A_KILL,
  );
});

interface Figures {
  kills: number;
  acknowledged: number;
  found: number;
  inFlight: number;
  lost: number;
  twice: number;
}

/** Compares the disk with what was acknowledged, before the app opens it again. */
async function compare({ page }: OwnBrowser, ledger: Ledger, figures: Figures): Promise<void> {
  await page.goto(app.url + BLANK);
  const raw = await readDatabase(page);
  if (!raw) throw new Error('the database is gone');
  const { events, twice, unread, foldsAlike } = await judge(raw);
  const found = deedsIn(events);
  const count = settle(ledger, found);
  figures.acknowledged = ledger.acknowledged.length;
  figures.found = found.length;
  figures.inFlight += count.inFlight;
  figures.lost += count.lost;
  figures.twice += count.twice + twice.length;
  expect({ lost: figures.lost, twice: figures.twice, unread, foldsAlike }).toEqual({
    lost: 0,
    twice: 0,
    unread: 0,
    foldsAlike: true,
  });
  expect(found).toEqual(ledger.acknowledged);
}

function print(figures: Figures, days: number, moments: ReadonlyMap<Moment, number>): void {
  const all = { ...figures, days, moments: Object.fromEntries(moments) };
  console.log(`killed while answering: ${JSON.stringify(all)}`);
}

/** One undisturbed answer, sometimes taken back; then the next question. */
async function answerOne(
  { page }: OwnBrowser,
  ledger: Ledger,
  typed: string,
  dice: Dice,
): Promise<number> {
  await call(page, ledger, await typeAnswer(page, typed));
  if (dice.next() < 0.15) {
    await takeBack(page, ledger);
    return 0;
  }
  await page.keyboard.press('Enter');
  return (await passLines(page)) === 'asking' ? 0 : reachQuiz(page, app.url);
}

/** Gives another answer, and kills the browser at that moment or shortly after. */
async function dieAt(
  moment: Moment,
  browser: OwnBrowser,
  ledger: Ledger,
  typed: string,
  dice: Dice,
): Promise<void> {
  const { page } = browser;
  const called = await typeAnswer(page, typed);
  if (moment === 'typed') return browser.kill();
  if (moment === 'going on' || moment === 'taking back') {
    await call(page, ledger, called);
    if (moment === 'taking back') {
      ledger.inFlight = `taken back: ${called.deed}`;
      void page.getByRole('button', { name: 'Take back' }).click().catch(gone);
    } else void page.keyboard.press('Enter').catch(gone);
    await pause(dice.next() * 60);
    return browser.kill();
  }
  ledger.inFlight = called.deed;
  // Whatever the moment, what the page has acknowledged by then counts.
  browser.listen((note) => {
    if (note.at === 'phase' && note.phase === 'answered') acknowledge(ledger);
  });
  const reached = moment === 'called' ? Promise.resolve() : untilNote(browser, isMoment[moment]);
  void page.keyboard.press(called.key).catch(gone);
  await reached;
  // Somewhere within, not always at the very beginning.
  if (moment === 'called' || moment === 'being written') await pause(dice.next() * 25);
  await browser.kill();
}

const isMoment = {
  'being written': (note: Note) => note.at === 'write begun' && writesLog(note),
  written: (note: Note) => note.at === 'write done' && writesLog(note),
  acknowledged: (note: Note) => note.at === 'phase' && note.phase === 'answered',
};

/** The browser died before it could answer, as intended. */
function gone(): undefined {
  return undefined;
}
