/** One instructor's charts as files on the app's own host. */

import { readFile } from 'node:fs/promises';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  type ChartDocument,
  formatChartFile,
  HARBOUR_LANE,
  revise,
  stateOf,
  toDecimal,
} from '../../src/charts/index.ts';
import { type App, startApp } from './app.ts';
import { expectSound } from './everywhere.ts';
import { type Host, startHost } from './host.ts';

let app: App;
let host: Host;
beforeAll(async () => {
  app = await startApp();
  host = await startHost();
});
afterAll(async () => {
  await app.close();
  await host.close();
});

const PATH = 'charts/harbour-lane.json';
const CHART: ChartDocument = { ...HARBOUR_LANE, id: 'club-chart', name: 'Club chart' };
const signed = { date: '2026-11-29', author: 'Instructor', why: 'It came out long.' };

describe('a chart beside the app', () => {
  it('is received by its path, asked for again with next to nothing, and shown when it changed', async () => {
    host.files.set(PATH, formatChartFile(CHART));
    const page = await on(`#/receive/file/${PATH}`);
    await page.getByRole('button', { name: 'Keep it and use it now' }).click();
    await page.getByText('“Club chart” is kept.').waitFor();
    expect(host.served.map(({ status }) => status)).toEqual([200]);

    await page.goto(`${host.url}#/charts`);
    const source = page.locator('.chart-sources li');
    await source.getByText('up to date').waitFor();
    expect(await source.textContent()).toContain(PATH);
    expect(host.served.map(({ status }) => status)).toEqual([200, 304]);
    await expectSound(page);
    const [whole, same] = host.served.map(({ bytes }) => bytes);
    console.log(`A chart of 87 lines: ${whole} bytes on the wire; asked again: ${same} bytes.`);
    // Sizes, not times: heads only, whatever the size of the chart.
    expect(same).toBeLessThan(1200);

    const measured = [
      { pattern: 'foot-to-side', start: toDecimal(2), medium: toDecimal(1.3) } as const,
    ];
    const next = revise(CHART, { ...stateOf(CHART.revisions[0]), measured }, signed);
    host.files.set(PATH, formatChartFile(next));
    await page.goto(`${host.url}#/receive`);
    await page.getByRole('link', { name: 'See what changed' }).click();
    await page.getByText('It continues the chart you have').waitFor();
    await page.getByText('It came out long.').waitFor();
    // Seen first: nothing is taken in yet, and it is still told on the next day.
    await page.goto(`${host.url}#/charts`);
    await source.getByRole('link', { name: 'See what changed' }).click();
    await page.getByRole('button', { name: 'Take it in' }).click();
    await page.getByText(/^Taken in\./).waitFor();
    await page.goto(`${host.url}#/charts`);
    await source.getByText('up to date').waitFor();
    expect(host.served.at(-1)?.status).toBe(304);

    // Gone, or another chart in its place: told, and nothing changes.
    host.files.set(PATH, formatChartFile({ ...CHART, id: 'another-chart' }));
    await page.reload();
    await source.getByText('Another chart is under that address now.').waitFor();
    host.files.delete(PATH);
    await page.reload();
    await source.getByText('is not on this app’s host any more').waitFor();
    await page.context().close();
  });

  it('is saved under its name on Publish, with the link that the class receives it by', async () => {
    const maker = await on('#/publish');
    const [download] = await Promise.all([
      maker.waitForEvent('download'),
      maker.getByRole('button', { name: 'Save for the host' }).click(),
    ]);
    const name = download.suggestedFilename();
    await maker.getByText(`as charts/${name}`).waitFor();
    host.files.set(`charts/${name}`, await readFile(await download.path(), 'utf8'));
    await maker.evaluate(() =>
      Object.defineProperty(navigator, 'clipboard', {
        value: { writeText: async (text: string) => Object.assign(window, { copied: text }) },
      }),
    );
    await maker.getByRole('button', { name: 'Copy the class link' }).click();
    await maker.getByText('The link for the class is copied.').waitFor();
    const link = (await maker.locator('.class-link').textContent()) ?? '';
    expect(await maker.evaluate(() => (window as { copied?: string }).copied)).toBe(link);
    // The host of a test is this device: told, since nobody else gets there.
    await maker.getByText('the link works on no other').waitFor();
    await maker.getByText('the link opens on no other').waitFor();
    await expectSound(maker);
    await maker.context().close();

    const student = await app.open();
    await student.goto(link);
    await student.getByText('You have this chart just as it is.').waitFor();
    expect(host.served.at(-1)).toMatchObject({ path: `charts/${name}`, status: 200 });
    await student.context().close();
  });

  describe('by an address that is none', () => {
    const asked: string[] = [];
    let page: Page;
    beforeAll(async () => {
      page = await on('');
      page.on('request', (request) => asked.push(request.url()));
    });
    afterAll(() => page.context().close());

    it.each([
      'file/../secret.json',
      'file/charts/../../secret.json',
      'file//127.0.0.1/x.json',
      'file/https://evil.example/x.json',
      'file/%2e%2e/x.json',
      'file/.hidden.json',
      'file/charts/chart.html',
      'file/',
    ])('#/receive/%s is refused, and nothing is asked for', async (code) => {
      // What was said of the address before is gone.
      await page.goto(`${host.url}#/`);
      await page.getByRole('heading', { level: 1, name: 'Today' }).waitFor();
      asked.length = 0;
      await page.goto(`${host.url}#/receive/${code}`);
      await page.getByText('does not name a chart file beside this app').waitFor();
      expect(asked.filter((url) => /secret|evil|x\.json|hidden|chart\.html/.test(url))).toEqual([]);
    });
  });

  it('that is no chart is refused with a sentence', async () => {
    host.files.set('charts/odd.json', '{"kind":"something"}');
    const page = await on('#/receive/file/charts/odd.json');
    await page.getByText('is not a Throughline chart. Nothing was changed.').waitFor();
    await page.goto(`${host.url}#/receive/file/charts/missing.json`);
    await page.getByText('is not on this app’s host any more').waitFor();
    await page.context().close();
  });
});

async function on(fragment: string): Promise<Page> {
  const page = await app.open();
  await page.goto(host.url + fragment);
  return page;
}
