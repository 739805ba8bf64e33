/** Screens whose code is fetched when they are first wanted. */

import { afterAll, beforeAll, expect, it } from 'vitest';
import { type App, startApp } from './app.ts';

let app: App;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.close());

// Bug: the code came after the screen was drawn and before it looked for it; the screen stayed empty.
it('a screen that is left and wanted again while it is fetched is shown', async () => {
  const page = await app.open();
  let letGo = (): void => undefined;
  const held = new Promise<void>((resolve) => {
    letGo = resolve;
  });
  let asked = 0;
  await page.route(/assets\/memory/, async (route) => {
    asked += 1;
    await held;
    await route.continue();
  });
  const goTo = (hash: string) =>
    page.evaluate((to) => {
      location.hash = to;
    }, hash);
  await goTo('#/memory');
  await page.locator('main[aria-busy]').waitFor();
  await expect.poll(() => asked).toBeGreaterThan(0);
  await goTo('#/');
  await page.locator('.agenda').waitFor();
  // Effects wait for a frame, and no frame comes.
  await page.clock.install();
  await page.clock.pauseAt(Date.now() + 60_000);
  await goTo('#/memory');
  await page.locator('main[aria-busy]').waitFor();
  const came = page.waitForResponse(/assets\/memory.*\.js/);
  letGo();
  // As text: Vite would make another import of it.
  await page.evaluate(`import('${(await came).url()}').then(() => undefined)`);
  await page.evaluate(someTasks);
  await page.clock.resume();
  await page.getByRole('heading', { level: 1, name: 'Memory' }).waitFor();
  await page.context().close();
});

/** In the page: what waited for the code has run. */
async function someTasks(): Promise<void> {
  for (let n = 0; n < 20; n++) {
    await new Promise((done) => {
      const { port1, port2 } = new MessageChannel();
      port1.onmessage = done;
      port2.postMessage(null);
    });
  }
}
