/** Before the browser tests: the app is built, and there is a Chromium. */

import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { brotliDecompressSync } from 'node:zlib';
import { FETCHED, isChromiumThere } from './chromium.ts';

/**
 * A Chromium inside a package of the registry (MIT), for Linux on x64 alone; with the libraries and
 * a font that a bare system lacks. Fetched only where no other is found.
 */
const PACKAGE = '@sparticuz/chromium@147.0.0';
const SHA_512 =
  '4ZKeAQQa8up2mt675qSitztLdbQrlf8BKdC5naeap+5Mv1OV1OlJdPoU+EJC/p5sQUJUQmN4r+q5+EhaaOUHpQ==';

/** Vitest calls it once, before the workers start. */
export function setup(): void {
  if (!existsSync(join('dist', 'index.html'))) {
    throw new Error('Build the app first: npm run build.');
  }
  if (isChromiumThere() || process.platform !== 'linux' || process.arch !== 'x64') return;
  console.log(`No Chromium is found on this machine: fetching ${PACKAGE} (65 MB), once.`);
  fetchChromium();
}

/** Whole or not at all: a fetch that is cut off leaves no browser behind. */
function fetchChromium(): void {
  const folder = dirname(resolve(FETCHED));
  mkdirSync(dirname(folder), { recursive: true });
  const work = mkdtempSync(`${folder}-`);
  try {
    const packed = spawnSync('npm', ['pack', PACKAGE, '--silent', '--pack-destination', work], {
      encoding: 'utf8',
    });
    if (packed.status !== 0) throw new Error(`${PACKAGE} was not to be had: ${packed.stderr}`);
    const archive = readFileSync(join(work, packed.stdout.trim()));
    if (createHash('sha512').update(archive).digest('base64') !== SHA_512) {
      throw new Error(`${PACKAGE} is not the file that is expected.`);
    }
    unpack(archive, work, 'xz');
    const bin = (name: string) =>
      brotliDecompressSync(readFileSync(join(work, 'package', 'bin', `${name}.br`)));
    writeFileSync(join(work, 'browser'), bin('chromium'), { mode: 0o755 });
    unpack(bin('al2023.tar'), work, 'x');
    unpack(bin('fonts.tar'), work, 'x');
    const fonts = `<fontconfig><dir>${join(folder, 'fonts')}</dir><cachedir>${join(folder, 'cache')}</cachedir></fontconfig>`;
    writeFileSync(join(work, 'fonts.conf'), fonts);
    writeFileSync(join(work, 'chromium'), STARTER, { mode: 0o755 });
    rmSync(join(work, 'package'), { recursive: true });
    rmSync(join(work, packed.stdout.trim()));
    rmSync(folder, { recursive: true, force: true });
    renameSync(work, folder);
  } finally {
    rmSync(work, { recursive: true, force: true });
  }
}

/** The libraries that came with it are for it alone: after the system's own. */
const STARTER = `#!/bin/sh
here=$(dirname "$0")
export LD_LIBRARY_PATH="\${LD_LIBRARY_PATH:+$LD_LIBRARY_PATH:}$here/lib"
export FONTCONFIG_FILE="\${FONTCONFIG_FILE:-$here/fonts.conf}"
exec "$here/browser" "$@"
`;

/** @param how tar's options: `x`, or `xz` for what is gzipped */
function unpack(archive: Buffer, folder: string, how: 'x' | 'xz'): void {
  const run = spawnSync('tar', [`-${how}f`, '-', '-C', folder], { input: archive });
  if (run.status !== 0) throw new Error(`tar could not unpack it: ${run.stderr}`);
}
