/** Serves the built app and opens it in a real headless Chromium: one for each worker. */

import { existsSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core';
import { preview } from 'vite';
import { findChromium } from './chromium.ts';
import { BLANK, writeDatabase } from './database.ts';
import { watchPage } from './evidence.ts';
import type { Player } from './seed.ts';

export interface App {
  readonly url: string;
  /** A page of a new player, or of one who has a page already (`of`). */
  readonly open: (options?: PageOptions) => Promise<Page>;
  /** A page in a browser process of its own, whose data lie on the disk and outlive it. */
  readonly openOnDisk: (profile: Profile, options?: PageOptions) => Promise<Page>;
  readonly newProfile: () => Promise<Profile>;
  readonly close: () => Promise<void>;
}

/** A folder in which a browser keeps one player's data. */
export interface Profile {
  readonly folder: string;
}

export interface PageOptions {
  readonly width?: number;
  readonly height?: number;
  readonly colorScheme?: 'light' | 'dark';
  readonly fragment?: string;
  /** How far the page's clock is ahead. */
  readonly daysAhead?: number;
  /** A pattern of the addresses that give nothing. */
  readonly without?: string;
  /** As when the app is first opened on a device: a service worker fetches all of it. */
  readonly firstVisit?: boolean;
  /** The player whose page it is; a new one if there is none. `bringToFront` before the older is used. */
  readonly of?: BrowserContext;
  /** What a new player has in the database before the app is opened. */
  readonly player?: Player;
}

export const ARGUMENTS = [
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/** How long a page is waited for, milliseconds: for a machine that is busy with other things. */
const PATIENCE = 45_000;

let running: Promise<Browser> | undefined;

/** The worker's Chromium: started once, gone with the worker. */
function browser(): Promise<Browser> {
  running ??= chromium.launch(launchOptions());
  return running;
}

export async function startApp(): Promise<App> {
  const { url, stop } = await serve('dist');
  const contexts = new Set<BrowserContext>();
  const folders: string[] = [];
  const pageIn = async (context: BrowserContext, options: PageOptions): Promise<Page> => {
    const page = await context.newPage();
    watchPage(page);
    if (options.of) {
      await page.setViewportSize(viewportOf(options));
      await page.emulateMedia({ colorScheme: options.colorScheme ?? 'light' });
    }
    if (options.player) {
      await page.goto(url + BLANK);
      await writeDatabase(page, options.player);
    }
    await page.addInitScript((days) => {
      const now = Date.now;
      Date.now = () => now() + days * 86_400_000;
    }, options.daysAhead ?? 0);
    await page.goto(url + (options.fragment ?? ''));
    return page;
  };
  const held = async (
    context: BrowserContext,
    { without, firstVisit }: PageOptions,
  ): Promise<BrowserContext> => {
    context.setDefaultTimeout(PATIENCE);
    contexts.add(context);
    context.on('close', () => contexts.delete(context));
    if (without) await context.route(without, (route) => route.abort());
    if (!firstVisit) await context.addInitScript(asBefore);
    return context;
  };
  return {
    url,
    newProfile: async () => {
      const folder = await mkdtemp(join(tmpdir(), 'throughline-'));
      folders.push(folder);
      return { folder };
    },
    open: async (options = {}) => {
      const context =
        options.of ??
        (await held(await (await browser()).newContext(contextOptions(options)), options));
      return pageIn(context, options);
    },
    openOnDisk: async ({ folder }, options = {}) => {
      const settings = { ...launchOptions(), ...contextOptions(options) };
      const context = await chromium.launchPersistentContext(folder, settings);
      return pageIn(await held(context, { firstVisit: true, ...options }), options);
    },
    close: async () => {
      for (const context of contexts) await context.close();
      await stop();
      for (const folder of folders) await rm(folder, { recursive: true, force: true });
    },
  };
}

function launchOptions() {
  // Chromium will not start as root with its sandbox, and CI runs as root.
  const asRoot = process.getuid?.() === 0;
  return {
    executablePath: findChromium(),
    headless: true,
    args: asRoot ? [...ARGUMENTS, '--no-sandbox'] : ARGUMENTS,
  };
}

function viewportOf({ width = 390, height = 844 }: PageOptions) {
  return { width, height };
}

function contextOptions(options: PageOptions) {
  return {
    viewport: viewportOf(options),
    colorScheme: options.colorScheme ?? ('light' as const),
  };
}

/**
 * In the page, before its own scripts: as in a browser without service workers, on a device that is
 * not new (main.tsx). A new one shows a screen before its database is made, which a test may be
 * quicker than.
 */
function asBefore(): void {
  Object.defineProperty(Navigator.prototype, 'serviceWorker', { get: () => undefined });
  localStorage.setItem('throughline', 'opened');
}

/** A host of a built app; on a port of its own, or on one that another host had before. */
export async function serve(
  folder: string,
  port = 0,
): Promise<{ readonly url: string; readonly port: number; readonly stop: () => Promise<void> }> {
  if (!existsSync(join(folder, 'index.html'))) {
    throw new Error('Build the app first: npm run build.');
  }
  const server = await preview({
    build: { outDir: resolve(folder) },
    preview: { port, host: '127.0.0.1', strictPort: port !== 0 },
    logLevel: 'error',
  });
  const url = server.resolvedUrls?.local[0];
  if (!url) throw new Error('The preview server gave no address.');
  return {
    url,
    port: Number(new URL(url).port),
    stop: () => {
      const { httpServer } = server;
      const stopped = new Promise<void>((done) => httpServer.close(() => done()));
      // Else the browser keeps its connections, and with them the server.
      if ('closeAllConnections' in httpServer) httpServer.closeAllConnections();
      return stopped;
    },
  };
}

/** Fails the test when the page logs an error or throws. */
export function watchErrors(page: Page): string[] {
  const errors: string[] = [];
  page.on('pageerror', (error) => errors.push(error.message));
  page.on('console', (message) => {
    if (message.type() === 'error') errors.push(message.text());
  });
  return errors;
}

/** Two frames, and a task after them: what began with the last change is drawn and told. */
export function painted(page: Page): Promise<void> {
  return page.evaluate(async () => {
    for (let n = 0; n < 2; n++) await new Promise((done) => requestAnimationFrame(done));
    await new Promise((done) => setTimeout(done));
  });
}

/** Loads the page anew with the text of its root at a size, px; 32 is 200 %. */
export async function enlarge(page: Page, text: number): Promise<void> {
  await page.addInitScript((size) => {
    document.addEventListener('DOMContentLoaded', () => {
      document.documentElement.style.fontSize = `${size}px`;
    });
  }, text);
  await page.reload();
}

export async function phaseOf(page: Page): Promise<string> {
  return (await page.locator('main.quiz').getAttribute('data-phase')) ?? 'none';
}

/** Waits until the quiz asks, is answered, shows a line or is done. */
export async function settled(page: Page): Promise<string> {
  await page.locator('main.quiz:not([data-phase="saving"])').waitFor();
  return phaseOf(page);
}

/** From Today to the first question; new lines are looked at on the way. */
export async function beginQuiz(page: Page, remembered?: Remembered): Promise<void> {
  await page.getByRole('button', { name: /^(Begin|Continue)$/ }).click();
  await reachQuestion(page, remembered);
}

/** What a player remembers of the lines that were shown: the number by pattern and start. */
export type Remembered = Map<string, string>;

/** Looks at new lines until a question is asked or the session is done. */
export async function reachQuestion(
  page: Page,
  remembered: Remembered = new Map(),
): Promise<string> {
  for (;;) {
    const phase = await settled(page);
    if (phase !== 'meeting') return phase;
    const shown = (await page.locator('.verdict').textContent()) ?? '';
    const [, start = '', number = ''] = /From ([\d.]+) aim through ([\d.]+)/.exec(shown) ?? [];
    remembered.set(`${await page.locator('h1').textContent()} ${start}`, number);
    await page.getByRole('button', { name: 'Got it' }).click();
    await page.waitForFunction(
      (before) =>
        document.querySelector('main.quiz')?.getAttribute('data-phase') === 'asking' ||
        document.querySelector('.verdict')?.textContent !== before,
      shown,
    );
  }
}

/** Calls the number that was remembered when the line was shown. */
export async function answerRight(page: Page, remembered: Remembered): Promise<void> {
  const pattern = await page.locator('h1').textContent();
  const start = await page.locator('.fact-value').first().textContent();
  // A mirrored picture calls the foot rail the head rail; lines are met in the printed picture.
  const number = remembered.get(`${pattern?.replace(/^Head /, 'Foot ')} ${start}`);
  if (!number) throw new Error(`${pattern} from ${start} was not shown`);
  await answer(page, number);
}

/** Types an answer into every field, calls it and waits until it is kept. */
export async function answer(page: Page, text: string): Promise<void> {
  const fields = await page.locator('.answer-box').count();
  for (let n = 0; n < fields; n++) {
    await page.keyboard.type(text);
    await page.keyboard.press('Enter');
  }
  await page.locator('main.quiz[data-phase="answered"]').waitFor();
}
