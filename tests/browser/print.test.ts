import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  type ChartDocument,
  HARBOUR_LANE,
  lastRevision,
  patternOf,
  toDecimal,
} from '../../src/charts/index.ts';
import { DEFAULT_SETTINGS, formatBackup } from '../../src/store/index.ts';
import { type App, startApp, watchErrors } from './app.ts';
import { everywhere, type Law } from './everywhere.ts';
import { readPdf } from './pdf.ts';
import { type Player, playerOf } from './seed.ts';

let app: App;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.close());

type Form = 'a page per pattern' | 'folded for the pocket';

/** Millimetres of a CSS pixel: 96 to the inch (CSS Values and Units 3, 5.2). */
const MM = 25.4 / 96;

interface Opened {
  readonly colorScheme?: 'dark';
  readonly player?: Player;
}

async function openPrint(fragment: string, options: Opened = {}): Promise<Page> {
  const page = await app.open({ width: 1280, height: 900, fragment, ...options });
  await page.getByRole('heading', { level: 1, name: 'Print' }).waitFor();
  return page;
}

/** One page for the tests of a group: each chooses on it what it prints, and looks on its own. */
function shared(open: () => Promise<Page>): () => Promise<Page> {
  let page: Page;
  beforeAll(async () => {
    page = await open();
  });
  afterAll(() => page.context().close());
  return async () => {
    await page.emulateMedia({ media: null });
    return page;
  };
}

async function choose(page: Page, form: Form, paper: 'A4' | 'Letter'): Promise<void> {
  await page.getByRole('radio', { name: form }).check();
  await page.getByRole('radio', { name: paper }).check();
  await page
    .locator(form === 'a page per pattern' ? '.print-page' : '.pocket-sheet')
    .first()
    .waitFor();
}

async function printed(page: Page) {
  return readPdf(await page.pdf({ preferCSSPageSize: true }));
}

const PATTERNS = lastRevision(HARBOUR_LANE).patterns;
/** As it is copied from a PDF. */
const bare = (text: string) => text.replace(/\s/g, '');

/**
 * What is wrong with the sheets as laid out: letters or figures nearer than 8 mm to the paper's edge
 * or over a fold (8 mm: more than printers leave white; common practice, no source), letters under
 * 6.5 pt, colors, and letters that lie on others.
 */
async function layoutFaults(page: Page): Promise<string[]> {
  return page.evaluate((mm) => {
    const faults: string[] = [];
    const within = (inner: DOMRect, outer: DOMRect, by: number) =>
      inner.left >= outer.left + by - 0.5 &&
      inner.top >= outer.top + by - 0.5 &&
      inner.right <= outer.right - by + 0.5 &&
      inner.bottom <= outer.bottom - by + 0.5;
    for (const paper of document.querySelectorAll<HTMLElement>('.paper')) {
      const sheet = paper.getBoundingClientRect();
      const seen: { box: DOMRect; words: string }[] = [];
      const texts = document.createTreeWalker(paper, NodeFilter.SHOW_TEXT);
      for (let node = texts.nextNode(); node; node = texts.nextNode()) {
        const words = node.textContent?.trim() ?? '';
        const parent = node.parentElement;
        if (!words || !parent || parent.closest('.visually-hidden, title, desc')) continue;
        const range = document.createRange();
        range.selectNodeContents(node);
        const panel = parent.closest('.fold-panel')?.getBoundingClientRect();
        for (const box of range.getClientRects()) {
          if (!within(box, sheet, 8 / mm)) faults.push(`near the edge: ${words}`);
          if (panel && !within(box, panel, 0)) faults.push(`over a fold: ${words}`);
          const on = seen.find(
            (one) =>
              Math.min(one.box.right, box.right) - Math.max(one.box.left, box.left) > 1.5 &&
              Math.min(one.box.bottom, box.bottom) - Math.max(one.box.top, box.top) > 4,
          );
          if (on) faults.push(`on “${on.words}”: ${words}`);
          seen.push({ box, words });
        }
        const figure = parent.closest<SVGElement>('.table-figure');
        const scale = Number(figure?.closest<HTMLElement>('[data-scale]')?.dataset.scale ?? 1);
        const style = getComputedStyle(parent);
        const px = Number.parseFloat(style.fontSize);
        // In a figure a unit is a millimeter of the table.
        const points = figure ? (px / scale / 25.4) * 72 : (px / 96) * 72;
        if (points < 6.5) faults.push(`${points.toFixed(2)} pt: ${words}`);
        const ink = figure ? style.fill : style.color;
        if (ink !== 'rgb(0, 0, 0)') faults.push(`${ink}: ${words}`);
      }
      for (const figure of paper.querySelectorAll('svg.table-figure')) {
        const box = figure.getBoundingClientRect();
        if (!within(box, sheet, 8 / mm)) faults.push('a figure near the edge');
        for (const shape of figure.querySelectorAll('path, circle, rect, polygon, line')) {
          const { fill, stroke } = getComputedStyle(shape);
          const inks = ['none', 'rgb(0, 0, 0)', 'rgb(255, 255, 255)'];
          if (!inks.includes(fill) || !inks.includes(stroke)) faults.push(`${fill} ${stroke}`);
        }
      }
      if (getComputedStyle(paper).backgroundColor !== 'rgb(255, 255, 255)')
        faults.push('grey paper');
      if (paper.scrollHeight > paper.clientHeight) faults.push('more than the sheet holds');
    }
    return faults;
  }, MM);
}

describe('the whole chart', () => {
  // In the dark, for paper is white all the same.
  const whole = shared(() => openPrint('#/print', { colorScheme: 'dark' }));

  describe.each([
    // ISO 216; a point is 1/72 in.
    ['A4', [(210 / 25.4) * 72, (297 / 25.4) * 72]],
    // ANSI/ASME Y14.1, size A.
    ['Letter', [8.5 * 72, 11 * 72]],
  ] as const)('on %s', (paper, [width, height]) => {
    it.each([
      ['a page per pattern', PATTERNS.length, [width, height]],
      // A cover and seven patterns on each sheet.
      ['folded for the pocket', Math.ceil(PATTERNS.length / 7), [height, width]],
    ] as const)(
      '%s: so many sheets of that size, drawn in lines, with all names',
      async (form, count, size) => {
        const page = await whole();
        await choose(page, form, paper);
        const { pages, images, text } = await printed(page);
        expect(pages).toHaveLength(count);
        for (const [w, h] of pages) {
          expect(Math.abs(w - size[0])).toBeLessThan(0.5);
          expect(Math.abs(h - size[1])).toBeLessThan(0.5);
        }
        expect(images).toBe(0);
        for (const id of PATTERNS) {
          expect(text).toContain(bare(patternOf(id).name));
          expect(text).toContain(bare(patternOf(id).path));
        }
        expect(text).toContain(bare('Harbour Lane, 9 ft league table'));
        expect(text).toContain(bare('Revision 3 of 2026-11-23, Harbour Lane instruction'));
        expect(text).toContain(bare('Numbers are aids: tables differ.'));
        expect(text).toContain(bare('Aim through the sight'));
        // The screen's own words are not on paper.
        expect(text).not.toContain('Rehearsal');
        expect(text).not.toContain('Savethepicture');
      },
    );

    it.each(['a page per pattern', 'folded for the pocket'] as const)(
      '%s: nothing is cut, crowded or too small, and all is black on white',
      async (form) => {
        const page = await whole();
        await choose(page, form, paper);
        await page.emulateMedia({ media: 'print' });
        expect(await layoutFaults(page)).toEqual([]);
      },
    );
  });

  it.each([
    ['a page per pattern', '.print-page'],
    ['folded for the pocket', '.fold-panel'],
  ] as const)('%s: each figure is true to the scale it says', async (form, part) => {
    const page = await whole();
    await choose(page, form, 'A4');
    await page.emulateMedia({ media: 'print' });
    const figures = await page.locator(`${part}:has(.print-figure)`).evaluateAll((parts) =>
      parts.map((one) => {
        const cloth = one.querySelector('.cloth')?.getBoundingClientRect();
        const scale = Number(/1:(\d+)/.exec(one.textContent ?? '')?.[1]);
        return { scale, width: cloth?.width ?? 0, height: cloth?.height ?? 0 };
      }),
    );
    expect(figures).toHaveLength(PATTERNS.length);
    for (const { scale, width, height } of figures) {
      // WPA Equipment Specifications §5: a 9 ft table is 100 × 50 in between the noses.
      expect(width * MM * scale).toBeCloseTo(50 * 25.4, 0);
      expect(height * MM * scale).toBeCloseTo(100 * 25.4, 0);
    }
  });
});

describe('the page of one pattern', () => {
  const one = shared(() => openPrint('#/print/cross-side'));

  it('has a bar as long as its words say', async () => {
    const page = await one();
    await page.emulateMedia({ media: 'print' });
    const words = (await page.locator('figcaption').textContent()) ?? '';
    const inches = Number(/and ([\d.]+) in of this sheet/.exec(words)?.[1]);
    const bar = await page
      .locator('.scale-bar path')
      .evaluate((path) => path.getBoundingClientRect().width);
    // Said to the hundredth; the box has no line width in it.
    expect(Math.abs((bar * MM) / 25.4 - inches)).toBeLessThan(0.006);
  });

  it('tells speeds apart by dashes', async () => {
    const page = await one();
    const dashes = await page
      .locator('.print-figure .path')
      .evaluateAll((ways) => ways.map((way) => getComputedStyle(way).strokeDasharray));
    expect(dashes).toHaveLength(3);
    expect(new Set(dashes).size).toBe(3);
  });

  it('has the shape of the paper on the screen', async () => {
    const page = await one();
    await choose(page, 'a page per pattern', 'A4');
    const box = await page.locator('.paper').boundingBox();
    expect((box?.height ?? 0) / (box?.width ?? 1)).toBeCloseTo(297 / 210, 2);
  });

  it('goes to the printer by the button', async () => {
    const page = await one();
    await page.evaluate(() => {
      window.print = () => {
        document.body.dataset.printed = 'yes';
      };
    });
    await page.getByRole('button', { name: 'Print', exact: true }).click();
    expect(await page.evaluate(() => document.body.dataset.printed)).toBe('yes');
  });
});

describe('what is printed', () => {
  it('is the pattern of the address, at the speeds that are chosen, and never none', async () => {
    const page = await openPrint('#/print/cross-side');
    const errors = watchErrors(page);
    expect(await page.locator('.print-page').count()).toBe(1);
    await page.getByRole('checkbox', { name: 'soft' }).uncheck();
    await page.getByRole('checkbox', { name: 'medium' }).uncheck();
    expect(await page.locator('.print-numbers thead th').allTextContents()).toEqual([
      'from',
      'firm',
    ]);
    await page.getByRole('checkbox', { name: 'firm' }).click();
    expect(await page.getByRole('checkbox', { name: 'firm' }).isChecked()).toBe(true);
    expect(await page.locator('.print-figure .path').count()).toBe(1);
    await page.getByRole('checkbox', { name: 'Cross-side' }).uncheck();
    await page.getByText('Choose a pattern to print.').waitFor();
    expect(await page.getByRole('button', { name: 'Print', exact: true }).isDisabled()).toBe(true);
    await page.getByRole('button', { name: 'All' }).click();
    expect(await page.locator('.print-page').count()).toBe(PATTERNS.length);
    expect(errors).toEqual([]);
    await page.context().close();
  });

  it('is reached from Charts and from a pattern’s page', async () => {
    const page = await app.open({ fragment: '#/charts' });
    await page.getByRole('link', { name: /^Print/ }).click();
    await page.getByRole('heading', { level: 1, name: 'Print' }).waitFor();
    await page.goto(`${app.url}#/charts/up-and-back`);
    await page.getByRole('link', { name: /^Print/ }).click();
    await page.locator('.print-page h2', { hasText: 'Up and back' }).waitFor();
    expect(await page.locator('.print-page').count()).toBe(1);
    await page.context().close();
  });

  it('leaves other screens to print as they did', async () => {
    const page = await openPrint('#/print/cross-side');
    await page.goto(`${app.url}#/charts`);
    await page.getByRole('heading', { level: 1, name: 'Charts' }).waitFor();
    await page.emulateMedia({ media: 'print' });
    expect(await page.locator('.pattern-list').isVisible()).toBe(true);
    expect(await page.locator('style').count()).toBe(0);
    await page.context().close();
  });
});

describe('a chart with measured lines, more than stand beside a figure', () => {
  /** A fourth revision: cross-side measured at every twentieth of its starts, numbers invented. */
  const measured = Array.from({ length: 61 }, (_, n) => {
    const start = toDecimal(5 + n / 20);
    const number = (by: number) => toDecimal(4.5 + n / 40 - by);
    return {
      pattern: 'cross-side' as const,
      start,
      soft: number(0),
      medium: number(0.1),
      firm: number(0.2),
    };
  });
  const last = lastRevision(HARBOUR_LANE);
  const fourth = { ...last, number: 4, why: 'Measured, all of cross-side.', measured };
  const chart: ChartDocument = {
    ...HARBOUR_LANE,
    revisions: [...HARBOUR_LANE.revisions, fourth],
  };

  const many = shared(async () => {
    const backup = { events: [], charts: [chart], settings: DEFAULT_SETTINGS, unread: [] };
    const player = await playerOf(formatBackup(backup, '2026-12-01T00:00:00Z'));
    const page = await openPrint('#/print/cross-side', { player });
    await page.getByText('Revision 4 of').first().waitFor();
    return page;
  });

  it.each(['A4', 'Letter'] as const)(
    'on %s prints all of them, on as many pages as they need',
    async (paper) => {
      const page = await many();
      await choose(page, 'a page per pattern', paper);
      const starts = await page.locator('.print-numbers tbody th').allTextContents();
      expect(starts.map(Number)).toEqual(measured.map(({ start }) => start / 10_000));
      await page.getByText('All numbers were measured on the table.').waitFor();
      await page.getByText('its paths are computed').waitFor();
      const { pages, text } = await printed(page);
      expect(pages).toHaveLength(2);
      expect(text).toContain('Cross-side,page2');
      await page.emulateMedia({ media: 'print' });
      expect(await layoutFaults(page)).toEqual([]);
    },
  );

  it.each(['A4', 'Letter'] as const)(
    'on %s folds with the anchors first, and says how many are left out',
    async (paper) => {
      const page = await many();
      await choose(page, 'folded for the pocket', paper);
      const rows = page.locator('.print-numbers tbody tr');
      expect(await rows.first().getAttribute('class')).toBe('anchor');
      const left = measured.length - (await rows.count());
      expect(left).toBeGreaterThan(0);
      await page.getByText(`and ${left} more on the chart`).waitFor();
      await page.emulateMedia({ media: 'print' });
      expect(await layoutFaults(page)).toEqual([]);
    },
  );
});

describe('the preview', () => {
  it('is as accessible as any screen and shows each sheet whole, in either form', async () => {
    const page = await app.open({ fragment: '#/print/cross-side' });
    for (const form of ['a page per pattern', 'folded for the pocket'] as const) {
      await choose(page, form, 'A4');
      await everywhere(page, sheetsWhole);
    }
    await page.context().close();
  });
});

/** Once the preview, which is told of the new size, has fitted its sheets to it. */
const sheetsWhole: Law = async (page) => {
  const cutOff = () =>
    [...document.querySelectorAll('.paper')].flatMap((sheet) => {
      const { left, right } = sheet.getBoundingClientRect();
      return left < 0 || right > innerWidth ? [`a sheet goes from ${left} to ${right}`] : [];
    });
  await expect
    .poll(() => page.evaluate(cutOff), { timeout: 5000 })
    .toEqual([])
    .catch(() => undefined);
  return page.evaluate(cutOff);
};
