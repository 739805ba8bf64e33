import { readFileSync } from 'node:fs';
import type { Page, Request } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type App, answer, beginQuiz, startApp, watchErrors } from './app.ts';
import { ADDRESSES, becomeAs } from './every-screen.ts';

let app: App;

beforeAll(async () => {
  app = await startApp();
});

afterAll(() => app.close());

describe('the page', () => {
  it('asks no other origin for anything, whatever is opened', async () => {
    const page = await app.open();
    const asked: string[] = [];
    page.context().on('request', (request: Request) => asked.push(request.url()));
    const errors = watchErrors(page);
    await page.goto(`${app.url}#/settings`);
    await becomeAs(page, 'A player');
    for (const fragment of ADDRESSES) {
      await page.goto(app.url + fragment);
      await page.reload();
      await page.locator('main:not([aria-busy]) h1').first().waitFor();
      await page.waitForTimeout(300);
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

  const ATTACKS = {
    'an inline script': () => {
      const script = document.createElement('script');
      script.append('window.broken = true');
      document.body.append(script);
    },
    'a handler in markup': () => {
      document.body.innerHTML = '<img src="x" onerror="window.broken = true">';
    },
    'code in a string': () => {
      setTimeout('window.broken = true');
    },
    'a script from elsewhere': () => {
      const script = document.createElement('script');
      script.src = 'data:text/javascript,window.broken = true';
      document.body.append(script);
    },
    'a worker from a string': () => {
      const code = 'postMessage(0)';
      const worker = new Worker(URL.createObjectURL(new Blob([code])));
      worker.onmessage = () => Object.assign(window, { broken: true });
    },
  } as const;

  it.each(Object.entries(ATTACKS))('does not run %s', async (_, attack) => {
    const page = await app.open();
    await page.locator('h1').waitFor();
    await attempt(page, attack);
    await page.waitForTimeout(300);
    expect(await page.evaluate(() => 'broken' in window)).toBe(false);
    await page.context().close();
  });

  it('sends nothing to another origin', async () => {
    const page = await app.open();
    await page.locator('h1').waitFor();
    const sent = await page.evaluate(async () => {
      const refused: string[] = [];
      document.addEventListener('securitypolicyviolation', ({ effectiveDirective }) =>
        refused.push(effectiveDirective),
      );
      const failed = await fetch('http://127.0.0.1:9/').catch(() => 'failed');
      await new Promise((resolve) => setTimeout(resolve, 100));
      return { failed, refused };
    });
    expect(sent).toEqual({ failed: 'failed', refused: ['connect-src'] });
    await page.context().close();
  });
});

/** Some are refused by throwing. */
async function attempt(page: Page, attack: () => void): Promise<void> {
  await page.evaluate(attack).catch((error: unknown) => {
    if (!/Trusted|policy|script URL/i.test(String(error))) throw error;
  });
}
