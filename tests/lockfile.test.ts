import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

/** What npm writes of a package (package-lock.json, lockfileVersion 3; docs.npmjs.com). */
interface Locked {
  readonly version?: string;
  readonly resolved?: string;
  readonly integrity?: string;
  readonly license?: string;
  readonly hasInstallScript?: boolean;
  readonly link?: boolean;
  readonly dependencies?: Readonly<Record<string, string>>;
}

interface Manifest {
  readonly dependencies: Readonly<Record<string, string>>;
  readonly devDependencies: Readonly<Record<string, string>>;
  readonly scripts: Readonly<Record<string, string>>;
}

const manifest = read<Manifest>('package.json');
const { packages } = read<{ readonly packages: Readonly<Record<string, Locked>> }>(
  'package-lock.json',
);
const locked = Object.entries(packages).filter(([path]) => path !== '');

/** Licences (SPDX) that ask no more than to be named, and one that covers only its own files. */
const LICENCES = [
  '0BSD',
  'Apache-2.0',
  'BSD-2-Clause',
  'BSD-3-Clause',
  'BlueOak-1.0.0',
  'ISC',
  'MIT',
  'MIT OR Apache-2.0',
  'MPL-2.0',
  'OFL-1.1',
  'Python-2.0',
  'Unlicense',
] as const;

/** Everything that may reach a player, with what it brings. A new one is a decision to be made. */
const SHIPPED = [
  '@fontsource-variable/atkinson-hyperlegible-next',
  '@preact/signals',
  '@preact/signals-core',
  '@types/trusted-types',
  'commander',
  'd3-dsv',
  'iconv-lite',
  'idb-keyval',
  'lean-qr',
  'preact',
  'rw',
  'safer-buffer',
  'ts-fsrs',
  'valibot',
  'workbox-core',
  'workbox-precaching',
  'workbox-routing',
  'workbox-strategies',
  'workbox-window',
] as const;

describe('the lockfile', () => {
  it('has something to say', () => {
    expect(locked.length).toBeGreaterThan(50);
  });

  it('names the contents of every package by a SHA-512', () => {
    const without = locked.filter(
      ([, { integrity }]) => !/^sha512-[\w+/]{86}==$/.test(integrity ?? ''),
    );
    expect(without.map(([path]) => path)).toEqual([]);
  });

  it('has no package that runs something when it is installed', () => {
    expect(locked.filter(([, one]) => one.hasInstallScript).map(([path]) => path)).toEqual([]);
  });

  it('has no package from anywhere but the registry', () => {
    const elsewhere = locked.filter(
      ([, { resolved, link }]) =>
        link || (resolved !== undefined && !resolved.startsWith('https://registry.npmjs.org/')),
    );
    expect(elsewhere.map(([path]) => path)).toEqual([]);
  });

  it('has no licence that was not looked at', () => {
    const allowed: readonly unknown[] = LICENCES;
    const others = locked.filter(([, { license }]) => !allowed.includes(license));
    expect(others.map(([path, { license }]) => `${path} ${license}`)).toEqual([]);
  });

  it('ships no package that is not listed here', () => {
    expect(shipped()).toEqual(SHIPPED);
  });
});

describe('the manifest', () => {
  it('asks for exact versions', () => {
    const versions = Object.entries({ ...manifest.dependencies, ...manifest.devDependencies });
    expect(versions.filter(([, version]) => !/^\d+\.\d+\.\d+$/.test(version))).toEqual([]);
  });

  it('runs nothing when it is installed', () => {
    const hooks = ['preinstall', 'install', 'postinstall', 'prepare', 'prepublish'];
    expect(Object.keys(manifest.scripts).filter((name) => hooks.includes(name))).toEqual([]);
  });
});

/** The dependencies and theirs in turn. */
function shipped(): readonly string[] {
  const seen = new Set<string>();
  const visit = (name: string): void => {
    if (seen.has(name)) return;
    seen.add(name);
    const own = packages[`node_modules/${name}`];
    if (!own) throw new Error(`${name} is not in the lockfile where it is looked for`);
    Object.keys(own.dependencies ?? {}).forEach(visit);
  };
  Object.keys(manifest.dependencies).forEach(visit);
  return [...seen].sort((a, b) => (a < b ? -1 : 1));
}

function read<T>(path: string): T {
  return JSON.parse(readFileSync(path, 'utf8')) as T;
}
