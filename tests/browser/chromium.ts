/** Finds a real Chromium on the machine, or says in one sentence how to get one. */

import { existsSync } from 'node:fs';
import { platform } from 'node:os';
import { delimiter, join, resolve } from 'node:path';

const KNOWN: Readonly<Partial<Record<NodeJS.Platform, readonly string[]>>> = {
  linux: [
    // Without windows: the same engine, and the tests take two thirds of the time. Not the script in
    // /usr/bin, which ends before the browser that it starts has let go of the player's data.
    '/usr/lib/chromium/chromium-headless-shell',
    '/usr/bin/chromium',
    '/usr/bin/chromium-browser',
    '/usr/bin/google-chrome',
    '/usr/bin/google-chrome-stable',
    '/snap/bin/chromium',
  ],
  darwin: [
    '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
    '/Applications/Chromium.app/Contents/MacOS/Chromium',
    '/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge',
  ],
  win32: [
    'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
    'C:\\Program Files (x86)\\Google\\Chrome\\Application\\chrome.exe',
    'C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe',
  ],
};

/** Where `prepare.ts` puts one if there is no other. */
export const FETCHED = 'node_modules/.cache/chromium/chromium';

/** @throws with one sentence when there is none: browser tests are never skipped */
export function findChromium(): string {
  const found = chromiumHere();
  if (found) return found;
  throw new Error(
    'Browser tests need Chromium: install it (Debian: apt-get install chromium) or name one in THROUGHLINE_CHROMIUM.',
  );
}

/** @throws if one is named that is not there */
export function isChromiumThere(): boolean {
  return chromiumHere() !== undefined;
}

function chromiumHere(): string | undefined {
  const named = process.env.THROUGHLINE_CHROMIUM;
  if (named) {
    if (existsSync(named)) return named;
    throw new Error(`THROUGHLINE_CHROMIUM names ${named}, which is not there.`);
  }
  const onPath = (process.env.PATH ?? '')
    .split(delimiter)
    .flatMap((folder) => ['chromium', 'google-chrome'].map((name) => join(folder, name)));
  const known = [...(KNOWN[platform()] ?? []), ...onPath, resolve(FETCHED)];
  return known.find((path) => existsSync(path));
}
