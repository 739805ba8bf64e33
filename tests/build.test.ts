import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';

/** All that a build is made of. */
const SOURCES = [
  'index.html',
  'package.json',
  'public',
  'scripts',
  'src',
  'tsconfig.json',
  'vite.config.ts',
];

describe('a build', () => {
  // Whoever has the sources can check that the app on a host was made from them.
  it('has the same bytes in another folder, at another time of day, in another language', {
    timeout: 300_000,
  }, () => {
    const one = build({ TZ: 'UTC', LANG: 'C' });
    const other = build({ TZ: 'Pacific/Auckland', LANG: 'de_DE.UTF-8' });
    expect(Object.keys(one).length).toBeGreaterThan(50);
    expect(other).toEqual(one);
  });
});

/** Builds a copy of the sources in a folder of its own; digests by file. */
function build(env: Readonly<Record<string, string>>): Readonly<Record<string, string>> {
  const folder = mkdtempSync(join(tmpdir(), 'throughline-build-'));
  try {
    for (const name of SOURCES) cpSync(name, join(folder, name), { recursive: true });
    symlinkSync(resolve('node_modules'), join(folder, 'node_modules'));
    const vite = join(folder, 'node_modules', 'vite', 'bin', 'vite.js');
    const run = spawnSync(process.execPath, [vite, 'build', '--logLevel', 'error'], {
      cwd: folder,
      encoding: 'utf8',
      env: { PATH: process.env.PATH ?? '', HOME: process.env.HOME ?? '', ...env },
    });
    if (run.status !== 0) throw new Error(run.stderr);
    return digestsIn(join(folder, 'dist'));
  } finally {
    rmSync(folder, { recursive: true });
  }
}

function digestsIn(folder: string): Readonly<Record<string, string>> {
  const files = readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name))
    .sort();
  return Object.fromEntries(
    files.map((path) => [
      path.slice(folder.length + 1),
      createHash('sha256').update(readFileSync(path)).digest('hex'),
    ]),
  );
}
