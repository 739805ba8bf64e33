import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { chromium } from 'playwright-core';
import { expect, it } from 'vitest';
import { findChromium } from '../browser/chromium.ts';

const MARK = readFileSync('public/icon.svg', 'utf8');
/** The icon's background color. */
const GROUND = '#24595e';

/**
 * `whole`: for platforms that crop icons to their own shape. What matters is within a circle of 0.8 of
 * the width (Web Application Manifest, W3C: the safe zone of a maskable icon).
 */
const ICONS = [
  { file: 'icon-192.png', size: 192, whole: false },
  { file: 'icon-512.png', size: 512, whole: false },
  { file: 'icon-whole.png', size: 512, whole: true },
  { file: 'icon-touch.png', size: 180, whole: true },
] as const;

/** Draws the app's icons from its mark: `npm run pictures`. */
it.each(ICONS)('$file', async ({ file, size, whole }) => {
  const browser = await chromium.launch({
    executablePath: findChromium(),
    args: process.getuid?.() === 0 ? ['--no-sandbox'] : [],
  });
  const page = await browser.newPage({ viewport: { width: size, height: size } });
  const inner = whole ? 0.78 * size : size;
  await page.setContent(
    `<style>body{margin:0;display:grid;place-items:center;block-size:100vh;${whole ? `background:${GROUND}` : ''}}svg{inline-size:${inner}px}</style>${MARK}`,
  );
  const png = await page.screenshot({
    type: 'png',
    omitBackground: true,
    path: join('public', file),
  });
  await browser.close();
  // Width and height are in the first chunk (PNG, ISO/IEC 15948).
  expect([png.readUInt32BE(16), png.readUInt32BE(20)]).toEqual([size, size]);
});
