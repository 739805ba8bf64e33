import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type App, answer, beginQuiz, startApp } from './app.ts';
import { everywhere } from './everywhere.ts';

let app: App;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.close());

describe('the pattern page', () => {
  it('draws the line that is chosen, by keyboard too', async () => {
    const page = await app.open({ fragment: '#/charts/foot-to-side' });
    await page.getByRole('button', { name: 'Draw the line from 3.0' }).focus();
    await page.keyboard.press('Enter');
    await page.getByRole('img', { name: /^The line from 3\.0 at soft/ }).waitFor();
    expect(await page.locator('.table-figure .path').count()).toBe(3);
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
    const page = await app.open();
    await page.addInitScript(countRequests);
    await page.goto(`${app.url}#/charts/foot-to-side`);
    await page.reload();
    const first = await sheetOf(page);
    const slider = page.getByRole('slider', { name: 'Cushion grip' });
    await slider.fill('0.2');
    await expect.poll(() => sheetOf(page)).not.toBe(first);
    const wanted = await sheetOf(page);
    // Sixty values as fast as the page takes them; the last is the one before.
    await slider.evaluate((input: HTMLInputElement) => {
      for (let n = 0; n <= 60; n++) {
        input.value = n < 60 ? String((n % 25) / 100) : '0.2';
        input.dispatchEvent(new Event('input', { bubbles: true }));
      }
    });
    await page.waitForFunction(() => {
      const { requests, underWay } = window as unknown as Counts;
      return underWay === 0 && requests > 1;
    });
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

  it('is accessible in every theme and size while a table is tried and compared', async () => {
    const page = await app.open({ fragment: '#/charts/foot-to-side' });
    await page.getByLabel('Compare with').selectOption({ label: '7 ft' });
    await page.getByRole('slider', { name: 'Cloth drag' }).fill('0.02');
    await page.locator('.compared').waitFor();
    await everywhere(page);
    await page.context().close();
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
    await cue.getByText(/^How much per diamond, from/).waitFor();
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
    .locator('.pattern-figure .path')
    .evaluateAll((ways) => ways.map((way) => way.getAttribute('d')));
}

interface Counts {
  readonly requests: number;
  readonly underWay: number;
}

/** In the page, before its own scripts: how many requests workers were sent, and not answered yet. */
function countRequests(): void {
  const counts = Object.assign(window, { requests: 0, underWay: 0 });
  const heard = new WeakSet<Worker>();
  const { postMessage } = Worker.prototype;
  Worker.prototype.postMessage = function (this: Worker, message: unknown) {
    counts.requests += 1;
    counts.underWay += 1;
    if (!heard.has(this)) {
      heard.add(this);
      this.addEventListener('message', () => {
        counts.underWay -= 1;
      });
    }
    postMessage.call(this, message);
  };
}
