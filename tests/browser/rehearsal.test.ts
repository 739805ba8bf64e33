import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Model } from '../../src/app/state/model.ts';
import { isLineCard } from '../../src/cards/index.ts';
import {
  createRehearsal,
  createStopwatch,
  newRehearsal,
  planRehearsal,
  rehearsable,
  sourceOf,
  termsOf,
  weigh,
} from '../../src/quiz/index.ts';
import type { RehearsalDraft } from '../../src/scheduler/index.ts';
import { type App, painted, startApp, watchErrors } from './app.ts';
import { readDocument, writeDatabase } from './database.ts';
import { readEvents } from './events.ts';
import { everywhere, type Law, type Theme, violationsOn } from './everywhere.ts';
import { type Player, playerWho } from './seed.ts';

let app: App;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.close());

describe('a rehearsal', () => {
  it('is set up, answered without a word of feedback, scored, opened and printed', async () => {
    const page = await app.open({ fragment: '#/rehearsal' });
    const errors = watchErrors(page);
    await page.evaluate(() => Object.assign(window, { print: () => (document.title = 'printed') }));
    await page.getByRole('button', { name: 'Start the rehearsal' }).waitFor();
    await everywhere(page);
    const watch = await stopTime(page);
    await begin(page, 10);
    await page.getByText('1 of 10', { exact: true }).waitFor();
    await everywhere(page, navigationIsHidden);
    await watch.goOn();
    for (let n = 1; n <= 10; n++) {
      await page.getByText(`${n} of 10`, { exact: true }).waitFor();
      expect(await page.getByRole('heading', { name: /^(Off|Rattled|Pocketed)$/ }).count()).toBe(0);
      expect(await page.getByRole('button', { name: 'Show me' }).count()).toBe(0);
      expect((await readEvents(page)).length).toBe(0);
      await callAll(page);
    }
    await page.getByRole('heading', { name: 'Score sheet' }).waitFor();
    await everywhere(page);
    for (const theme of ['light', 'dark'] as const) await expectBlackOnWhite(page, theme);
    await page.emulateMedia({ media: null, colorScheme: 'light' });
    expect(await page.locator('.score-table tbody tr').count()).toBe(10);
    expect(await readEvents(page)).toMatchObject([{ type: 'rehearsed', counts: false, clock: 30 }]);
    await page.getByRole('button', { name: 'Print' }).click();
    expect(await page.title()).toBe('printed');

    await page.getByRole('button', { name: /question 2 on the table/ }).click();
    await page.locator('.answer-panel').waitFor();
    await page.getByText(/^Called after \d+\.\d s\.$/).waitFor();
    expect(await violationsOn(page)).toEqual([]);
    await page.keyboard.press('Enter');
    await page.getByText('3 of 10', { exact: true }).waitFor();
    await page.goBack();
    await page.goBack();
    await page.getByRole('heading', { name: 'Score sheet' }).waitFor();

    await page.getByRole('button', { name: 'To Rehearsal' }).click();
    expect(await page.getByRole('radio', { name: '10', exact: true }).isChecked()).toBe(true);
    const finished = page.getByRole('link', { name: /of 10 made$/ });
    await finished.waitFor();
    await everywhere(page);
    await finished.click();
    await page.getByRole('heading', { name: 'Score sheet' }).waitFor();
    expect(errors).toEqual([]);
    await page.context().close();
  });

  it('that counts is refused while fewer than five questions are known, in a sentence', async () => {
    const player = await playerWho(async (model) => {
      const line = model.cards.value.find(isLineCard)?.lineId ?? '';
      await model.append({ type: 'met', line, day: model.today(), at: model.now() });
    });
    const page = await app.open({ fragment: '#/rehearsal', player });
    await page.getByRole('radio', { name: 'yes' }).check();
    await page.getByRole('checkbox', { name: /^Window/ }).uncheck();
    await page.getByRole('button', { name: 'Start the rehearsal' }).click();
    await page.getByText(/^A rehearsal needs 5 questions to draw from, and only \d/).waitFor();
    expect(await violationsOn(page)).toEqual([]);
    await page.getByRole('radio', { name: 'no', exact: true }).check();
    expect(await page.getByText(/^A rehearsal needs 5/).count()).toBe(0);
    await page.context().close();
  });

  it('keeps how often a pattern comes up', async () => {
    const page = await app.open({ fragment: '#/rehearsal' });
    const use = page.getByLabel('How often Cross-side comes up');
    expect(await use.inputValue()).toBe('often');
    await use.selectOption('seldom');
    await expect.poll(() => storedUse(page)).toEqual({ 'cross-side': 'seldom' });
    await page.reload();
    await use.waitFor();
    await expect.poll(() => use.inputValue()).toBe('seldom');
    await page.context().close();
  });

  it('keeps two changes of how often patterns come up, the second made before the first is kept', async () => {
    const page = await app.open({ fragment: '#/rehearsal' });
    const uses = ['Cross-side', 'Cross-corner'].map((name) =>
      page.getByLabel(`How often ${name} comes up`),
    );
    await page.getByRole('button', { name: 'Start the rehearsal' }).waitFor();
    await page.evaluate(() => {
      for (const name of ['Cross-side', 'Cross-corner']) {
        const use = document.querySelector(`[aria-label="How often ${name} comes up"]`);
        if (!(use instanceof HTMLSelectElement)) throw new Error(`no choice for ${name}`);
        use.value = 'seldom';
        use.dispatchEvent(new Event('change', { bubbles: true }));
      }
    });
    await expect
      .poll(() => storedUse(page))
      .toEqual({
        'cross-side': 'seldom',
        'cross-corner': 'seldom',
      });
    await page.reload();
    for (const use of uses) await expect.poll(() => use.inputValue()).toBe('seldom');
    await page.context().close();
  });

  it('is pressed by touch alone, with both fields of a window', async () => {
    const page = await app.open({ fragment: '#/rehearsal' });
    for (const kind of [/^Number/, /^In between/, /^Rail ball/]) {
      await page.getByRole('checkbox', { name: kind }).uncheck();
    }
    await begin(page, 10);
    const press = async (...keys: string[]) => {
      for (const name of keys) await page.getByRole('button', { name, exact: true }).click();
    };
    await press('0', 'decimal point', '1', 'change the sign', 'Then firm', '0', 'Call it');
    await page.getByText('2 of 10', { exact: true }).waitFor();
    await page.context().close();
  });
});

describe('the shot clock', () => {
  it('goes on to the next question by itself, and is said and marked before that', async () => {
    const page = await app.open({ fragment: '#/rehearsal' });
    const watch = await stopTime(page);
    await begin(page, 10, '25 s');
    await page.locator('main.quiz[data-phase="asking"]').waitFor();
    const clock = page.getByRole('timer');
    await page.getByText('25 s', { exact: true }).waitFor();
    // The time counts from when the picture is painted: an effect, and two frames after it.
    await painted(page);
    await painted(page);
    await watch.pass(1000);
    await page.getByText('24 s', { exact: true }).waitFor();
    const spoken = page.locator('.shot-clock [role=status]');
    const place = await clock.boundingBox();
    expect(await spoken.textContent()).toBe('');
    await watch.pass(15_000);
    await expect.poll(() => spoken.textContent()).toBe('10 seconds left');
    expect(await page.locator('.shot-clock.last').count()).toBe(0);
    await watch.pass(5_000);
    await page.locator('.shot-clock.last').waitFor();
    expect(await violationsOn(page)).toEqual([]);
    expect(await clock.boundingBox()).toEqual(place);
    expect(Math.abs(await offCentre(page))).toBeLessThanOrEqual(1);
    await page.getByText('1 of 10', { exact: true }).waitFor();
    await watch.pass(6_000);
    await page.getByText('2 of 10', { exact: true }).waitFor();
    await page.getByText('The clock ran out; here is the next.').waitFor();
    expect(await spoken.textContent()).toBe('');
    await watch.goOn();
    for (let n = 2; n <= 10; n++) await callAll(page);
    await page.getByRole('button', { name: /question 1 on the table/ }).click();
    await page.getByRole('heading', { name: 'Ran out' }).waitFor();
    await page.getByText('The clock ran out: no answer.').waitFor();
    expect(await violationsOn(page)).toEqual([]);
    await page.context().close();
  });
});

describe('interrupted', () => {
  it('it is on Today, asks the same question again, and is dropped only after asking twice', async () => {
    const page = await app.open({ fragment: '#/rehearsal' });
    await page.getByRole('checkbox', { name: /^Window/ }).uncheck();
    await begin(page, 10, '45 s');
    for (let n = 0; n < 3; n++) await callAll(page);
    await page.getByText('4 of 10', { exact: true }).waitFor();
    const asked = await page.locator('.facts [role=status]').textContent();
    await page.close();

    const again = await app.open({ of: page.context() });
    await again.getByRole('link', { name: /A rehearsal is under way/ }).click();
    await again.getByText(/^Begun /).waitFor();
    await again
      .getByText(
        'It does not count for memory. Nothing of it is in the log until it is finished.',
        { exact: true },
      )
      .waitFor();
    expect(await violationsOn(again)).toEqual([]);
    await again.getByRole('button', { name: 'Resume (3 of 10 answered)' }).click();
    await again.getByText('Asked again, with a fresh clock.').waitFor();
    expect(await again.locator('.facts [role=status]').textContent()).toBe(asked);
    expect(await readEvents(again)).toEqual([]);

    await again.getByRole('button', { name: 'Stop' }).click();
    await again.getByRole('button', { name: 'Drop it' }).click();
    await again.getByText('Drop it for good?').waitFor();
    expect(await violationsOn(again)).toEqual([]);
    await again.keyboard.press('Enter');
    await again.getByRole('button', { name: 'Drop it', exact: true }).click();
    await again.getByRole('button', { name: 'Yes, drop it' }).click();
    await again.getByRole('button', { name: 'Start the rehearsal' }).waitFor();
    expect(await readEvents(again)).toEqual([]);
    // The next one begins with what the dropped one was set up with.
    expect(await again.getByRole('radio', { name: '10', exact: true }).isChecked()).toBe(true);
    expect(await again.getByRole('radio', { name: '45 s' }).isChecked()).toBe(true);
    expect(await again.getByRole('checkbox', { name: /^Window/ }).isChecked()).toBe(false);
    await again.context().close();
  });

  it('goes on with what its numbers name, though that was changed in Settings meanwhile', async () => {
    const player = await playerAfter(8, 10);
    const page = await app.open({ fragment: '#/rehearsal', player });
    await page.getByText('8 of 10 answered').waitFor();
    await page.goto(`${app.url}#/settings`);
    await page.getByLabel('A number names').selectOption('the point of the nose it crosses');
    await page.getByRole('link', { name: 'Rehearsal', exact: true }).click();
    await page.getByRole('button', { name: 'Resume (8 of 10 answered)' }).click();
    await page.getByText('9 of 10', { exact: true }).waitFor();
    for (let n = 9; n <= 10; n++) await callAll(page);
    await page.getByRole('heading', { name: 'Score sheet' }).waitFor();
    expect(await page.locator('.score-table tbody tr').count()).toBe(10);
    await page.context().close();
  });

  it('asks before it ends with less than was planned', async () => {
    const player = await playerAfter(2, 10, (draft) => ({
      ...draft,
      cards: draft.cards.map((card, n) => (n < 2 ? card : `${card}/gone`)),
    }));
    const page = await app.open({ fragment: '#/rehearsal', player });
    await page.getByRole('button', { name: 'Resume (2 of 10 answered)' }).click();
    await page.getByRole('heading', { name: '8 questions are no longer on the chart' }).waitFor();
    expect(await violationsOn(page)).toEqual([]);
    expect(await readEvents(page)).toEqual([]);
    await page.getByRole('button', { name: 'Drop it' }).click();
    await page.getByRole('button', { name: 'Keep it' }).click();
    await page.getByRole('button', { name: 'Finish with 2' }).click();
    await page.getByRole('heading', { name: 'Score sheet' }).waitFor();
    expect(await readEvents(page)).toMatchObject([{ type: 'rehearsed', questions: [{}, {}] }]);
    await page.context().close();
  });

  it('takes nobody back to its sheet who left while the last answer was written', async () => {
    const player = await playerAfter(9, 10);
    const page = await app.open({ fragment: '#/rehearsal', player });
    await page.getByRole('button', { name: 'Resume (9 of 10 answered)' }).click();
    await page.getByText('10 of 10', { exact: true }).waitFor();
    // A slow disk: what is written is said to be complete only once it is let go.
    await page.evaluate(() => {
      const held: (() => void)[] = [];
      const listen = IDBTransaction.prototype.addEventListener;
      IDBTransaction.prototype.addEventListener = function (
        this: IDBTransaction,
        type: string,
        listener: unknown,
      ) {
        const told = listener as () => void;
        listen.call(this, type, type === 'complete' ? () => held.push(told) : told);
      } as typeof listen;
      const letGo = () => {
        IDBTransaction.prototype.addEventListener = listen;
        for (const told of held) told();
      };
      Object.assign(window, { letGo });
    });
    await type(page);
    await page.locator('main.rehearsal-run[data-phase="saving"]').waitFor();
    await page.getByRole('button', { name: 'Stop' }).click();
    await page.getByRole('link', { name: 'Today', exact: true }).click();
    const underWay = page.getByRole('link', { name: /A rehearsal is under way/ });
    await underWay.waitFor();
    await page.evaluate(() => (window as unknown as { letGo: () => void }).letGo());
    await underWay.waitFor({ state: 'detached' });
    expect(await readEvents(page)).toMatchObject([{ type: 'rehearsed' }]);
    expect(await page.getByRole('heading', { level: 1 }).textContent()).toBe('Today');
    await page.context().close();
  });

  it('in two tabs: the other sees it, says when it is behind, and when it is over', async () => {
    const first = await app.open({ fragment: '#/rehearsal', player: await playerAfter(6, 10) });
    await first.getByRole('button', { name: 'Resume (6 of 10 answered)' }).click();
    await callAll(first);
    const second = await app.open({ of: first.context(), fragment: '#/rehearsal' });
    await second.getByRole('button', { name: 'Resume (7 of 10 answered)' }).click();
    await second.getByText('8 of 10', { exact: true }).waitFor();
    await first.bringToFront();
    await callAll(first);
    await second.bringToFront();
    await second.getByRole('heading', { name: 'It goes on in another tab' }).waitFor();
    // A clock that stands and a place that is old say something false.
    expect(await second.getByRole('timer').count()).toBe(0);
    expect(await second.getByText(/^\d+ of 10$/).count()).toBe(0);
    expect(await violationsOn(second)).toEqual([]);
    await second.getByRole('button', { name: 'Continue here' }).click();
    await second.getByText('9 of 10', { exact: true }).waitFor();
    for (let n = 9; n <= 10; n++) await callAll(second);
    await second.getByRole('heading', { name: 'Score sheet' }).waitFor();
    await first.bringToFront();
    await first.getByRole('heading', { name: 'This rehearsal is over' }).waitFor();
    expect(await violationsOn(first)).toEqual([]);
    await first.getByRole('button', { name: 'Score sheet' }).click();
    await first.getByRole('heading', { name: 'Score sheet' }).waitFor();
    expect(await readEvents(first)).toHaveLength(1);
    await first.context().close();
  });

  it('a full disk: the entry stays, the clock stands, and it is kept once there is room', async () => {
    const page = await app.open({ fragment: '#/rehearsal' });
    await begin(page, 10);
    await page.evaluate(() => {
      const { put } = IDBObjectStore.prototype;
      Object.assign(window, { makeRoom: () => (IDBObjectStore.prototype.put = put) });
      IDBObjectStore.prototype.put = () => {
        throw new DOMException('no room', 'QuotaExceededError');
      };
    });
    await type(page);
    await page.getByText('Not saved: the device has no room left.').waitFor();
    await page.getByText('1 of 10', { exact: true }).waitFor();
    expect(await page.locator('.answer-box').first().textContent()).toBe('0.4');
    await page.evaluate(() => (window as unknown as { makeRoom: () => void }).makeRoom());
    await page.keyboard.press('Enter');
    await page.getByText('2 of 10', { exact: true }).waitFor();
    await page.context().close();
  });
});

describe('a rehearsal that a newer version left', () => {
  it('stays until the player drops it, and then another can begin', async () => {
    const page = await app.open({ fragment: '#/rehearsal' });
    await page.getByRole('button', { name: 'Start the rehearsal' }).waitFor();
    await putRehearsal(page, { version: 2 });
    await page.getByRole('button', { name: 'Start the rehearsal' }).click();
    await page.getByText(/under way here that this version cannot read/).waitFor();
    expect(await violationsOn(page)).toEqual([]);
    await page.getByRole('button', { name: 'Drop it' }).click();
    await page.getByRole('button', { name: 'Yes, drop it' }).click();
    await page.getByText(/cannot read/).waitFor({ state: 'detached' });
    expect(await page.getByText(/could not be read by this version/).count()).toBe(0);
    await begin(page, 10);
    await page.getByText('1 of 10', { exact: true }).waitFor();
    await page.context().close();
  });
});

describe('thirty questions on paper', () => {
  it('are one page of A4, in type that can be read, each error on one line', async () => {
    const player = await playerAfter(30, 30);
    const page = await app.open({ fragment: '#/rehearsal', player });
    await page.getByRole('link', { name: /of 30 made$/ }).click();
    await page.getByText('Tolerance in diamonds: 0.1').waitFor();
    // A PDF's page tree says how many pages it has: ISO 32000-1, 7.7.3.2.
    const paper = (await page.pdf({ format: 'A4' })).toString('latin1');
    expect(/\/Type \/Pages\s+\/Count (\d+)/.exec(paper)?.[1]).toBe('1');
    await page.emulateMedia({ media: 'print' });
    // A4 less two margins of 10 mm; a CSS pixel is 1/96 inch (CSS Values 3).
    await page.setViewportSize({ width: 718, height: 1047 });
    const cells = await page.locator('.score-table td').evaluateAll((all) =>
      all.map((cell) => {
        const text = document.createRange();
        text.selectNodeContents(cell);
        const label = cell.getAttribute('data-label');
        const size = Number.parseFloat(getComputedStyle(cell).fontSize) * 0.75;
        const lines = new Set([...text.getClientRects()].map(({ top }) => Math.round(top))).size;
        return { label, size, lines };
      }),
    );
    expect(Math.min(...cells.map(({ size }) => size))).toBeGreaterThanOrEqual(8.49);
    const errors = cells.filter(({ label }) => label === 'error');
    expect(errors.map(({ lines }) => lines)).toEqual(Array(30).fill(1));
    const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    expect(wide).toBeLessThanOrEqual(0);
    await page.context().close();
  });
});

/** Starts a rehearsal of so many questions that does not count. */
async function begin(page: Page, count: number, clock = '30 s'): Promise<void> {
  await page.getByRole('radio', { name: String(count), exact: true }).check();
  await page.getByRole('radio', { name: clock }).check();
  await page.getByRole('button', { name: 'Start the rehearsal' }).click();
  await page.locator('main.rehearsal-run').waitFor();
}

/** Types an answer into every field and calls it. */
async function type(page: Page): Promise<void> {
  await page.locator('main.rehearsal-run[data-phase="asking"]').waitFor();
  const fields = await page.locator('.answer-box').count();
  for (let n = 0; n < fields; n++) {
    await page.keyboard.type('0.4');
    await page.keyboard.press('Enter');
  }
}

/** Answers, and waits for the next question or the end. */
async function callAll(page: Page): Promise<void> {
  const at = await page.locator('.quiz-bar .left').textContent();
  await type(page);
  await page.waitForFunction(
    (before) => document.querySelector('.quiz-bar .left')?.textContent !== before,
    at,
  );
}

/** While one is answered there is nowhere else to go. */
const navigationIsHidden: Law = async (page) =>
  (await page.locator('.navigation').isVisible()) ? ['the navigation is shown'] : [];

/** The score sheet on the page, as it would be printed from a theme: alone, a table. */
async function expectBlackOnWhite(page: Page, theme: Theme): Promise<void> {
  await page.emulateMedia({ media: 'print', colorScheme: theme });
  expect(await page.getByRole('navigation').isVisible(), theme).toBe(false);
  expect(await page.getByRole('button', { name: 'Print' }).isVisible(), theme).toBe(false);
  const paper = await page.evaluate(() => ({
    ground: getComputedStyle(document.body).backgroundColor,
    ink: [...document.querySelectorAll('.page h1, .page dd, .score-table td, .row-open')].map(
      (element) => getComputedStyle(element).color,
    ),
    columns: getComputedStyle(document.querySelector('.score-table tr') as Element).display,
  }));
  expect(paper.ground, theme).toBe('rgb(255, 255, 255)');
  expect(new Set(paper.ink), theme).toEqual(new Set(['rgb(0, 0, 0)']));
  expect(paper.columns, theme).toBe('table-row');
}

interface Watch {
  /** Milliseconds go by. */
  readonly pass: (ms: number) => Promise<void>;
  readonly goOn: () => Promise<void>;
}

/**
 * Stops the time that the shot clock is told. Frames and timers go on, for without them nothing is
 * painted or checked; a clock that the browser's own driver stops would stop them too.
 */
async function stopTime(page: Page): Promise<Watch> {
  await page.evaluate(() => {
    const real = () => Performance.prototype.now.call(performance);
    let time = real();
    performance.now = () => time;
    const pass = (ms: number) => {
      time += ms;
    };
    const goOn = () => {
      const lost = real() - time;
      performance.now = () => real() - lost;
    };
    Object.assign(window, { watch: { pass, goOn } });
  });
  const ask = (what: keyof Watch, ms: number) =>
    page.evaluate(
      ([name, given]) =>
        (window as unknown as { watch: Record<keyof Watch, (ms: number) => void> }).watch[name](
          given,
        ),
      [what, ms] as const,
    );
  return { pass: (ms) => ask('pass', ms), goOn: () => ask('goOn', 0) };
}

/** How far the seconds stand from the middle of what marks them, pixels. */
async function offCentre(page: Page): Promise<number> {
  return page.locator('.shot-clock-seconds').evaluate((pill) => {
    const text = document.createRange();
    text.selectNodeContents(pill);
    const [inner, outer] = [text.getBoundingClientRect(), pill.getBoundingClientRect()];
    return (inner.left + inner.right - outer.left - outer.right) / 2;
  });
}

/**
 * A player who has answered so many questions of a rehearsal: it is under way, or over if these were
 * all.
 * @param altered what has become of it on the disk since
 */
function playerAfter(
  answered: number,
  count: number,
  altered?: (draft: RehearsalDraft) => RehearsalDraft,
): Promise<Player> {
  return playerWho(async (model) => {
    const draft = draftOf(model, count);
    let time = 0;
    const session = createRehearsal(
      {
        source: sourceOf(model.chartOf(draft.chart), draft),
        log: model.log,
        stored: model.rehearsal,
        save: model.saveRehearsal,
        finish: model.finishRehearsal,
        ended: () => undefined,
        now: model.now,
        today: model.today,
        stopwatch: createStopwatch(() => time),
      },
      draft,
    );
    await model.saveRehearsal(draft);
    for (let n = 0; n < answered; n++) {
      const phase = session.phase.value;
      if (phase.at !== 'asking') throw new Error(`nothing is asked: ${phase.at}`);
      session.painted();
      time += 4000;
      for (const _ of phase.texts) {
        for (const character of '0.4') session.type(character);
        await session.submit();
      }
    }
    const { value: left } = model.rehearsal;
    if (altered && left) await model.saveRehearsal(altered(left));
  });
}

/** As the screen sets up the first one that a player begins. */
function draftOf(model: Model, count: number): RehearsalDraft {
  const { patterns } = model.chart.value;
  const kinds = ['number', 'window', 'in between', 'rail ball'] as const;
  const spec = { patterns, kinds, count, clock: 30 as const, counts: false };
  const { value: log } = model.log;
  const { value: settings } = model.settings;
  const cards = rehearsable(model.cards.value, log, spec);
  const weighed = weigh(cards, log, model.today(), settings.use);
  const terms = termsOf(model.chart.value, settings);
  return newRehearsal(spec, terms, model.now(), (seed) => planRehearsal(weighed, count, seed));
}

/** Puts a rehearsal under way on the disk, whatever it looks like. */
async function putRehearsal(page: Page, rehearsal: unknown): Promise<void> {
  await writeDatabase(page, { documents: [['rehearsal', rehearsal]] });
}

/** How often patterns come up, as it lies on the disk. */
async function storedUse(page: Page): Promise<unknown> {
  return ((await readDocument(page, 'settings')) as { use?: unknown } | undefined)?.use;
}
