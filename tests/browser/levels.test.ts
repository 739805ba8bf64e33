import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type App, startApp, watchErrors } from './app.ts';
import { everywhere, smallerThanThumb } from './everywhere.ts';

let app: App;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.close());

const fitThumbs = smallerThanThumb('main button:visible');

describe('the instructor’s view', () => {
  it('puts lines into levels, names them, and saves them for the players', async () => {
    const page = await app.open({ fragment: '#/levels' });
    const errors = watchErrors(page);
    await page.getByText('0 of 87 lines').waitFor();
    await everywhere(page, fitThumbs);

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
    await everywhere(page, fitThumbs);

    await page.getByRole('button', { name: 'Fill by the suggested order' }).click();
    // A third of 87 lines, each; each level holds those before it.
    await page.getByText('29 of 87 lines').waitFor();
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
