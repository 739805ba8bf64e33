import { readFile } from 'node:fs/promises';
import jsQr from 'jsqr';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readChartCode } from '../../src/app/device/chart-link.ts';
import {
  computeChart,
  HARBOUR_LANE,
  parseCsv,
  printedRows,
  readChartFile,
  slim,
} from '../../src/charts/index.ts';
import { type App, startApp, watchErrors } from './app.ts';
import { everywhere } from './everywhere.ts';

let app: App;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.close());

/** The name and the text of what a button saves. */
async function savedBy(page: Page, button: string): Promise<readonly [string, string]> {
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: button }).click(),
  ]);
  return [download.suggestedFilename(), await readFile(await download.path(), 'utf8')];
}

/** Takes what the page would share or copy, since a browser under test has nobody to share with. */
async function takeShared(page: Page, takesFiles: boolean): Promise<void> {
  await page.addInitScript((files) => {
    const taken: string[] = [];
    Object.assign(window, { taken });
    Object.assign(navigator, {
      canShare: () => files,
      share: async (data: ShareData) => {
        const file = data.files?.[0];
        taken.push(file ? `${file.name} ${await file.text()}` : (data.url ?? ''));
      },
    });
    Object.defineProperty(navigator, 'clipboard', {
      value: { writeText: async (text: string) => taken.push(text) },
    });
  }, takesFiles);
  await page.reload();
}

async function takenOn(page: Page): Promise<string> {
  await page.waitForFunction(() => (window as unknown as { taken: string[] }).taken.length > 0);
  return page.evaluate(() => (window as unknown as { taken: string[] }).taken.pop() ?? '');
}

/** What a camera would read from the page: a decoder that is not ours, on the drawn pixels. */
async function scanned(page: Page): Promise<string | undefined> {
  const shot = await page.locator('.qr svg').screenshot();
  const { width, height, grey } = await page.evaluate(async (base64) => {
    const image = new Image();
    image.src = `data:image/png;base64,${base64}`;
    await image.decode();
    const canvas = new OffscreenCanvas(image.width, image.height);
    const context = canvas.getContext('2d');
    if (!context) throw new Error('no canvas');
    context.drawImage(image, 0, 0);
    const pixels = context.getImageData(0, 0, image.width, image.height);
    // It is gray: one of four channels says all. As text, since a list of numbers takes seconds.
    let text = '';
    for (let n = 0; n < pixels.data.length; n += 4)
      text += String.fromCharCode(pixels.data[n] ?? 0);
    return { width: image.width, height: image.height, grey: btoa(text) };
  }, shot.toString('base64'));
  const pixels = new Uint8ClampedArray(4 * width * height).fill(255);
  Buffer.from(grey, 'base64').forEach((value, n) => {
    pixels.fill(value, 4 * n, 4 * n + 3);
  });
  // Dark on light, as every camera reads it.
  return jsQr(pixels, width, height, { inversionAttempts: 'dontInvert' })?.data;
}

describe('publishing a chart', () => {
  it('saves files that are read back, and draws the QR code of the link', async () => {
    const page = await app.open();
    const errors = watchErrors(page);
    await page.goto(`${app.url}#/charts`);
    await page.getByRole('link', { name: /^Publish/ }).click();
    await page.getByRole('button', { name: 'Save the chart file' }).waitFor();

    const [name, text] = await savedBy(page, 'Save the chart file');
    expect(name).toBe('harbour-lane-9ft-revision-3.json');
    expect(readChartFile(text)).toEqual({ ok: true, document: HARBOUR_LANE });

    await page.getByLabel('Cells divided by').selectOption({ label: 'semicolons, 2,5' });
    const [tableName, table] = await savedBy(page, 'Save as CSV');
    expect(tableName).toBe('harbour-lane-9ft-revision-3.csv');
    expect(table).toContain('pattern;start;soft;medium;firm;priority;remark');
    const rows = printedRows(computeChart(HARBOUR_LANE));
    expect(parseCsv(table)).toEqual({ ok: true, rows });

    await page.getByRole('button', { name: 'Show a QR code' }).click();
    await page.getByRole('img', { name: `QR code of ${HARBOUR_LANE.name}` }).waitFor();
    const link = (await scanned(page)) ?? '';
    expect(link.startsWith(`${app.url}#/receive/`)).toBe(true);
    expect(await readChartCode(link)).toEqual({ ok: true, document: slim(HARBOUR_LANE) });
    for (const view of ['a phone, dark', 'a desktop, dark', 'a desktop, light']) {
      const [width, height] = view.startsWith('a phone') ? [390, 844] : [1280, 800];
      await page.setViewportSize({ width, height });
      await page.emulateMedia({ colorScheme: view.endsWith('dark') ? 'dark' : 'light' });
      expect(await scanned(page), view).toBe(link);
    }
    await everywhere(page);
    expect(errors).toEqual([]);
    await page.context().close();
  });
});

describe('a published chart', () => {
  it('is copied as a link, and shared as a file where the device takes files', async () => {
    const page = await app.open({ fragment: '#/publish' });
    await takeShared(page, true);
    await page.getByRole('button', { name: 'Copy the link' }).click();
    await page.getByText('The link is copied.').waitFor();
    const document = slim(HARBOUR_LANE);
    expect(await readChartCode(await takenOn(page))).toEqual({ ok: true, document });
    await page.getByRole('button', { name: 'Share' }).click();
    await page.getByText('Shared.').waitFor();
    const file = await takenOn(page);
    expect(file.startsWith('harbour-lane-9ft-revision-3.json {')).toBe(true);
    expect(readChartFile(file.slice(file.indexOf('{')))).toMatchObject({ document: HARBOUR_LANE });
    await page.context().close();
  });

  it('is shared as a link where the device takes no files', async () => {
    const page = await app.open({ fragment: '#/publish' });
    await takeShared(page, false);
    await page.getByRole('button', { name: 'Share' }).click();
    await page.getByText('Shared.').waitFor();
    expect((await readChartCode(await takenOn(page))).ok).toBe(true);
    await page.context().close();
  });

  it('has its format beside the app', async () => {
    const page = await app.open({ fragment: '#/publish' });
    const href = await page.getByRole('link', { name: 'format' }).getAttribute('href');
    const schema = await page.request.get(new URL(href ?? '', app.url).href);
    expect(await schema.json()).toMatchObject({ title: 'Throughline chart, version 2' });
    await page.context().close();
  });

  it('can be published with the keyboard alone', async () => {
    const page = await app.open({ fragment: '#/publish' });
    const button = page.getByRole('button', { name: 'Show a QR code' });
    await button.waitFor();
    for (let n = 0; n < 30; n++) {
      await page.keyboard.press('Tab');
      if (await button.evaluate((one) => one === document.activeElement)) break;
    }
    await page.keyboard.press('Enter');
    await page.locator('.qr').waitFor();
    await page.keyboard.press('Enter');
    await page.locator('.qr').waitFor({ state: 'detached' });
    await page.context().close();
  });
});
