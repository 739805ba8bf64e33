import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type App, startApp, watchErrors } from './app.ts';
import { violationsOn } from './everywhere.ts';

let app: App;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.close());

describe.each([
  ['a phone', 390, 844, 'light'],
  ['a phone', 390, 844, 'dark'],
  ['a desktop', 1280, 800, 'light'],
  ['a desktop', 1280, 800, 'dark'],
] as const)('the instructor’s view on %s, %d × %d, %s', (_name, width, height, colorScheme) => {
  it('puts lines into levels, names them, and saves them for the players', async () => {
    const page = await app.open({
      width,
      height,
      colorScheme,
      fragment: '#/levels',
    });
    const errors = watchErrors(page);
    await page.getByText('0 of 87 lines').waitFor();
    await expectSound(page);

    const line = page
      .getByRole('region', { name: 'Cross-side' })
      .getByRole('button', { name: /^From 6\.0/ });
    const named = async () => (await line.textContent())?.replace('–', '');
    for (const level of [
      'in no level',
      'level 1, Opening night',
      'level 2, League night',
      'level 3, Final night',
    ]) {
      expect(await named()).toBe(`From 6.0: ${level}`);
      await line.click();
    }
    expect(await named()).toBe('From 6.0: in no level');
    await page.getByRole('button', { name: 'All into 2: Cross-corner' }).click();
    await page.getByLabel(/^Level 2/).fill('Regulars');
    await page.getByLabel(/^Level 3/).fill('Regulars');
    await page.getByText('Another level is called that.').waitFor();
    await page.getByLabel(/^Level 3/).fill('Final night');
    await expectSound(page);

    await page.getByRole('button', { name: 'Fill by the suggested order' }).click();
    // A third of 87 lines, each; each level holds those before it.
    await page.getByText('29 of 87 lines').waitFor({ timeout: 30_000 });
    await page.getByText('29 more, 58 in all').waitFor();
    await page.getByText('29 more, 87 in all').waitFor();
    await page.getByRole('button', { name: 'Save', exact: true }).click();
    await page.getByLabel('Your name').fill('Quay Street');
    await page.getByLabel('Why').fill('Levels for the autumn course.');
    await page.getByRole('button', { name: 'Save the revision' }).click();
    await page.getByText('Saved as revision 4.').waitFor();
    await page.goto(`${app.url}#/charts`);
    await page.getByLabel('Level').selectOption('Opening night');
    await page.getByText('29 of 87 lines are asked.').waitFor();
    expect(errors).toEqual([]);
    await page.context().close();
  });
});

async function expectSound(page: Page): Promise<void> {
  expect(await violationsOn(page)).toEqual([]);
  const beyond = await page.evaluate(
    () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
  );
  expect(beyond).toBeLessThanOrEqual(0);
  const small = await page
    .locator('main button:visible')
    .evaluateAll((all) =>
      all.filter((one) => one.getBoundingClientRect().height < 44).map((one) => one.textContent),
    );
  expect(small).toEqual([]);
}
