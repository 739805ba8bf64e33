import { readFile } from 'node:fs/promises';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type App, startApp, watchErrors } from './app.ts';
import { violationsOn } from './everywhere.ts';

let app: App;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.close());

interface Saved {
  readonly name: string;
  readonly bytes: Buffer;
}

async function save(page: Page, kind: 'SVG' | 'PNG'): Promise<Saved> {
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page
      .getByRole('button', { name: `Save the picture as ${kind}` })
      .first()
      .click(),
  ]);
  return { name: download.suggestedFilename(), bytes: await readFile(await download.path()) };
}

/** Runs `read` on a saved file's text in an empty page: the app's own admits no markup. */
async function apart<T>(page: Page, { bytes }: Saved, read: (text: string) => T): Promise<T> {
  const empty = await page.context().newPage();
  try {
    return (await empty.evaluate(read, bytes.toString('utf8'))) as T;
  } finally {
    await empty.close();
  }
}

/** What is in an SVG file, by the browser's XML parser. */
async function parsed(page: Page, saved: Saved) {
  return apart(page, saved, (text) => {
    const file = new DOMParser().parseFromString(text, 'image/svg+xml');
    const root = file.documentElement;
    const all = [root, ...root.querySelectorAll('*')];
    return {
      error: file.querySelector('parsererror')?.textContent ?? null,
      namespace: root.namespaceURI,
      names: [...new Set(all.map((one) => one.localName))],
      attributes: [...new Set(all.flatMap((one) => one.getAttributeNames()))],
      values: all.flatMap((one) => [...one.attributes].map(({ value }) => value)),
      title: root.querySelector(':scope > title')?.textContent ?? null,
      words: root.querySelector(':scope > desc')?.textContent ?? null,
      viewBox: (root.getAttribute('viewBox') ?? '').split(' ').map(Number),
      width: root.getAttribute('width') ?? '',
      height: root.getAttribute('height') ?? '',
      ways: root.querySelectorAll('path[stroke-linecap="round"]').length,
      letters: [...root.querySelectorAll('text')].map((one) => one.textContent),
    };
  });
}

/** Width and height of a PNG (W3C PNG, 5.2 signature and 11.2.2 IHDR). */
function pngSize({ bytes }: Saved): readonly [number, number] {
  expect([...bytes.subarray(0, 8)]).toEqual([137, 80, 78, 71, 13, 10, 26, 10]);
  expect(bytes.subarray(12, 16).toString('latin1')).toBe('IHDR');
  return [bytes.readUInt32BE(16), bytes.readUInt32BE(20)];
}

/** The part of a PNG's pixels that are not white. */
async function inked(page: Page, { bytes }: Saved): Promise<number> {
  return page.evaluate(async (base64) => {
    const raw = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
    const image = await createImageBitmap(new Blob([raw], { type: 'image/png' }));
    const canvas = new OffscreenCanvas(image.width, image.height);
    const pen = canvas.getContext('2d');
    if (!pen) throw new Error('no canvas');
    pen.drawImage(image, 0, 0);
    const { data } = pen.getImageData(0, 0, image.width, image.height);
    let dark = 0;
    for (let n = 0; n < data.length; n += 4) {
      if (data[n + 3] !== 255) throw new Error('a pixel that is not covered');
      if ((data[n] ?? 0) + (data[n + 1] ?? 0) + (data[n + 2] ?? 0) < 3 * 250) dark++;
    }
    return dark / (data.length / 4);
  }, bytes.toString('base64'));
}

const PATTERN = '#/charts/cross-side/6';

async function pattern(page: Page): Promise<void> {
  await page.goto(`${app.url}${PATTERN}`);
  await page.locator('.pattern-figure .path.firm').waitFor();
}

async function lookedUp(page: Page): Promise<void> {
  await page.goto(`${app.url}#/look-up`);
  await page.getByText('Tap the start on a rail.').waitFor();
  const slider = page.getByRole('slider', { name: 'left rail' });
  await slider.focus();
  for (let n = 0; n < 6; n++) await page.keyboard.press('ArrowRight');
  await page.keyboard.press('Enter');
  await page.getByText('Tap the target: a pocket or a point of a rail.').waitFor();
  await page.getByRole('button', { name: 'head-right corner', exact: true }).click();
  await page.locator('.place-picker .path.firm').waitFor();
}

async function drillResult(page: Page): Promise<void> {
  await page.goto(`${app.url}#/drills`);
  await page.getByRole('button', { name: 'Start', exact: true }).click();
  await page.locator('main.quiz[data-phase="asking"]').waitFor();
  const fields = await page.locator('.answer-box').count();
  for (let n = 0; n < fields; n++) {
    await page.keyboard.type('1.5');
    await page.keyboard.press('Enter');
  }
  await page.locator('main.quiz[data-phase="answered"]').waitFor();
  await page.getByRole('button', { name: 'Stop' }).click();
  await page.locator('.error-plot').waitFor();
}

async function sheetQuestion(page: Page): Promise<void> {
  await page.goto(`${app.url}#/rehearsal`);
  await page.getByRole('radio', { name: '10', exact: true }).check();
  for (const kind of [/^Window/, /^In between/, /^Rail ball/]) {
    await page.getByRole('checkbox', { name: kind }).uncheck();
  }
  await page.getByRole('button', { name: 'Start the rehearsal' }).click();
  for (let n = 1; n <= 10; n++) {
    await page.getByText(`${n} of 10`, { exact: true }).waitFor();
    await page.locator('main.rehearsal-run[data-phase="asking"]').waitFor();
    await page.keyboard.type('1.5');
    await page.keyboard.press('Enter');
  }
  await page.getByRole('button', { name: /question 1 on the table/ }).click();
  // Whether the number called has a way to be drawn depends on the question.
  await page.locator('.table-figure .path.true').first().waitFor();
}

async function printedPage(page: Page): Promise<void> {
  await page.goto(`${app.url}#/print/cross-side`);
  await page.locator('.print-page').waitFor();
}

const NAMES = ['svg', 'g', 'title', 'desc', 'rect', 'circle', 'path', 'polygon', 'line', 'text'];

describe('the figure of a line with a number right of the table', () => {
  it('leaves white beside it in the file', async () => {
    const fragment = '#/charts/cross-corner/3';
    const page = await app.open({ width: 1280, height: 900, fragment });
    await page.locator('.pattern-figure .path.firm').waitFor();
    const white = await apart(page, await save(page, 'SVG'), (text) => {
      const file = new DOMParser().parseFromString(text, 'image/svg+xml');
      const svg = document.body.appendChild(document.importNode(file.documentElement, true));
      const box = (svg as unknown as SVGSVGElement).viewBox.baseVal;
      return [...svg.querySelectorAll('text')].map((one) => {
        const { x, width } = one.getBBox();
        return Math.min(x - box.x, box.x + box.width - x - width);
      });
    });
    expect(white.length).toBeGreaterThan(0);
    // A millimeter of paper at 1:20, where a letter of another font may be wider.
    expect(Math.min(...white)).toBeGreaterThan(20);
    await page.context().close();
  });
});

describe.each([
  ['of a pattern', pattern, 20, 'cross-side-6-0', 3],
  ['that was looked up', lookedUp, 20, 'look-up-foot-to-far-corner', 3],
  ['of a score sheet’s question', sheetQuestion, 20, 'rehearsal-question-1', 1],
  ['on a page to print', printedPage, 15, 'harbour-lane-9-ft-league-table-cross-side', 3],
] as const)('the figure %s', (_name, open, scale, name, ways) => {
  it('is saved as lines to scale and as pixels', async () => {
    const page = await app.open({ width: 1280, height: 900 });
    const errors = watchErrors(page);
    await open(page);
    expect(await violationsOn(page)).toEqual([]);
    const svg = await save(page, 'SVG');
    expect(svg.name).toBe(`${name}.svg`);
    const file = await parsed(page, svg);
    expect(file).toMatchObject({ error: null, namespace: 'http://www.w3.org/2000/svg' });
    expect(file.names.filter((one) => !NAMES.includes(one))).toEqual([]);
    expectAlone(file);
    expect(file.title).not.toBe('');
    expect(file.words).toBe(`Scale 1:${scale}.`);
    expect(file.ways).toBeGreaterThanOrEqual(ways);
    expect(file.letters.length).toBeGreaterThan(5);
    // WPA Equipment Specifications §5: 100 × 50 in between the noses; an inch is 25.4 mm.
    expect(svg.bytes.toString()).toMatch(/<rect (?=[^>]*width="1270")(?=[^>]*height="2540")/);
    expect(file.width).toMatch(/^[\d.]+mm$/);
    const unit = Number.parseFloat(file.width) / (file.viewBox[2] ?? 0);
    expect(unit * scale).toBeCloseTo(1, 3);
    expect(Number.parseFloat(file.height) / (file.viewBox[3] ?? 0)).toBeCloseTo(unit, 4);

    const png = await save(page, 'PNG');
    expect(png.name).toBe(`${name}.png`);
    const [width, height] = pngSize(png);
    expect(Math.max(width, height)).toBeGreaterThanOrEqual(2000);
    expect(width / height).toBeCloseTo((file.viewBox[2] ?? 0) / (file.viewBox[3] ?? 1), 2);
    const ink = await inked(page, png);
    expect(ink).toBeGreaterThan(0.02);
    expect(ink).toBeLessThan(scale === 15 ? 0.2 : 1);
    expect(errors).toEqual([]);
    await page.context().close();
  });
});

describe('the plot of a drill', () => {
  it('is saved as lines and as pixels', async () => {
    const page = await app.open({ fragment: '#/drills' });
    await drillResult(page);
    const svg = await save(page, 'SVG');
    expect(svg.name).toMatch(/^drill-[a-z0-9-]+\.svg$/);
    const file = await parsed(page, svg);
    expect(file.error).toBeNull();
    expectAlone(file);
    expect(file.letters).toEqual(expect.arrayContaining(['high', 'low']));
    const [width, height] = pngSize(await save(page, 'PNG'));
    expect(Math.max(width, height)).toBeGreaterThanOrEqual(2000);
    await page.context().close();
  });
});

/** Nothing that runs, and nothing from elsewhere. */
function expectAlone(file: Awaited<ReturnType<typeof parsed>>): void {
  expect(file.attributes.filter((one) => /^on|href|^style$|^class$/.test(one))).toEqual([]);
  expect(file.values.filter((one) => /url\(|var\(|calc\(|px/.test(one))).toEqual([]);
}

describe('a saved figure', () => {
  it('is the same in either theme', async () => {
    const page = await app.open({ fragment: PATTERN });
    await pattern(page);
    const light = (await save(page, 'SVG')).bytes.toString();
    await page.emulateMedia({ colorScheme: 'dark' });
    expect(await page.evaluate(() => matchMedia('(prefers-color-scheme: dark)').matches)).toBe(
      true,
    );
    const dark = (await save(page, 'SVG')).bytes.toString();
    expect(dark === light).toBe(true);
    await page.context().close();
  });

  it('has whatever is written in it as letters, never as a part of the file', async () => {
    const page = await app.open({ fragment: PATTERN });
    await pattern(page);
    const hostile = '"><script>alert(1)</script>&amp;<!--]]>';
    await page.locator('.pattern-figure .table-figure').evaluate((figure, words) => {
      figure.setAttribute('aria-label', words);
      const label = figure.querySelector('.mark text');
      if (label) label.textContent = words;
      const link = document.createElementNS('http://www.w3.org/2000/svg', 'a');
      link.setAttribute('href', 'https://example.org/');
      figure.append(link);
    }, hostile);
    const file = await parsed(page, await save(page, 'SVG'));
    expect(file.error).toBeNull();
    expect(file.title).toBe(hostile);
    expect(file.letters).toContain(hostile);
    expect(file.names.filter((one) => !NAMES.includes(one))).toEqual([]);
    await page.context().close();
  });

  it('holds the whole of its letters', async () => {
    const page = await app.open({ fragment: PATTERN });
    await pattern(page);
    const svg = await save(page, 'SVG');
    const outside = await apart(page, svg, (text) => {
      const host = document.createElement('div');
      host.innerHTML = text.slice(text.indexOf('<svg'));
      document.body.append(host);
      const figure = host.querySelector('svg') as SVGSVGElement;
      const box = figure.getBoundingClientRect();
      const cut = [...figure.querySelectorAll('text')].filter((one) => {
        const own = one.getBoundingClientRect();
        return own.left < box.left - 1 || own.right > box.right + 1;
      });
      host.remove();
      return cut.map((one) => one.textContent);
    });
    expect(outside).toEqual([]);
    await page.context().close();
  });

  it('that cannot be made is told', async () => {
    const page = await app.open({ fragment: PATTERN });
    await pattern(page);
    await page.evaluate(() => {
      HTMLCanvasElement.prototype.toBlob = (done) => done(null);
    });
    await page.getByRole('button', { name: 'Save the picture as PNG' }).click();
    await page
      .getByText('The picture could not be made: it is too large for this device.')
      .waitFor();
    await page.context().close();
  });
});
