/** A newer version of the built app, to be served in the place of the one that was. */

import { cpSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** The build with another page and another name for each of its screens' files, as a new one has. */
export function newerBuild(): string {
  const folder = mkdtempSync(join(tmpdir(), 'throughline-newer-'));
  cpSync('dist', folder, { recursive: true });
  const page = join(folder, 'index.html');
  const html = readFileSync(page, 'utf8');
  writeFileSync(page, html.replace('<title>', '<meta name="build" content="newer" /><title>'));
  const worker = join(folder, 'service-worker.js');
  const code = readFileSync(worker, 'utf8');
  const changed = code.replace(
    /(index\.html[`"'],revision:[`"'])[0-9a-f]{16}/,
    '$10123456789abcdef',
  );
  if (changed === code) throw new Error('The service worker does not name the page as expected.');
  writeFileSync(worker, changed);
  return folder;
}
