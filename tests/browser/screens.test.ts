import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type App, answer, beginQuiz, settled, startApp, watchErrors } from './app.ts';
import { expectNothingBeyond, violationsOn } from './everywhere.ts';

let app: App;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.close());

const SCREENS = [
  ['Today', '', 'Today'],
  ['Charts', '#/charts', 'Charts'],
  ['a pattern', '#/charts/cross-side', 'Cross-side'],
  ['Drills', '#/drills', 'Drills'],
  ['Rehearsal', '#/rehearsal', 'Rehearsal'],
  ['By ear', '#/ear', 'No line met yet'],
  ['Look up', '#/look-up', 'Look up'],
  ['Placement', '#/placement', 'Placement'],
  ['Print', '#/print/cross-side', 'Print'],
  ['Settings', '#/settings', 'Settings'],
] as const;

describe.each(['light', 'dark'] as const)('in the %s theme', (colorScheme) => {
  describe.each([
    ['a phone', 390, 844],
    ['a desktop', 1280, 800],
  ] as const)('on %s', (_name, width, height) => {
    let page: Page;
    beforeAll(async () => {
      page = await app.open({ width, height, colorScheme });
    });
    afterAll(() => page.context().close());

    it.each(SCREENS)(
      '%s has its heading, no errors, nothing beyond the edge, nothing inaccessible',
      async (_screen, fragment, heading) => {
        const errors = watchErrors(page);
        await page.goto(app.url + fragment);
        await page.getByRole('heading', { level: 1, name: heading }).waitFor();
        await expectSound(page);
        expect(errors).toEqual([]);
      },
    );

    it('every state of the quiz does too', async () => {
      await page.goto(app.url);
      await page.getByRole('button', { name: 'Begin' }).click();
      expect(await settled(page)).toBe('meeting');
      await expectSound(page);
      await page.goto(app.url);
      await beginQuiz(page);
      await expectSound(page);
      await expectNoScrolling(page);
      await page.keyboard.press('Enter');
      await page.getByText('Type the number first, or point at the rail.').waitFor();
      await expectSound(page);
      await answer(page, '1.1');
      await expectSound(page);
      await expectNoScrolling(page);
    });
  });
});

describe('small, wide and enlarged', () => {
  it.each([
    ['a small phone', 320, 640, 16],
    ['a phone on its side', 844, 390, 16],
    ['text at 200 %', 390, 844, 32],
    ['a desktop at 200 %', 1280, 800, 32],
  ])(
    '%s: nothing is cut off, nothing lies on top of anything',
    async (_name, width, height, text) => {
      const page = await app.open({ width, height });
      await page.addInitScript((size) => {
        document.addEventListener('DOMContentLoaded', () => {
          document.documentElement.style.fontSize = `${size}px`;
        });
      }, text);
      for (const [, fragment] of SCREENS) {
        await page.goto(app.url + fragment);
        await page.reload();
        await page.getByRole('heading', { level: 1 }).waitFor();
        await expectNothingBeyond(page);
      }
      await page.goto(app.url);
      await page.getByRole('button', { name: 'Begin' }).click();
      await settled(page);
      await expectNothingBeyond(page);
      await page.goto(app.url);
      await beginQuiz(page);
      await expectNothingBeyond(page);
      await expectApart(page, ['.stage .table-figure', '.stage .facts', '.controls']);
      await answer(page, '1.1');
      await expectNothingBeyond(page);
      await expectApart(page, ['.stage .table-figure', '.controls']);
      await page.context().close();
    },
  );
});

describe('the question’s picture', () => {
  it('shows no path and no number of the answer before it is given', async () => {
    const page = await app.open();
    await beginQuiz(page);
    expect(await page.locator('.table-figure .way').count()).toBe(0);
    expect(await page.locator('.table-figure .aim').count()).toBe(0);
    expect(await page.locator('.table-figure .mark').count()).toBe(1);
    await answer(page, '0.2');
    expect(await page.locator('.table-figure .way.true').count()).toBe(1);
    expect(await page.locator('.table-figure .way.yours').count()).toBe(1);
    await page.context().close();
  });
});

describe('settings', () => {
  it('take effect at once and are there after a reload', async () => {
    const page = await app.open({ fragment: '#/settings' });
    await page.getByLabel('Theme').selectOption({ label: 'dark' });
    await page.locator('html[data-theme="dark"]').waitFor();
    await page.reload();
    await page.locator('html[data-theme="dark"]').waitFor();
    await page.context().close();
  });

  it.each([
    ['Settings', '#/settings', (page: Page) => page.getByLabel('Theme').selectOption('dark')],
    ['Today', '#/', (page: Page) => page.getByRole('radio', { name: '10 min' }).click()],
    [
      'Drills',
      '#/drills',
      (page: Page) => page.getByRole('radio', { name: 'from the head' }).click(),
    ],
  ] as const)('on %s a disk that is full says so', async (_, fragment, change) => {
    const page = await app.open({ fragment });
    await page.getByRole('navigation').waitFor();
    await page.evaluate(() => {
      IDBObjectStore.prototype.put = () => {
        throw new DOMException('no room', 'QuotaExceededError');
      };
    });
    await change(page);
    await page.getByText('Not saved: the device has no room left.').waitFor();
    await page.context().close();
  });

  it('let a beginner have the printed picture only', async () => {
    const page = await app.open({ fragment: '#/settings' });
    await page.getByLabel('Pictures').selectOption({ label: 'as printed only' });
    await page.goto(`${app.url}#/`);
    await beginQuiz(page);
    for (let n = 0; n < 3; n++) {
      // Starts on the foot and head rail belong to the patterns that begin there, as printed.
      expect([
        'left rail, from the foot',
        'foot rail, from the right',
        'head rail, from the left',
      ]).toContain(await page.locator('.facts .fact-note').first().textContent());
      await answer(page, '1');
      await page.keyboard.press('Enter');
      await settled(page);
      if ((await page.locator('main.quiz').getAttribute('data-phase')) === 'meeting') break;
    }
    await page.context().close();
  });
});

describe('backups', () => {
  it('go out as a file and come back on another device', async () => {
    const page = await app.open();
    await beginQuiz(page);
    await answer(page, '1.1');
    await page.goto(`${app.url}#/settings`);
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Save a backup' }).click(),
    ]);
    const file = await download.path();
    const other = await app.open({ fragment: '#/settings' });
    await other.getByLabel('Restore from a file').setInputFiles(file);
    await other.getByText(/^Restored \d+ entries of the log\.$/).waitFor();
    await other.getByLabel('Restore from a file').setInputFiles(file);
    await other.getByText('Nothing was missing').waitFor();
    await other.getByLabel('Restore from a file').setInputFiles({
      name: 'cut.json',
      mimeType: 'application/json',
      buffer: Buffer.from(readFileSync(file, 'utf8').slice(0, -30)),
    });
    await other.getByText('That file is cut off or is not a backup').waitFor();
    await page.context().close();
    await other.context().close();
  });
});

describe('the pattern page', () => {
  it('draws the line that is chosen, by keyboard too', async () => {
    const page = await app.open({ fragment: '#/charts/foot-to-side' });
    await page.getByRole('button', { name: 'Draw the line from 3.0' }).focus();
    await page.keyboard.press('Enter');
    await page.getByRole('img', { name: /^The line from 3\.0 at soft/ }).waitFor();
    expect(await page.locator('.table-figure .way').count()).toBe(3);
    await page.context().close();
  });

  it('says why a start has no number', async () => {
    const page = await app.open({
      fragment: '#/charts/foot-to-far-corner',
    });
    await page.getByText('the ball lands in the pocket first').waitFor();
    await page.context().close();
  });

  it('follows a slider: numbers and paths, and back to the chart’s table', async () => {
    const page = await app.open({ fragment: '#/charts/cross-corner' });
    const first = await sheetOf(page);
    const paths = await pathsOf(page);
    await page.getByRole('slider', { name: 'Cushion liveliness' }).fill('0.7');
    await page.getByText('Trying a table out').waitFor();
    await page.waitForFunction(
      (was) => document.querySelector('.number-table')?.textContent !== was,
      first,
    );
    expect(await pathsOf(page)).not.toEqual(paths);
    await page.getByRole('button', { name: 'Back to the chart’s table' }).click();
    await page.waitForFunction(
      (was) => document.querySelector('.number-table')?.textContent === was,
      first,
    );
    expect(await pathsOf(page)).toEqual(paths);
    await page.context().close();
  });

  it('ends on the newest of many requests', async () => {
    const page = await app.open({ fragment: '#/charts/foot-to-side' });
    await sheetOf(page);
    const slider = page.getByRole('slider', { name: 'Cushion grip' });
    await slider.fill('0.2');
    await page.waitForTimeout(400);
    const wanted = await sheetOf(page);
    // Sixty values as fast as the page takes them; the last is the one before.
    await slider.evaluate((input: HTMLInputElement) => {
      for (let n = 0; n <= 60; n++) {
        input.value = n < 60 ? String((n % 25) / 100) : '0.2';
        input.dispatchEvent(new Event('input', { bubbles: true }));
      }
    });
    await page.waitForTimeout(600);
    expect(await sheetOf(page)).toBe(wanted);
    await page.context().close();
  });

  it('shows what changes on another table, and marks the lines that move', async () => {
    const page = await app.open({ fragment: '#/charts/foot-to-side' });
    await page.getByLabel('Compare with').selectOption({ label: '7 ft' });
    await page.locator('.compared').waitFor();
    const moved = await page.locator('.compared td.moved .by').allTextContents();
    expect(moved.length).toBeGreaterThan(0);
    for (const by of moved) expect(Math.abs(Number(by.replace('−', '-')))).toBeGreaterThan(0.1);
    await page.getByText(/From 9 ft to 7 ft \d+ of 15 lines move/).waitFor();
    expect(await page.getByText('Trying a table out').count()).toBe(0);
    await page.context().close();
  });

  it('is a kick to a point of the rail when that is the target', async () => {
    const page = await app.open({ fragment: '#/charts/cross-side' });
    await sheetOf(page);
    await page
      .getByRole('combobox', { name: /^Target/ })
      .selectOption({ label: 'a ball on the left rail' });
    await page.waitForFunction(() => document.querySelector('.verdict-chip') === null);
    const slider = page.getByRole('slider', { name: /^Ball on the left rail/ });
    await slider.fill('2.5');
    await page.getByText('from square').waitFor();
    await page.context().close();
  });

  it('tells verdict, window, drift and anchors of a line', async () => {
    const page = await app.open({ fragment: '#/charts/cross-side' });
    const sheet = page.locator('.line-sheet');
    await sheet
      .getByText(/drops from [\d.]+ to [\d.]+/)
      .first()
      .waitFor();
    await sheet.getByText(/moves the arrival [\d.]+ diamond/).waitFor();
    await sheet.getByText('banks', { exact: true }).waitFor();
    await page.getByRole('heading', { name: /^Remember \d+ of 7$/ }).waitFor();
    await page.goto(`${app.url}#/charts`);
    await page.getByText(/^Remember \d+ numbers instead of \d+/).waitFor();
    await page.context().close();
  });

  it('has no accessibility violations while a table is tried and compared', async () => {
    for (const colorScheme of ['light', 'dark'] as const) {
      const page = await app.open({
        fragment: '#/charts/foot-to-side',
        colorScheme,
      });
      await page.getByLabel('Compare with').selectOption({ label: '7 ft' });
      await page.getByRole('slider', { name: 'Cloth drag' }).fill('0.02');
      await page.locator('.compared').waitFor();
      await expectSound(page);
      await page.context().close();
    }
  });
});

describe('naming', () => {
  it('changes what is asked and every number, and back again', async () => {
    const page = await app.open({ fragment: '#/charts/foot-to-side' });
    const through = await sheetOf(page);
    await page.goto(`${app.url}#/settings`);
    await page
      .getByLabel('A number names')
      .selectOption({ label: 'the point of the nose it crosses' });
    await page.goto(`${app.url}#/charts/foot-to-side`);
    await page.getByText('Aim at the point of the nose').waitFor();
    expect(await sheetOf(page)).not.toBe(through);
    await page.goto(`${app.url}#/`);
    await beginQuiz(page);
    await page.locator('.facts').getByText('aim at', { exact: true }).waitFor();
    await page.context().close();
  });
});

describe('the step cue', () => {
  it('is asked on the answer screen and told on a press', async () => {
    const page = await app.open({});
    await beginQuiz(page);
    await answer(page, '1');
    const cue = page.locator('.step-cue');
    await cue.getByText(/^How much a diamond from/).waitFor();
    expect(await cue.locator('p').isVisible()).toBe(false);
    await cue.locator('summary').click();
    expect(await cue.locator('p').textContent()).toMatch(/a diamond\.|stays the same/);
    await page.context().close();
  });
});

/** What the table of numbers says, once it is there. */
async function sheetOf(page: Page): Promise<string> {
  await page.locator('.number-table').first().waitFor();
  return (await page.locator('.number-table').first().textContent()) ?? '';
}

async function pathsOf(page: Page): Promise<readonly (string | null)[]> {
  return page
    .locator('.pattern-figure .way')
    .evaluateAll((ways) => ways.map((way) => way.getAttribute('d')));
}

async function expectSound(page: Page): Promise<void> {
  expect(await violationsOn(page)).toEqual([]);
  await expectNothingBeyond(page);
}

/** Parts of a screen do not overlap, and none has shrunk to nothing. */
async function expectApart(page: Page, parts: readonly string[]): Promise<void> {
  const boxes = await Promise.all(parts.map((part) => page.locator(part).boundingBox()));
  boxes.forEach((a, n) => {
    if (!a) throw new Error(`${parts[n]} is not there`);
    expect(a.height, parts[n]).toBeGreaterThan(100);
    for (const b of boxes.slice(n + 1)) {
      if (!b) continue;
      const apart = a.x + a.width <= b.x + 1 || b.x + b.width <= a.x + 1;
      const stacked = a.y + a.height <= b.y + 1 || b.y + b.height <= a.y + 1;
      expect(apart || stacked, `${parts[n]} and another overlap`).toBe(true);
    }
  });
}

/** The quiz fits its screen: the pad and the table are in the thumb's reach without scrolling. */
async function expectNoScrolling(page: Page): Promise<void> {
  const beyond = await page.evaluate(
    () => document.documentElement.scrollHeight - window.innerHeight,
  );
  expect(beyond).toBeLessThanOrEqual(0);
  const lowest = await page
    .locator('.controls')
    .evaluate((controls) => controls.getBoundingClientRect().bottom - window.innerHeight);
  expect(lowest).toBeLessThanOrEqual(0);
}
