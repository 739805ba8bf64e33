import { it, beforeAll, afterAll } from 'vitest';
import { startApp, type App, watchErrors } from './app.ts';
import { violationsOn } from './axe.ts';
let app: App;
beforeAll(async () => { app = await startApp(); });
afterAll(() => app.close());
it('shots', async () => {
  for (const [w,h,c,n] of [[390,844,'light','ph'],[1280,800,'dark','de']] as const) {
    const page = await app.open(await app.newProfile(), { width: w, height: h, colorScheme: c, fragment: '#/look-up' });
    const errors = watchErrors(page);
    await page.getByRole('heading', { level: 1 }).waitFor();
    await page.screenshot({ path: `/tmp/lk/${n}-0.png` });
    const svg = page.locator('.place-picker');
    const box = (await svg.boundingBox())!;
    console.log(n, JSON.stringify(box));
    const slider = page.getByRole('slider', { name: 'left rail' });
    await slider.focus();
    await page.keyboard.press('Home'); for (let i=0;i<6;i++) await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Enter');
    await page.screenshot({ path: `/tmp/lk/${n}-1.png` });
    await page.getByRole('button', { name: 'head-right corner' }).click();
    await page.getByRole('heading', { level: 2 }).waitFor();
    await page.locator('.trust').waitFor();
    await page.screenshot({ path: `/tmp/lk/${n}-2.png`, fullPage: true });
    console.log(await violationsOn(page));
    await page.getByRole('slider', { name: 'right rail' }).focus();
    await page.keyboard.press('Home'); for (let i=0;i<11;i++) await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Enter');
    await page.screenshot({ path: `/tmp/lk/${n}-3.png`, fullPage: true });
    console.log(await violationsOn(page), errors);
    await page.context().close();
  }
});
