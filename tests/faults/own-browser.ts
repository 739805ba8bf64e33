/** A Chromium in its own process group, which the harness can kill. */

import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { createInterface } from 'node:readline';
import { type BrowserContext, chromium, type Page } from 'playwright-core';
import { ARGUMENTS, type Profile } from '../browser/app.ts';
import { findChromium } from '../browser/chromium.ts';
import { watchPage } from '../browser/evidence.ts';
import { type Note, watchWrites } from './watch.ts';

export interface OwnBrowser {
  readonly context: BrowserContext;
  readonly page: Page;
  /** Another page in a window of its own: a hidden tab draws only one frame a second. */
  readonly newWindow: () => Promise<Page>;
  /** Reports the pages' writes and the phases of the quiz. */
  readonly listen: (hear: (note: Note) => void) => void;
  /** Kills every process of this browser at once, like a crash or an empty battery. */
  readonly kill: () => Promise<void>;
}

/** Running browsers. A failing test leaves its own behind. */
const running = new Set<ChildProcess>();

/** Kills the browsers that still run: after each test, and before its server closes. */
export async function endBrowsers(): Promise<void> {
  for (const child of running) await killGroup(child);
}

/** Opens a profile, which no other browser may use. */
export async function startBrowser(profile: Profile): Promise<OwnBrowser> {
  const asRoot = process.getuid?.() === 0;
  const child = spawn(
    findChromium(),
    [
      ...ARGUMENTS,
      ...(asRoot ? ['--no-sandbox'] : []),
      '--headless=new',
      '--no-default-browser-check',
      '--hide-crash-restore-bubble',
      '--remote-debugging-port=0',
      `--user-data-dir=${profile.folder}`,
      '--window-size=390,844',
      'about:blank',
    ],
    // A process group of its own: all its children and nothing else.
    { detached: true, stdio: ['ignore', 'ignore', 'pipe'] },
  );
  running.add(child);
  child.once('exit', () => running.delete(child));
  const kill = (): Promise<void> => killGroup(child);
  try {
    const browser = await chromium.connectOverCDP(await addressOf(child));
    const [context] = browser.contexts();
    if (!context) throw new Error('the browser has no profile');
    const listeners = new Set<(note: Note) => void>();
    await context.exposeBinding('tellHarness', (_, note: Note) => {
      for (const hear of listeners) hear(note);
    });
    await context.addInitScript(watchWrites);
    const page = context.pages()[0] ?? (await context.newPage());
    watchPage(page);
    context.on('page', watchPage);
    const newWindow = async (): Promise<Page> => {
      const session = await browser.newBrowserCDPSession();
      const [opened] = await Promise.all([
        context.waitForEvent('page'),
        session.send('Target.createTarget', { url: 'about:blank', newWindow: true }),
      ]);
      await session.detach();
      return opened;
    };
    return { context, page, newWindow, listen: (hear) => listeners.add(hear), kill };
  } catch (error) {
    await kill();
    throw error;
  }
}

/** Chromium prints on standard error where it listens. */
async function addressOf(child: ChildProcess): Promise<string> {
  if (!child.stderr) throw new Error('the browser’s output cannot be read');
  const lines: string[] = [];
  for await (const line of createInterface(child.stderr)) {
    const [, address] = /DevTools listening on (\S+)/.exec(line) ?? [];
    if (address) {
      child.stderr.resume();
      return address;
    }
    lines.push(line);
  }
  throw new Error(`Chromium did not start: ${lines.join(' ')}`);
}

async function killGroup(child: ChildProcess): Promise<void> {
  const { pid } = child;
  if (pid === undefined || child.exitCode !== null || child.signalCode !== null) return;
  const gone = once(child, 'exit');
  process.kill(-pid, 'SIGKILL');
  await gone;
}
