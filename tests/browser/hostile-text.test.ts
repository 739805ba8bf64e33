/** Whatever a player or a chart's maker writes is text on every screen, and stays on it. */

import { readFile } from 'node:fs/promises';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { formatChartCode } from '../../src/app/device/chart-link.ts';
import { parseCsv } from '../bin/csv.ts';
import { eventsIn } from '../fuzz/calendar-reader.ts';
import { type App, startApp, watchErrors } from './app.ts';
import { ADDRESSES, chartSaying, openAs } from './every-screen.ts';
import { expectNothingBeyond } from './everywhere.ts';

let app: App;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.close());

/** The first part of each fits where a text is shortest. */
const MARKUP =
  '<img src=x onerror="window.ran=1">"><script>window.ran=2</script><svg/onload=ran=3>';
const TEXTS = [
  ['markup', MARKUP],
  ['an address of a script', 'javascript:window.ran=1//<a href="javascript:window.ran=1">x</a>'],
  ['one word of the greatest length', 'Wwwwwwwwwwwwwwwwwwww'.repeat(25)],
  ['another direction, and signs of many parts', `\u202e=HYPERLINK("x")👩‍👩‍👧‍👦${'ﷺ'.repeat(30)}`],
] as const;

/** Nothing of a text has become an element, and nothing in it has run. */
async function expectText(page: Page): Promise<void> {
  const strange = await page.evaluate(() => ({
    ran: (window as unknown as { ran?: number }).ran ?? null,
    elements: document.querySelectorAll(
      '#app script, #app img, #app iframe, #app object, [onerror], [onload], [href^="javascript:"], [src="x"]',
    ).length,
  }));
  expect(strange).toEqual({ ran: null, elements: 0 });
}

describe.each(TEXTS)('%s in every text', (_name, text) => {
  it('is shown as it is on every screen of a phone, and nothing is pushed beyond the edge', async () => {
    const page = await openAs(app, text);
    const errors = watchErrors(page);
    const shown = new Set<string>();
    for (const address of ADDRESSES) {
      await page.goto(app.url + address);
      await page.getByRole('heading', { level: 1 }).first().waitFor();
      await page.waitForLoadState('networkidle');
      await expectText(page);
      await expectNothingBeyond(page).catch((error: Error) => {
        throw new Error(`${address}: ${error.message}`);
      });
      const said = await page.evaluate(() => document.querySelector('#app')?.textContent ?? '');
      if (said.includes(text.slice(0, 30))) shown.add(address);
    }
    // Name of the chart, the day that counts, names under revisions.
    for (const address of ['#/', '#/charts', '#/revisions', '#/memory']) {
      expect([...shown]).toContain(address);
    }
    expect(errors).toEqual([]);
    await page.context().close();
  });

  it('comes with a chart by a link, and is text before and after it is taken', async () => {
    const page = await app.open({});
    const errors = watchErrors(page);
    const code = await formatChartCode({ ...chartSaying(text), id: 'another' });
    await page.goto(`${app.url}#/receive/${code}`);
    await page.getByRole('heading', { level: 1 }).waitFor();
    await page.getByText(text.slice(0, 20)).first().waitFor();
    await expectText(page);
    await expectNothingBeyond(page);
    expect(errors).toEqual([]);
    await page.context().close();
  });
});

/** It ends an isolation that it is put in, turns what comes after it, and begins another. */
const TURNING = '\u2069\u202eQZ abc\u2067def';

/** Blocks in which words of ours come after a mark that turns them: outside any isolation. */
async function turnedWords(page: Page): Promise<readonly string[]> {
  return page.evaluate(
    (written) => {
      const blocks = new Set<Element>();
      const nodes = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
      for (let node = nodes.nextNode(); node; node = nodes.nextNode()) {
        if (!/[\u202e\u2067]/.test(node.textContent ?? '')) continue;
        let block = node.parentElement;
        while (block && getComputedStyle(block).display === 'inline') block = block.parentElement;
        if (block) blocks.add(block);
      }
      return [...blocks].flatMap((block) => {
        let depth = 0;
        let outside = '';
        for (const sign of block.textContent ?? '') {
          if (/[\u2066-\u2068]/.test(sign)) depth += 1;
          else if (sign === '\u2069') depth = Math.max(0, depth - 1);
          else if (depth === 0) outside += sign;
        }
        const after = outside.slice(outside.search(/\u202e|$/));
        const isOurs = depth > 0 ? outside !== '' && !outside.startsWith('\u202e') : true;
        return isOurs && !written.startsWith(after) ? [block.textContent ?? ''] : [];
      });
    },
    TURNING.slice(1).replace(/\u2067.*/, ''),
  );
}

describe('words beside what someone wrote', () => {
  it('are not turned by it, on any screen', async () => {
    const page = await openAs(app, TURNING);
    for (const address of ADDRESSES) {
      await page.goto(app.url + address);
      await page.getByRole('heading', { level: 1 }).first().waitFor();
      await page.waitForLoadState('networkidle');
      expect(await turnedWords(page), address).toEqual([]);
    }
    // By the browser's own drawing: the letters of a word run from left to right.
    await page.goto(`${app.url}#/`);
    const line = page.getByText(/lines by their numbers/);
    await line.waitFor();
    const lefts = await line.evaluate((block) => {
      const nodes = document.createTreeWalker(block, NodeFilter.SHOW_TEXT);
      for (let node = nodes.nextNode(); node; node = nodes.nextNode()) {
        const at = (node.textContent ?? '').indexOf('numbers');
        if (at < 0) continue;
        return Array.from({ length: 7 }, (_, n) => {
          const range = document.createRange();
          range.setStart(node as Node, at + n);
          range.setEnd(node as Node, at + n + 1);
          return range.getBoundingClientRect().left;
        });
      }
      return [];
    });
    expect(lefts).toHaveLength(7);
    expect(lefts).toEqual([...lefts].sort((a, b) => a - b));
    await page.context().close();
  });

  it('nor when a chart is received and kept', async () => {
    const page = await app.open({});
    const code = await formatChartCode({ ...chartSaying(TURNING), id: 'another' });
    await page.goto(`${app.url}#/receive/${code}`);
    await page.getByRole('button', { name: 'Keep it', exact: true }).click();
    await page.getByText('is kept.').waitFor();
    expect(await turnedWords(page)).toEqual([]);
    await page.context().close();
  });
});

describe('what is typed', () => {
  it('as the name of a chart, a name, a level and a day is text wherever it stands', async () => {
    const page = await app.open({ fragment: '#/new-chart' });
    const errors = watchErrors(page);
    await page.getByLabel('Name of the chart').fill(MARKUP.slice(0, 80));
    await page.getByLabel('Your name').fill(MARKUP.slice(0, 80));
    await page.getByRole('button', { name: 'Begin the chart' }).click();
    await page.waitForURL(/#\/edit/);
    await page.getByRole('heading', { level: 1 }).waitFor();
    await expectText(page);
    await page.goto(`${app.url}#/levels`);
    await page.getByRole('heading', { level: 1 }).waitFor();
    await expectText(page);
    await page.goto(`${app.url}#/drills/${encodeURIComponent(MARKUP)}`);
    await page.getByText('That is not the code of a drill').waitFor();
    await expectText(page);
    await page.goto(`${app.url}#/charts`);
    await page.getByText(MARKUP.slice(0, 30)).and(page.locator(':visible')).first().waitFor();
    await expectText(page);
    expect(errors).toEqual([]);
    await page.context().close();
  });
});

describe('files that are saved', () => {
  it('have plain names, no formula in a table, and the day’s name as it is in a calendar', async () => {
    const text = '=HYPERLINK("http://x.invalid","<b>x</b>")';
    const page = await openAs(app, text);
    await page.goto(`${app.url}#/publish`);
    const table = await saved(page, 'Save as CSV');
    const rows = parseCsv(table.text.replace(/^\ufeff/, ''));
    const remarks = rows.map((row) => row.at(-1)).filter((cell) => cell?.includes('HYPERLINK'));
    expect(remarks.length).toBeGreaterThan(0);
    for (const remark of remarks) expect(remark).toBe(`'${text}`);
    await page.goto(`${app.url}#/memory`);
    const calendar = await saved(page, 'Save the calendar file');
    expect(eventsIn(calendar.text).at(-1)).toBe(text);
    for (const { name } of [table, calendar]) expect(name).toMatch(/^[a-z0-9-]+\.[a-z]+$/);
    await page.context().close();
  });
});

async function saved(page: Page, button: string) {
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: button }).first().click(),
  ]);
  return {
    name: download.suggestedFilename(),
    text: await readFile(await download.path(), 'utf8'),
  };
}
