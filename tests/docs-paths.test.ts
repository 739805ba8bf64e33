import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

/** The contributor's guide is short: details lie in docs/design. */
const MOST_WORDS = 1200;

const GUIDE = 'DEVELOPERS.md';
/** A file of players' folders, and not of the checkout. */
const ELSEWHERE = ['throughline-sync.json'];
const DESIGN = readdirSync('docs/design').map((name) => `docs/design/${name}`);

/** Folders whose paths are written from the top of the checkout. */
const TOP = /^(?:src|tests|scripts|bin|bench|docs|public|\.ci)(?:\/|$)/;
const FILE = /^[\w./-]+\.(?:tsx?|css|svg|json|md|mjs)$/;

/** What stands in backticks in a text. */
function quoted(text: string): readonly string[] {
  const plain = text.replace(/^```.*?^```/gms, '');
  return [...plain.matchAll(/`([^`\n]+)`/g)].map(([, said = '']) => said);
}

/**
 * Where a name that is quoted may lie: where it says, or in a folder that the same document names, or
 * beside a file that it names.
 */
function isThere(name: string, folders: readonly string[]): boolean {
  return TOP.test(name)
    ? existsSync(name)
    : folders.some((folder) => existsSync(`${folder}/${name}`));
}

function foldersIn(names: readonly string[]): readonly string[] {
  return names
    .filter((name) => TOP.test(name) && existsSync(name))
    .map((name) => (statSync(name).isDirectory() ? name : name.replace(/\/[^/]+$/, '')));
}

/** Names in code: camelCase, PascalCase or CONSTANTS, of which the last part is looked for. */
const NAME = /^(?:\w+\.)?(?:[a-z]+[A-Z]\w*|[A-Z]\w{3,})$/;

const words = new Set(
  ['src', 'tests', 'scripts', 'bin']
    .flatMap((folder) =>
      readdirSync(folder, { recursive: true, encoding: 'utf8' }).map((name) => `${folder}/${name}`),
    )
    .concat('vite.config.ts', 'package.json')
    .filter((path) => /\.(?:tsx?|json)$/.test(path))
    .flatMap((path) => readFileSync(path, 'utf8').match(/\w+/g) ?? []),
);

describe.each([GUIDE, 'SECURITY.md', ...DESIGN])('%s', (path) => {
  const text = readFileSync(path, 'utf8');
  const names = quoted(text);
  const folders = ['.', ...foldersIn(names)];

  it('names files and folders that are there', () => {
    const files = names.filter(
      (name) => FILE.test(name) || (TOP.test(name) && /^[\w./-]+$/.test(name)),
    );
    const missing = files.filter((name) => !isThere(name, folders) && !ELSEWHERE.includes(name));
    expect(missing).toEqual([]);
    expect(files.length).toBeGreaterThan(3);
  });

  it('names what the code has', () => {
    const inCode = names.filter((name) => NAME.test(name)).map((name) => name.replace(/^.*\./, ''));
    expect(inCode.filter((name) => !words.has(name))).toEqual([]);
  });
});

describe(GUIDE, () => {
  const text = readFileSync(GUIDE, 'utf8');

  it(`has no more than ${MOST_WORDS} words`, () => {
    const words = text.split(/\s+/).filter((word) => /[\p{L}\d]/u.test(word));
    expect(words.length).toBeLessThanOrEqual(MOST_WORDS);
  });

  it('leads to every document of the design', () => {
    for (const path of DESIGN) expect(text).toContain(`](${path})`);
  });
});
