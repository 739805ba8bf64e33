import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { computeChart, formatDecimal, HARBOUR_LANE, parseDecimal } from '../../src/charts/index.ts';
import {
  type App,
  answerRight,
  beginQuiz,
  enlarge,
  type Remembered,
  reachQuestion,
  startApp,
  watchErrors,
} from './app.ts';
import { readEvents } from './events.ts';
import { everywhere, expectNothingBeyond } from './everywhere.ts';
import { playerWith } from './seed.ts';

let app: App;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.close());

/** An option is never visible by itself. */
const ATTACHED = { state: 'attached' } as const;

const chart = computeChart(HARBOUR_LANE, 'through');

/** The chart's own number of the Cross-side line that is asked. */
async function truthOf(page: Page): Promise<string> {
  const start = parseDecimal((await page.locator('.fact-value').first().textContent()) ?? '');
  const line = chart.lines.find(
    (one) => one.pattern === 'cross-side' && start.ok && one.start === start.value,
  );
  if (!line) throw new Error(`no such line: ${JSON.stringify(start)}`);
  return formatDecimal(line.numbers.medium.printed);
}

describe('placement', () => {
  it('proves a pattern by the keyboard alone, and none of its lines is new afterwards', async () => {
    const page = await app.open({ player: await playerWith({ newLinesADay: 12 }) });
    const errors = watchErrors(page);
    await page.getByRole('link', { name: 'Skip lines I already know' }).press('Enter');
    await choose(page, 'Cross-side');
    await page.getByRole('button', { name: 'Begin: at most 3 questions' }).press('Enter');
    for (let n = 0; n < 3; n++) {
      await call(page, await truthOf(page));
      await page.getByRole('heading', { name: 'Right' }).waitFor();
      await page.keyboard.press('Enter');
    }
    await page.getByText(/^Proven: 3 lines, 4 more follow from them; they come back/).waitFor();
    expect((await readEvents(page)).map(({ type }) => type)).toEqual(Array(7).fill('proved'));
    await page.keyboard.press('Enter');

    // Twelve new lines are shown and asked, and none of them is of the proven pattern.
    const met: Remembered = new Map();
    await page.locator('.agenda .big strong', { hasText: '24' }).waitFor();
    await beginQuiz(page, met);
    do {
      await answerRight(page, met);
      await page.keyboard.press('Enter');
    } while ((await reachQuestion(page, met)) === 'asking');
    const patterns = [...met.keys()].map((key) => key.replace(/ [\d.]+$/, ''));
    expect(patterns).toHaveLength(12);
    expect(patterns).toContain('Cross-corner');
    expect(patterns).not.toContain('Cross-side');
    expect(errors).toEqual([]);
    await page.context().close();
  });

  it('all wrong: two questions, nothing written, and the pattern is left to be learned', async () => {
    const page = await app.open({ fragment: '#/placement' });
    await choose(page, 'Cross-side');
    await page.getByRole('button', { name: /^Begin/ }).click();
    await call(page, '0');
    await page.getByRole('heading', { name: 'Off' }).waitFor();
    await page.getByText('Not proven. You’ll learn this one.').waitFor();
    await page.getByRole('button', { name: 'Next', exact: true }).click();
    await page.getByRole('button', { name: 'Show me' }).click();
    await page.getByRole('button', { name: 'What is proven' }).click();
    await page.getByText('Nothing proven').waitFor();
    await page.getByText('7 to be learned').waitFor();
    expect(await readEvents(page)).toEqual([]);
    // Its numbers were shown just now: it is there to choose, but not chosen.
    await page.getByRole('button', { name: 'More patterns' }).click();
    expect(await page.getByLabel(/^Cross-side/).isChecked()).toBe(false);
    expect(await page.getByLabel(/^Cross-corner/).isChecked()).toBe(true);
    await page.context().close();
  });

  it('broken off by a reload, it goes on with what is left; stopped, it keeps what is proven', async () => {
    const page = await app.open({ fragment: '#/placement' });
    await choose(page, 'Cross-side');
    await page.getByRole('button', { name: /^Begin/ }).click();
    await call(page, await truthOf(page));
    const first = await readEvents(page);
    expect(first).toMatchObject([{ type: 'proved', implied: false, errors: [0] }]);
    await page.reload();
    const row = page.locator('.pattern-row').first();
    expect(await row.textContent()).toContain('Cross-side1 of 7 lines met; at most 2 questions');
    expect(await row.getByRole('checkbox').isChecked()).toBe(true);
    await page.getByRole('button', { name: /^Begin/ }).click();
    await page.locator('main.quiz[data-phase="asking"]').waitFor();
    await call(page, await truthOf(page));
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'Stop' }).click();
    await page.getByRole('heading', { name: 'Placement stopped' }).waitFor();
    await page.getByText(/^Proven: 1 line; /).waitFor();
    const cards = (await readEvents(page)).map(({ card }) => card);
    expect(new Set(cards).size).toBe(2);
    await page.getByRole('button', { name: 'To Today' }).click();
    await page.getByRole('heading', { name: 'Today' }).waitFor();
    expect(await page.getByText('Skip lines I already know').count()).toBe(0);
    await page.context().close();
  });
});

/** Text at 200 % as WCAG 2.2 has it in 1.4.4; the two phones are ours. */
const PHONES = [
  [390, 844],
  [320, 640],
] as const;

describe('large text on a phone and on a small one', () => {
  // `font-display: optional`: where the file comes late, the device's own, wider here, stays.
  it.each(['our typeface', "the device's typeface"])(
    'in %s the places to go are one row, and the button to begin lies clear above it',
    async (typeface) => {
      const ours = typeface === 'our typeface';
      const page = await app.open({
        fragment: '#/placement',
        ...(ours ? {} : { without: '**/*.woff2' }),
      });
      await enlarge(page, 32);
      if (!ours) {
        const faces = await page.evaluate(() => [...document.fonts].map(({ status }) => status));
        expect(faces).not.toContain('loaded');
      }
      const begin = page.getByRole('button', { name: /^Begin/ });
      await begin.waitFor();
      const places = page.locator('.navigation a:visible');
      for (const [width, height] of PHONES) {
        const on = `${width} × ${height}`;
        await page.setViewportSize({ width, height });
        const tops = await places.evaluateAll((all) =>
          all.map((a) => a.getBoundingClientRect().top),
        );
        // Memory has its place on Today where there is no room for six.
        expect(tops.length, on).toBe(5);
        expect(new Set(tops).size, on).toBe(1);
        const cut = await places.evaluateAll((all) =>
          all.filter((a) => a.scrollWidth > a.clientWidth),
        );
        expect(cut, on).toEqual([]);
        const row = await page.locator('.navigation').boundingBox();
        const button = await begin.boundingBox();
        if (!row || !button) throw new Error(`not there on ${on}`);
        expect(row.y + row.height, on).toBeCloseTo(height, 0);
        expect(button.y, on).toBeGreaterThanOrEqual(0);
        expect(button.y + button.height, on).toBeLessThanOrEqual(row.y);
        await page.locator('.navigation a').last().focus();
        const last = await page.locator('.navigation a').last().boundingBox();
        expect((last?.x ?? width) + (last?.width ?? width), on).toBeLessThanOrEqual(width);
        // The next size is looked at as one where nobody has been: what has the focus already, or
        // is partly in view, would not be scrolled to.
        await page.locator('.navigation').evaluate((one) => {
          (document.activeElement as HTMLElement).blur();
          one.scrollTo(0, 0);
        });
      }
      await page.context().close();
    },
  );

  it('Today breaks no word of its ways, and its bars end alike', async () => {
    const page = await app.open();
    await enlarge(page, 32);
    await page.locator('.ways').waitFor();
    for (const [width, height] of PHONES) {
      const on = `${width} × ${height}`;
      await page.setViewportSize({ width, height });
      expect(
        await brokenWords(
          page,
          'h1, .ways strong, .ways span, .offer .key, .bars li > span:first-child',
        ),
        on,
      ).toEqual([]);
      const ends = await page
        .locator('.bar')
        .evaluateAll((bars) => bars.map((bar) => bar.getBoundingClientRect().right));
      expect(ends.length, on).toBeGreaterThan(1);
      expect(Math.max(...ends) - Math.min(...ends), on).toBeLessThan(0.5);
      await expectNothingBeyond(page);
    }
    await page.context().close();
  });
});

describe('in every theme and size', () => {
  it('every state is accessible and within the page', async () => {
    const page = await app.open({ fragment: '#/placement' });
    await page.getByRole('button', { name: 'Choose none' }).click();
    await everywhere(page);
    await page.getByLabel(/^Cross-side/).check();
    await page.getByRole('button', { name: /^Begin/ }).click();
    await page.locator('main.quiz[data-phase="asking"]').waitFor();
    await everywhere(page);
    await page.keyboard.press('Enter');
    await page.getByText('Type the number first').waitFor();
    await everywhere(page);
    for (const number of [await truthOf(page), '0']) {
      await call(page, number);
      await everywhere(page);
      await page.keyboard.press('Enter');
    }
    await page.getByRole('heading', { name: 'Placement done' }).waitFor();
    await everywhere(page);
    await page.goto(`${app.url}#/settings`);
    await page.getByText('How often each pattern comes up').click();
    await everywhere(page);
    await page.context().close();
  });
});

describe('what is asked', () => {
  it('is chosen in Settings, all but the number, and is there after a reload', async () => {
    const page = await app.open({ fragment: '#/settings' });
    expect(await page.getByLabel(/^Number/).isDisabled()).toBe(true);
    expect(await page.getByLabel(/^Number/).isChecked()).toBe(true);
    await page.getByLabel(/^Window/).press('Space');
    await page.getByLabel(/^Show the known numbers/).press('Space');
    await page.getByText('How often each pattern comes up').press('Enter');
    await page.getByLabel('Cross-side').selectOption('seldom');
    // A screen that is opened anew shows what has been saved, as soon as it has been.
    await page.goto(`${app.url}#/`);
    await page.goto(`${app.url}#/settings`);
    await page.getByText('How often each pattern comes up').click();
    await page.locator('.uses option:checked', { hasText: 'seldom' }).nth(1).waitFor(ATTACHED);
    await page.reload();
    await page.getByText('How often each pattern comes up').click();
    expect(await page.getByLabel(/^Window/).isChecked()).toBe(false);
    expect(await page.getByLabel(/^Trust/).isChecked()).toBe(true);
    expect(await page.getByLabel(/^Show the known numbers/).isChecked()).toBe(false);
    expect(await chosenOf(page, 'Cross-side')).toBe('seldom');
    expect(await chosenOf(page, 'Cross-corner')).toBe('often');
    await page.context().close();
  });

  it('keeps both of two quick changes', async () => {
    const page = await app.open({ fragment: '#/settings' });
    await page.getByLabel(/^Window/).waitFor();
    await page.evaluate(() => {
      const boxes = document.querySelectorAll<HTMLInputElement>('.checks input');
      for (const n of [1, 6]) boxes[n]?.click();
    });
    await page.locator('.checks input:not(:checked)').nth(1).waitFor();
    await page.goto(`${app.url}#/`);
    await page.goto(`${app.url}#/settings`);
    await page.locator('.checks input:not(:checked)').nth(1).waitFor();
    expect(await page.getByLabel(/^Window/).isChecked()).toBe(false);
    expect(await page.getByLabel(/^Trust/).isChecked()).toBe(false);
    await page.context().close();
  });

  it('tells the tolerance of each kind as it is in force', async () => {
    const page = await app.open({ fragment: '#/settings' });
    // Arrivals within 2.5 times the tolerance, balls within twice at most: the rule of grading.
    await page.getByText('within 0.25:').waitFor();
    await page.getByLabel(/^Tolerance/).selectOption({ label: '0.2 diamond' });
    await page.getByText('within 0.50:').waitFor();
    await page.getByText('0.2 at least, 0.4 at most').waitFor();
    await page.context().close();
  });
});

/** This pattern and no other. */
async function choose(page: Page, pattern: string): Promise<void> {
  await page.getByRole('button', { name: 'Choose none' }).press('Enter');
  await page.getByLabel(new RegExp(`^${pattern}`)).press('Space');
}

/** Types a number, calls it and waits until the result is told. */
async function call(page: Page, number: string): Promise<void> {
  await page.locator('main.quiz[data-phase="asking"]').waitFor();
  await page.keyboard.type(number);
  await page.keyboard.press('Enter');
  await page.locator('main.quiz[data-phase="answered"]').waitFor();
}

/** Words that do not stand on one line. */
function brokenWords(page: Page, selector: string): Promise<string[]> {
  return page.evaluate((wanted) => {
    const broken: string[] = [];
    for (const element of document.querySelectorAll(wanted)) {
      const text = element.firstChild;
      if (!(text instanceof Text)) throw new Error(`no text: ${element.outerHTML}`);
      for (const { 0: word, index } of text.data.matchAll(/[^\s-]+/g)) {
        const range = document.createRange();
        range.setStart(text, index);
        range.setEnd(text, index + word.length);
        if (range.getClientRects().length > 1) broken.push(word);
      }
    }
    return broken;
  }, selector);
}

async function chosenOf(page: Page, label: string): Promise<string | null> {
  const select = page.getByLabel(label);
  return select.evaluate((one) => (one as HTMLSelectElement).selectedOptions[0]?.text ?? null);
}
