/** Profiles of a real Chromium with a made-up log of a given length, written by the store's own code. */

import type { Page } from 'playwright-core';
import { build } from 'vite';
import type { App, Profile } from '../tests/browser/app.ts';
import type { Seeding } from './seed-page.ts';

declare global {
  var seeding: Seeding;
}

/** A file on the app's origin that does not start the app. */
export const BLANK = 'chart.schema.json';

export async function seeded(app: App, answers: number): Promise<Profile> {
  const profile = await app.newProfile();
  const page = await blankPage(app, profile);
  await page.evaluate((count) => seeding.seed(count), answers);
  await page.context().close();
  return profile;
}

/** A page with the global `seeding`. */
export async function blankPage(app: App, profile: Profile): Promise<Page> {
  const page = await app.openOnDisk(profile, { fragment: BLANK });
  await page.addScriptTag({ content: await script(), type: 'module' });
  await page.waitForFunction(() => 'seeding' in globalThis);
  return page;
}

let built: Promise<string> | null = null;

function script(): Promise<string> {
  built ??= buildScript();
  return built;
}

async function buildScript(): Promise<string> {
  const result = await build({
    configFile: false,
    logLevel: 'error',
    build: {
      write: false,
      lib: { entry: 'bench/seed-page.ts', formats: ['es'], fileName: 'seed' },
      rolldownOptions: { output: { codeSplitting: false } },
    },
  });
  const [first] = Array.isArray(result) ? result : [result];
  if (!first || !('output' in first)) throw new Error('the seeding script was not built');
  return first.output[0].code;
}
