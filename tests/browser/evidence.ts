/** What a test that failed leaves in `test-results`: the screens as they stood and what pages said. */

import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterEach, beforeEach } from 'vitest';

const FOLDER = 'test-results';
/** A page that hangs gives no picture; the test has failed all the same. Milliseconds. */
const PATIENCE = 5000;

/** The open pages with what each has said, the oldest first. */
const pages = new Map<Page, string[]>();

/** From now on the page's console and errors are kept for the case that its test fails. */
export function watchPage(page: Page): void {
  const said: string[] = [];
  pages.set(page, said);
  page.on('console', (message) => said.push(`${message.type()}: ${message.text()}`));
  page.on('pageerror', (error) => said.push(`page error: ${error.stack ?? error.message}`));
  page.on('close', () => pages.delete(page));
}

/** Registers the hook for the file that is run. A setup file calls it. */
export function keepEvidence(): void {
  beforeEach(({ task }) => {
    rmSync(join(FOLDER, nameOf(task)), { recursive: true, force: true });
  });
  afterEach(async ({ task }) => {
    if (task.result?.state !== 'fail' || pages.size === 0) return;
    const folder = join(FOLDER, nameOf(task));
    mkdirSync(folder, { recursive: true });
    const errors = (task.result.errors ?? []).map(({ message }) => message);
    const told = [task.name, ...errors];
    let number = 0;
    for (const [page, said] of pages) {
      number += 1;
      const screen = await screenOf(page, join(folder, `page-${number}.png`));
      told.push(`Page ${number}: ${page.url()}`, screen, 'It said:', ...said);
    }
    writeFileSync(join(folder, 'what-was-seen.txt'), `${told.join('\n\n')}\n`);
    console.error(`What was seen is in ${folder}.`);
  });
}

/** Takes a picture. @returns the screen in words, by its accessibility tree */
async function screenOf(page: Page, picture: string): Promise<string> {
  try {
    await page.screenshot({ path: picture, timeout: PATIENCE });
    return await page.locator('body').ariaSnapshot({ timeout: PATIENCE });
  } catch (error) {
    return `The page gave no picture: ${String(error)}`;
  }
}

interface Named {
  readonly name: string;
  readonly file: { readonly name: string };
  readonly suite?: Named | undefined;
}

/** A folder's name: the file, what the test is within, and the test. */
function nameOf(task: Named): string {
  const names: string[] = [];
  for (let one: Named | undefined = task; one; one = one.suite) names.unshift(one.name);
  const file = task.file.name.replace(/^tests\/(browser|faults)\/|\.test\.ts$/g, '');
  const plain = names.join(' ').replace(/[^\p{L}\d]+/gu, '-');
  return `${file}-${plain}`.replace(/^-+|-+$/g, '').slice(0, 120);
}
