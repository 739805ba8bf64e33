import { readFileSync } from 'node:fs';
import type { Page, Request } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type App, answer, beginQuiz, painted, startApp, watchErrors } from './app.ts';
import { ADDRESSES, openAs } from './every-screen.ts';

let app: App;

beforeAll(async () => {
  app = await startApp();
});

afterAll(() => app.close());

describe('the page', () => {
  it('asks no other origin for anything, whatever is opened', async () => {
    const page = await openAs(app, 'A player');
    const asked: string[] = [];
    page.context().on('request', (request: Request) => asked.push(request.url()));
    const errors = watchErrors(page);
    for (const fragment of ADDRESSES) {
      await page.goto(app.url + fragment);
      await page.reload();
      await page.locator('main:not([aria-busy]) h1').first().waitFor();
      // What is fetched beside the screen begins in the frame after it.
      await painted(page);
    }
    await page.goto(app.url);
    await beginQuiz(page);
    await answer(page, '1.4');
    expect(asked.length).toBeGreaterThan(50);
    const { origin } = new URL(app.url);
    const own = (url: string) => url.startsWith(`${origin}/`) || /^(blob|data):/.test(url);
    expect(asked.filter((url) => !own(url))).toEqual([]);
    expect(errors).toEqual([]);
    await page.context().close();
  });

  it('has a policy without inline script, inline style, eval or another origin', () => {
    const html = readFileSync('dist/index.html', 'utf8').replaceAll('&#39;', "'");
    const [, policy = ''] = /Content-Security-Policy" content="([^"]+)"/.exec(html) ?? [];
    const rules = new Map(
      policy.split('; ').map((rule) => {
        const [name = '', ...sources] = rule.split(' ');
        return [name, sources] as const;
      }),
    );
    expect(rules.get('default-src')).toEqual(["'none'"]);
    expect(rules.get('script-src')).toEqual(["'self'"]);
    expect(rules.get('style-src')).toEqual(["'self'"]);
    expect(rules.get('connect-src')).toEqual(["'self'"]);
    expect(policy).not.toMatch(/unsafe|https?:|\*/);
    // It holds for what comes after it.
    expect(html.indexOf('Content-Security-Policy')).toBeLessThan(html.indexOf('<script'));
    expect(html).not.toMatch(/<script(?![^>]* src=)|<style|\son\w+=/);
  });

  /** Each is over when it has run or was refused. */
  const ATTACKS: Readonly<Record<string, () => Promise<unknown> | undefined>> = {
    'an inline script': () => {
      const script = document.createElement('script');
      script.append('window.broken = true');
      document.body.append(script);
      return undefined;
    },
    'a handler in markup': () => {
      document.body.innerHTML = '<img src="x" onerror="window.broken = true">';
      return new Promise((done) => document.images[0]?.addEventListener('error', done));
    },
    'code in a string': () => {
      setTimeout('window.broken = true');
      return new Promise((done) => setTimeout(done));
    },
    'a script from elsewhere': () => {
      const script = document.createElement('script');
      script.src = 'data:text/javascript,window.broken = true';
      document.body.append(script);
      return new Promise((done) => {
        script.onload = done;
        script.onerror = done;
      });
    },
    'a worker from a string': () => {
      const code = 'postMessage(0)';
      const worker = new Worker(URL.createObjectURL(new Blob([code])));
      return new Promise((done) => {
        worker.onerror = done;
        worker.onmessage = () => done(Object.assign(window, { broken: true }));
      });
    },
  };

  it.each(Object.entries(ATTACKS))('does not run %s', async (_, attack) => {
    const page = await app.open();
    await page.locator('h1').waitFor();
    await attempt(page, attack);
    expect(await page.evaluate(() => 'broken' in window)).toBe(false);
    await page.context().close();
  });

  it('sends nothing to another origin', async () => {
    const page = await app.open();
    await page.locator('h1').waitFor();
    const refusals = await watchRefusals(page);
    expect(await page.evaluate(() => fetch('http://127.0.0.1:9/').catch(() => 'failed'))).toBe(
      'failed',
    );
    await expect.poll(refusals).toEqual(['connect-src']);
    await page.context().close();
  });
});

/** Directives of the policy that refused something, from now on. */
async function watchRefusals(page: Page): Promise<() => Promise<readonly string[]>> {
  await page.evaluate(() => {
    const refused: string[] = [];
    Object.assign(window, { refused });
    document.addEventListener('securitypolicyviolation', ({ effectiveDirective }) =>
      refused.push(effectiveDirective),
    );
  });
  return () => page.evaluate(() => (window as unknown as { refused: readonly string[] }).refused);
}

/** Some are refused by throwing. */
async function attempt(page: Page, attack: () => Promise<unknown> | undefined): Promise<void> {
  // What it resolves with need not be sent here.
  await page.evaluate(`(${attack})()?.then(() => undefined)`).catch((error: unknown) => {
    if (!/Trusted|policy|script URL/i.test(String(error))) throw error;
  });
}
