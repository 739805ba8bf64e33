import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';

it('npm start prints the address of the app and nothing else', async () => {
  // Not dist, from which other tests serve the app.
  const cache = join('node_modules', '.cache');
  mkdirSync(cache, { recursive: true });
  const folder = mkdtempSync(join(cache, 'start-'));
  const env = { ...process.env, PORT: '0', NODE_ENV: 'production', VITEST: undefined };
  const started = spawn(process.execPath, ['scripts/start.mjs', folder], { env });
  let said = '';
  started.stderr.on('data', (text: Buffer) => {
    said += text;
  });
  try {
    await new Promise<void>((resolve, reject) => {
      started.stdout.on('data', (text: Buffer) => {
        said += text;
        if (said.includes('\n')) resolve();
      });
      started.once('exit', () => reject(new Error(`it ended: ${said}`)));
    });
    expect(said).toMatch(/^http:\/\/localhost:\d+\/\n$/);
    const page = await fetch(said.trim());
    expect(await page.text()).toContain('<title>Throughline</title>');
  } finally {
    started.kill();
    await once(started, 'exit');
    rmSync(folder, { recursive: true });
  }
});
