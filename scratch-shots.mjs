import { chromium } from 'playwright-core';
import { preview } from 'vite';
const server = await preview({ preview: { port: 0, host: '127.0.0.1' }, logLevel: 'error' });
const url = server.resolvedUrls.local[0];
const only = process.argv[2];
for (const [name, width, height, colorScheme] of [['phone', 390, 844, 'light'], ['desk', 1280, 800, 'dark'], ['phone-dark', 390, 844, 'dark'], ['desk-light', 1280, 800, 'light']]) {
  if (only && !only.split(',').includes(name)) continue;
  const browser = await chromium.launch({ executablePath: '/usr/bin/chromium', args: ['--no-sandbox', '--disable-gpu'] });
  const page = await (await browser.newContext({ viewport: { width, height }, colorScheme })).newPage();
  page.on('pageerror', (e) => console.log('ERR', e.message));
  page.on('console', (m) => m.type() === 'error' && console.log('CON', m.text()));
  const shot = (what, fullPage = false) => page.screenshot({ path: `/tmp/drillshots/${name}-${what}.png`, fullPage });
  await page.goto(url + '#/drills');
  await page.getByRole('button', { name: 'Start' }).waitFor();
  await shot('home'); await shot('home-full', true);
  for (let run = 0; run < 3; run++) {
    await page.goto(url + '#/drills');
    await page.getByRole('button', { name: 'Start' }).click();
    for (let n = 0; n < 10; n++) {
      await page.locator('main.quiz[data-phase="asking"]').waitFor();
      const kind = await page.locator('.facts [role=status]').textContent();
      if (run === 0 && n < 4) await shot(`q${n}`); if (n===0) console.log(kind);
      if (n === 6) await page.getByRole('button', { name: 'Show me' }).click();
      else {
        const known = [...kind.matchAll(/(?:is|back:|pocket:|corner:) (\d+\.\d+)/g)].map((m) => Number(m[1]));
        const guess = known.length === 2 ? (known[0] + known[1]) / 2 : 2;
        await page.keyboard.type((/where/.test(kind) ? 4 : guess).toFixed(2)); await page.keyboard.press('Enter');
      }
      await page.locator('main.quiz[data-phase="answered"]').waitFor({timeout:4000}).catch(async (e)=>{await shot('fail'); console.log(kind); throw e});
      if (run === 0 && n === 1) await shot('a1');
      await page.keyboard.press('Enter');
    }
    await page.locator('.drill-result').waitFor();
  }
  await shot('result'); await shot('result-full', true);
  await page.getByRole('button', { name: 'Share this drill' }).click();
  await page.waitForTimeout(300); await shot('shared-full', true);
  await page.goto(url + '#/drills'); await page.getByRole('button', { name: 'Start' }).waitFor();
  await shot('home2-full', true);
  await page.goto(url + '#/drills/nonsense'); await page.waitForTimeout(200); await shot('refused');
  await page.goto(url + '#/drills/1-abc-35r-73j001-rs-000000'); await page.waitForTimeout(300); await shot('elsewhere');
  await browser.close();
}
await new Promise((r) => server.httpServer.close(r));
process.exit(0);
