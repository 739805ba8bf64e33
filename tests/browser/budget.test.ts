import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type App, answer, beginQuiz, painted, reachQuestion, startApp } from './app.ts';

/** Bytes by gzip at its best, which is what a static host sends at most. */
const FIRST_SCRIPT = 60_000;
const FIRST_STYLE = 12_000;
const ALL_FILES = 600_000;
const MOST_FILES = 150;

describe('the built app', () => {
  it('needs no more script and style for the first card than it may', () => {
    const html = readFileSync('dist/index.html', 'utf8');
    const entries = addressesIn(html, /<script[^>]* src="\.\/([^"]+)"/g);
    expect(entries.length).toBe(1);
    const scripts = withImports(entries);
    expect(gzipped([...scripts])).toBeLessThanOrEqual(FIRST_SCRIPT);
    const styles = addressesIn(html, /<link rel="stylesheet"[^>]* href="\.\/([^"]+)"/g);
    expect(styles.length).toBe(1);
    expect(gzipped(styles)).toBeLessThanOrEqual(FIRST_STYLE);
  });

  it('is no larger and in no more files than it may be', () => {
    const files = readdirSync('dist', { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry) => join(entry.parentPath, entry.name).slice('dist/'.length));
    expect(files.length).toBeLessThanOrEqual(MOST_FILES);
    expect(gzipped(files)).toBeLessThanOrEqual(ALL_FILES);
  });
});

describe('the quiz screen', () => {
  let app: App;

  beforeAll(async () => {
    app = await startApp();
  });

  afterAll(() => app.close());

  // Cumulative Layout Shift as the Layout Instability API (W3C Community Group) counts it, and more:
  // while a number is typed, shifts after a key count, too; but for the caret, which goes with it.
  it.each([
    { width: 390, height: 844 },
    { width: 1280, height: 800 },
  ])('does not shift, at $width', async ({ width, height }) => {
    const page = await app.open({ width, height });
    await page.addInitScript(() => {
      const shifts: unknown[] = [];
      Object.assign(window, { shifts });
      new PerformanceObserver((list) => {
        for (const one of list.getEntries()) {
          const { value, hadRecentInput, sources } = one as unknown as Entry;
          const moved = sources.map(({ node }) => (node instanceof Element ? node.className : ''));
          shifts.push({ value, hadRecentInput, moved });
        }
      }).observe({ type: 'layout-shift', buffered: true });
    });
    await page.reload();
    await beginQuiz(page);
    for (let n = 0; n < 5; n++) {
      // What the way to this question has shifted is told by now.
      await painted(page);
      const before = await shiftsOn(page);
      await page.keyboard.type('1.4');
      await painted(page);
      const typing = (await shiftsOn(page)).slice(before.length);
      expect(typing.filter(({ moved }) => moved.some((what) => what !== 'caret'))).toEqual([]);
      await page.keyboard.press('Backspace');
      await page.keyboard.press('Backspace');
      await page.keyboard.press('Backspace');
      await answer(page, '1.4');
      await rolled(page);
      await page.keyboard.press('Enter');
      if ((await reachQuestion(page)) !== 'asking') break;
    }
    expect((await shiftsOn(page)).filter(({ hadRecentInput }) => !hadRecentInput)).toEqual([]);
    await page.context().close();
  });
});

interface Shift {
  readonly value: number;
  readonly hadRecentInput: boolean;
  /** Classes of what moved. */
  readonly moved: readonly unknown[];
}

interface Entry {
  readonly value: number;
  readonly hadRecentInput: boolean;
  readonly sources: readonly { readonly node: Node | null }[];
}

/** The balls have come to their ends. */
async function rolled(page: Page): Promise<void> {
  await page.locator('.table-figure .rolling .path').first().waitFor();
  await page.evaluate(async () => {
    const rolling = document
      .getAnimations()
      .filter(({ effect }) => (effect as KeyframeEffect).target?.closest('.rolling'));
    await Promise.allSettled(rolling.map(({ finished }) => finished));
  });
  await painted(page);
}

function shiftsOn(page: Page): Promise<readonly Shift[]> {
  return page.evaluate(() => (window as unknown as { shifts: Shift[] }).shifts);
}

/** Files of the build with all that they import at once. */
function withImports(files: readonly string[], seen: Set<string> = new Set()): Set<string> {
  for (const file of files) {
    if (seen.has(file)) continue;
    seen.add(file);
    const code = readFileSync(join('dist', file), 'utf8');
    const imported = addressesIn(code, /(?:from|import)\s*["'`]\.\/([^"'`]+)["'`]/g);
    withImports(
      imported.map((name) => `assets/${name}`),
      seen,
    );
  }
  return seen;
}

function addressesIn(text: string, pattern: RegExp): readonly string[] {
  return [...text.matchAll(pattern)].map((match) => match[1] ?? '');
}

function gzipped(files: readonly string[]): number {
  return files
    .map((file) => gzipSync(readFileSync(join('dist', file)), { level: 9 }).length)
    .reduce((sum, length) => sum + length, 0);
}
