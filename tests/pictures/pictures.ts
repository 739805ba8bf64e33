import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { answer, beginQuiz, type Remembered, reachQuestion, startApp } from '../browser/app.ts';

/** Draws the README's picture from the built app: `npm run pictures`. */
it('pictures', async () => {
  const app = await startApp();
  const page = await app.open({
    width: 390,
    height: 844,
    fragment: '#/settings',
  });
  // Both paths complete, not animated.
  await page.emulateMedia({ reducedMotion: 'reduce' });
  await page.getByLabel('Pictures').selectOption({ label: 'as printed only' });
  await page.goto(app.url);
  const remembered: Remembered = new Map();
  await beginQuiz(page, remembered);
  for (let n = 0; n < 3; n++) {
    await answer(page, '1.4');
    await page.keyboard.press('Enter');
    await reachQuestion(page, remembered);
  }
  await page.keyboard.type('1.4');
  const question = await page.screenshot({ type: 'png' });
  await page.keyboard.press('Enter');
  await page.locator('main.quiz[data-phase="answered"]').waitFor();
  await page.locator('.table-figure .path').first().waitFor();
  const answered = await page.screenshot({ type: 'png' });
  await page.goto(`${app.url}#/charts/foot-to-side`);
  await page.locator('.number-table').waitFor();
  // Removes the focus ring from the heading.
  await page.locator('h1').evaluate((heading) => heading.blur());
  const pattern = await page.screenshot({ type: 'png' });
  // A page without a policy: the app's allows no markup.
  await page.goto('about:blank');
  await page.setViewportSize({ width: 1240, height: 860 });
  const shots = [question, answered, pattern].map(
    (png) => `<img src="data:image/png;base64,${png.toString('base64')}">`,
  );
  await page.setContent(
    `<style>body{margin:0;display:flex;gap:20px;padding:8px 15px;background:#cfc6b4;box-sizing:border-box}img{width:390px;border-radius:22px}</style>${shots.join('')}`,
  );
  await page.screenshot({ path: 'docs/throughline.png', type: 'png' });
  await app.close();
  expect(readFileSync('docs/throughline.png').length).toBeGreaterThan(10_000);
});
