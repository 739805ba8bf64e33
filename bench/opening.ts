/**
 * Opening the built app in a real Chromium, on a log of 1,000 answers and on one of 100,000: from the
 * navigation to the first painted Today with its numbers. Both logs hold the same cards.
 */

import { readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { type App, type Profile, startApp } from '../tests/browser/app.ts';
import { BLANK, blankPage, seeded } from './seeding.ts';

const SMALL = 1000;
const LARGE = 100_000;
const ROUNDS = 11;

declare global {
  var painted: number | undefined;
}

export async function benchOpening(): Promise<void> {
  const app = await startApp();
  try {
    const small = await seeded(app, SMALL);
    const start = performance.now();
    const large = await seeded(app, LARGE);
    note(`${said(LARGE)} answers written and sealed in ${seconds(performance.now() - start)}`);
    await openings(app, small, large);
    await wholeLog(app, large);
  } finally {
    await app.close();
  }
}

async function openings(app: App, small: Profile, large: Profile): Promise<void> {
  const times = { small: [] as number[], large: [] as number[] };
  for (let round = 0; round < ROUNDS; round++) {
    times.small.push(await opening(app, small));
    times.large.push(await opening(app, large));
  }
  const [few, many] = [median(times.small), median(times.large)];
  console.log(
    `opening the app on ${said(LARGE)} answers: ${many.toFixed(0)} ms, on ${said(SMALL)}: ` +
      `${few.toFixed(0)} ms — ratio ${(many / few).toPrecision(3)}`,
  );
  const [fewLeast, manyLeast] = [Math.min(...times.small), Math.min(...times.large)];
  note(
    `the fastest of ${ROUNDS}: ${manyLeast.toFixed(0)} and ${fewLeast.toFixed(0)} ms — ratio ` +
      `${(manyLeast / fewLeast).toPrecision(3)}`,
  );
  note(`on disk: ${megabytes(sizeOf(small))} and ${megabytes(sizeOf(large))}`);
}

async function wholeLog(app: App, profile: Profile): Promise<void> {
  const page = await blankPage(app, profile);
  const backup = await page.evaluate(() => seeding.backUp());
  note(`a backup of it: ${megabytes(backup.size)} in ${seconds(backup.ms)}`);
  const read = await page.evaluate(() => seeding.loadAll());
  note(`all ${said(read.size)} read in ${seconds(read.ms)}`);
  const folded = await page.evaluate(() => seeding.foldAll());
  note(`read and folded, as without the snapshot, in ${seconds(folded.ms)}`);
  await page.context().close();
}

/** Milliseconds from the navigation, in a newly started browser. */
async function opening(on: App, profile: Profile): Promise<number> {
  const page = await on.openOnDisk(profile, { fragment: BLANK });
  await page.addInitScript(() => {
    const look = (): void => {
      const there = ['.agenda .big', '.held-total'].every((part) => document.querySelector(part));
      // What exists in this frame is painted by its end, before the next task.
      if (there) setTimeout(() => Object.assign(globalThis, { painted: performance.now() }), 0);
      else requestAnimationFrame(look);
    };
    requestAnimationFrame(look);
  });
  await page.goto(on.url);
  const painted = await (await page.waitForFunction(() => globalThis.painted)).jsonValue();
  await page.context().close();
  return painted ?? Number.NaN;
}

function sizeOf({ folder }: Profile): number {
  const data = join(folder, 'Default', 'IndexedDB');
  const files = readdirSync(data, { recursive: true, encoding: 'utf8' });
  const sizes = files.map((file) => statSync(join(data, file))).filter((stat) => stat.isFile());
  return sizes.reduce((sum, { size }) => sum + size, 0);
}

function median(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;
}

function said(count: number): string {
  return count.toLocaleString('en');
}

function seconds(ms: number): string {
  return `${(ms / 1000).toFixed(1)} s`;
}

function megabytes(bytes: number): string {
  return `${(bytes / 1e6).toFixed(1)} MB`;
}

function note(text: string): void {
  console.log(`  ${text}`);
}
