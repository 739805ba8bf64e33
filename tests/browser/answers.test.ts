/** What can be done with a question and its answer beside typing: pointing, looking, marking. */

import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { isLineCard } from '../../src/cards/index.ts';
import {
  computeChart,
  type Decimal,
  formatDecimal,
  HARBOUR_LANE,
  lastRevision,
  PATTERNS,
  type Pattern,
  type PatternId,
  plus,
  toDecimal,
} from '../../src/charts/index.ts';
import { spot } from '../../src/figure/frame.ts';
import { DEFAULT_SETTINGS, formatBackup } from '../../src/store/index.ts';
import { divisions, MIRRORS, type Mirror, sightAt, TABLES } from '../../src/table/index.ts';
import { type App, answer, beginQuiz, settled, startApp, watchErrors } from './app.ts';
import { readEvents } from './events.ts';
import { violationsOn } from './everywhere.ts';
import { type Player, playerWho, playerWith } from './seed.ts';

let app: App;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.close());

/** Asked in the printed picture, without looking at a new line before. */
const PRINTED_AND_UNSEEN = { pictures: 'one', meetFirst: false } as const;

interface Asking {
  readonly reduced?: boolean;
  readonly player?: Player;
}

/** A page at its first question, in the printed picture. */
async function asking({ reduced, player }: Asking = {}): Promise<Page> {
  const who = player ?? (await playerWith(PRINTED_AND_UNSEEN));
  const page = await app.open({ player: who, fragment: '#/quiz' });
  if (reduced) await page.emulateMedia({ reducedMotion: 'reduce' });
  await page.locator('main.quiz[data-phase="asking"]').waitFor();
  return page;
}

/** The pattern that is asked: pictures are as printed, so its name is the chart's. */
async function patternOn(page: Page): Promise<Pattern> {
  const name = await page.locator('h1').textContent();
  const pattern = PATTERNS.find((one) => one.name === name);
  if (!pattern) throw new Error(`no pattern ${name}`);
  return pattern;
}

const frame = { table: TABLES['9ft'], mirror: MIRRORS[0] as Mirror };

/** Where a diamond of the rail that is aimed at is on the screen. */
async function placeOf(page: Page, diamond: number): Promise<{ x: number; y: number }> {
  const { aim } = await patternOn(page);
  const at = spot(frame, sightAt(frame.table, aim, diamond));
  return page.locator('svg.table-figure').evaluate((svg, spotAt) => {
    const matrix = (svg as SVGSVGElement).getScreenCTM();
    if (!matrix) throw new Error('the table is not drawn');
    const { x, y } = new DOMPoint(spotAt.x, spotAt.y).matrixTransform(matrix);
    return { x, y };
  }, at);
}

describe('the question’s picture', () => {
  it('shows no path and no number of the answer before it is given', async () => {
    const page = await app.open();
    await beginQuiz(page);
    expect(await page.locator('.table-figure .path').count()).toBe(0);
    expect(await page.locator('.table-figure .aim').count()).toBe(0);
    expect(await page.locator('.table-figure .mark').count()).toBe(1);
    await answer(page, '0.2');
    expect(await page.locator('.table-figure .path.true').count()).toBe(1);
    expect(await page.locator('.table-figure .path.yours').count()).toBe(1);
    await page.context().close();
  });
});

describe('pointing at the rail', () => {
  it('follows a drag, shows a readout meanwhile, and snaps to the printed step', async () => {
    const page = await asking();
    const [from, to] = [await placeOf(page, 1), await placeOf(page, 2.32)];
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    await page.mouse.move((from.x + to.x) / 2, to.y);
    await page.mouse.move(to.x, to.y);
    expect(await page.locator('.table-figure .readout').count()).toBe(1);
    expect(await page.locator('.answer-box').textContent()).toBe('2.3');
    await page.mouse.up();
    expect(await page.locator('.table-figure .readout').count()).toBe(0);
    await page.keyboard.press('Enter');
    await page.locator('main.quiz[data-phase="answered"]').waitFor();
    expect((await readEvents(page)).at(-1)).toMatchObject({ answer: [2.3] });
    await page.context().close();
  });

  it('is a slider for keys and screen readers, graded like a typed number', async () => {
    const page = await asking();
    const slider = page.getByRole('slider', { name: 'aim through' });
    expect(await slider.getAttribute('aria-valuetext')).toBe('no number yet');
    await slider.focus();
    await page.keyboard.press('ArrowRight');
    const middle = divisions((await patternOn(page)).aim.rail) / 2;
    expect(await slider.getAttribute('aria-valuenow')).toBe(String(middle));
    for (const key of ['ArrowRight', 'ArrowRight', 'ArrowLeft', 'PageDown', 'ArrowUp']) {
      await page.keyboard.press(key);
    }
    const now = middle + 0.1 + 0.1 - 0.1 - 1 + 0.1;
    expect(await slider.getAttribute('aria-valuetext')).toBe(now.toFixed(1));
    expect(await page.locator('.answer-box').textContent()).toBe(now.toFixed(1));
    expect(await violationsOn(page)).toEqual([]);
    await page.keyboard.press('Enter');
    await page.locator('main.quiz[data-phase="answered"]').waitFor();
    expect((await readEvents(page)).at(-1)).toMatchObject({
      answer: [Number(now.toFixed(1))],
      kind: 'number',
    });
    await page.context().close();
  });
});

describe('the answer’s picture', () => {
  const running = (page: Page) =>
    page.evaluate(
      () => document.getAnimations().filter((one) => one.playState === 'running').length,
    );

  it('rolls both balls, and again on request', async () => {
    const page = await asking();
    await answer(page, '1.0');
    // The table is drawn anew once the outcome is told.
    await expect.poll(() => page.locator('.table-figure .path').count()).toBe(2);
    await expect.poll(() => running(page)).toBeGreaterThan(1);
    await page.evaluate(() => Promise.all(document.getAnimations().map((one) => one.finished)));
    expect(await running(page)).toBe(0);
    await page.getByRole('button', { name: 'Roll again' }).click();
    await expect.poll(() => running(page)).toBeGreaterThan(1);
    await page.context().close();
  });

  it('stands still where motion is not wished, with both ways drawn', async () => {
    const page = await asking({ reduced: true });
    await answer(page, '1.0');
    await expect.poll(() => page.locator('.table-figure .path').count()).toBe(2);
    expect(await running(page)).toBe(0);
    await page.context().close();
  });
});

/** Puts off what the page does once a frame is drawn, until it is called in. */
async function putOff(page: Page): Promise<() => Promise<void>> {
  await page.evaluate(() => {
    const later: (() => void)[] = [];
    const { setTimeout: real } = window;
    Object.assign(window, { setTimeout: (run: () => void) => later.push(run) });
    Object.assign(globalThis, {
      callIn: () => {
        Object.assign(window, { setTimeout: real });
        for (const run of later) run();
      },
    });
  });
  return () => page.evaluate(() => (globalThis as unknown as { callIn: () => void }).callIn());
}

describe.each([
  { width: 390, height: 844 },
  { width: 1280, height: 800 },
])('the outcome of an answer at $width × $height', (size) => {
  it('is told before the table is drawn anew, and stays where it was told', async () => {
    const page = await asking();
    await page.setViewportSize(size);
    const boxOf = (selector: string) => page.locator(selector).boundingBox();
    const [picture, callIn] = [await boxOf('.table-figure'), await putOff(page)];
    await page.locator('.table-figure').evaluate((svg) => svg.setAttribute('data-same', ''));
    await page.keyboard.type('1.0');
    await page.keyboard.press('Enter');
    await page.locator('.answer-panel .outcome').waitFor();
    const told = await boxOf('.answer-panel .said');
    expect(await boxOf('.table-figure')).toEqual(picture);
    expect(await page.locator('.table-figure .path').count()).toBe(0);
    // What was asked with cannot be pressed any more.
    const pad = await boxOf('.pad .key.call');
    if (!pad) throw new Error('the pad is gone');
    const over = await page.evaluate(
      ({ x, y }) => document.elementFromPoint(x, y)?.closest('.pad, .answer-panel')?.className,
      { x: pad.x + pad.width / 2, y: pad.y + pad.height / 2 },
    );
    expect(over).toBe('answer-panel');
    await callIn();
    await page.locator('.table-figure .path').first().waitFor();
    expect(await boxOf('.answer-panel .said')).toEqual(told);
    expect(await page.locator('.table-figure[data-same]').count()).toBe(1);
    expect(await page.locator('.pad').count()).toBe(0);
    await page.context().close();
  });
});

/** One whose chart has a number in place of a line's at medium, and who is asked no other line. */
function playerWhoMeasured(pattern: PatternId, start: Decimal, medium: Decimal): Promise<Player> {
  const measured = [{ pattern, start, medium }];
  const revision = {
    ...lastRevision(HARBOUR_LANE),
    number: 4,
    author: 'Quay Street',
    why: 'Measured on this table.',
    measured,
  };
  const chart = { ...HARBOUR_LANE, revisions: [...HARBOUR_LANE.revisions, revision] as const };
  const settings = { ...DEFAULT_SETTINGS, ...PRINTED_AND_UNSEEN };
  const backup = { events: [], charts: [chart], settings, unread: [] };
  return playerWho(async (model) => {
    await model.importBackup(formatBackup(backup, '2026-12-01T00:00:00Z'));
    const others = model.cards.value
      .filter(isLineCard)
      .filter((card) => card.pattern !== pattern || card.start !== start);
    for (const line of new Set(others.map(({ lineId }) => lineId))) {
      const moment = { day: model.today(), at: model.now() };
      await model.append({ type: 'set aside', line, aside: true, ...moment });
    }
  });
}

describe('a line whose number was measured 0.3 above the model’s', () => {
  it('goes in as it is called, and is said to differ where it is drawn', async () => {
    const line = computeChart(HARBOUR_LANE).lines.find(
      (one) => one.pattern === 'cross-corner' && one.start === toDecimal(3),
    );
    if (!line) throw new Error('no such line');
    const start = formatDecimal(line.start);
    const model = line.numbers.medium.printed;
    const measured = plus(model, toDecimal(0.3));
    const number = formatDecimal(measured);
    const player = await playerWhoMeasured(line.pattern, line.start, measured);
    const page = await asking({ reduced: true, player });

    await page.goto(`${app.url}#/charts/${line.pattern}/${start}`);
    const at = new RegExp(`the model has .*${formatDecimal(model)} at medium.* here; it is drawn`);
    await page.getByText(at).waitFor();
    expect(await page.locator('.pattern-figure .aim').count()).toBe(0);
    expect(await page.locator('.number-table .chosen .verdict-chip').textContent()).toBe('banks');
    expect(await violationsOn(page)).toEqual([]);

    await page.goto(`${app.url}#/quiz`);
    await page.locator('main.quiz[data-phase="asking"]').waitFor();
    expect((await patternOn(page)).id).toBe(line.pattern);
    expect(await page.locator('.fact-value').first().textContent()).toBe(start);
    await answer(page, number);
    const said = `Measured: the model has ${formatDecimal(model)} here; it is drawn as it plays on your table.`;
    await page.getByText(said).waitFor();
    expect(await page.locator('.ball-words').textContent()).toMatch(/^The ball drops/);
    expect(await page.locator('.table-figure .aim').count()).toBe(0);
    expect(await violationsOn(page)).toEqual([]);
    await page.context().close();
  });
});

describe('what is said of a line from its answer', () => {
  it('is kept: a note, a line set aside and taken in again', async () => {
    const page = await asking();
    const errors = watchErrors(page);
    await answer(page, '1.0');
    await page.getByText('This line').click();
    expect(await violationsOn(page)).toEqual([]);
    await page.getByLabel('Note').fill('Long tonight <b>');
    // Letters and Enter in a note are not answers.
    await page.keyboard.press('Tab');
    await page.getByRole('button', { name: 'Keep the note' }).click();
    await page.getByText('Noted.').waitFor();
    await page.getByRole('button', { name: 'Set aside' }).click();
    await page.getByText(/^Set aside:/).waitFor();
    await page.getByRole('button', { name: 'Take in again' }).waitFor();
    const events = await readEvents(page);
    expect(events.slice(-2)).toMatchObject([
      { type: 'noted', text: 'Long tonight <b>' },
      { type: 'set aside', aside: true },
    ]);
    expect(errors).toEqual([]);
    await page.context().close();
  });

  it('a flag opens the line on its chart, with the number proposed', async () => {
    const page = await asking();
    const start = await page.locator('.fact-value').first().textContent();
    const { id, name } = await patternOn(page);
    await answer(page, '1.0');
    await page.getByText('This line').click();
    expect(await page.getByLabel(/at medium it should be/).inputValue()).toBe('1.0');
    await page.getByLabel(/at medium it should be/).fill('eleven');
    await page.getByRole('button', { name: /^Flag it/ }).click();
    await page.getByText(/^A number from 0 to/).waitFor();
    await page.getByLabel(/at medium it should be/).fill('1,1');
    await page.getByRole('button', { name: /^Flag it/ }).click();
    await page.waitForURL((url) => url.hash === `#/charts/${id}/${Number(start)}`);
    await page.getByRole('heading', { level: 1, name }).waitFor();
    await page.getByText(/You flagged this line: 1\.1 instead of/).waitFor();
    expect((await readEvents(page)).at(-1)).toMatchObject({ type: 'flagged', number: 1.1 });
    await page.context().close();
  });
});

/** Looks at a line, or answers a question, and waits until something else is shown. */
async function goOn(page: Page): Promise<void> {
  if ((await settled(page)) === 'asking') await answer(page, '1.3');
  const shown = () =>
    page.evaluate(() => {
      const quiz = document.querySelector<HTMLElement>('main.quiz');
      return `${quiz?.dataset.phase} ${quiz?.textContent}`;
    });
  const before = await shown();
  await page.keyboard.press('Enter');
  await expect.poll(shown).not.toBe(before);
}

describe('a session of five minutes', () => {
  it('ends with what now holds longer, and goes on if wished', async () => {
    const page = await app.open({ player: await playerWith({ newLinesADay: 20 }) });
    await page.getByRole('radio', { name: '5', exact: true }).check();
    await beginQuiz(page);
    expect(page.url()).toContain('#/quiz/5');
    for (let n = 0; (await settled(page)) === 'meeting' || n < 3; n++) await goOn(page);
    // Five minutes later by the page's clock.
    await page.evaluate(() => {
      const now = Date.now;
      Date.now = () => now() + 300_000;
    });
    while ((await settled(page)) !== 'done') await goOn(page);
    await page.getByRole('heading', { name: 'Your minutes are over' }).waitFor();
    await page.getByText(/^Tomorrow: about \d+ questions\.$/).waitFor();
    expect(await violationsOn(page)).toEqual([]);
    await page.getByRole('button', { name: 'Continue' }).click();
    await expect.poll(() => settled(page)).toMatch(/^(asking|meeting)$/);
    await page.context().close();
  });
});
