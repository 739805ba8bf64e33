import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve, sep } from 'node:path';
import { describe, expect, it } from 'vitest';

/** The rooms, each allowed to import those before it, through their doors; see DEVELOPERS.md. */
const ROOMS = [
  'bytes',
  'table',
  'charts',
  'cards',
  'scheduler',
  'store',
  'sync',
  'figure',
  'quiz',
  'workers',
  'app',
] as const;

/** Packages a room may import. Whatever is not listed here is a mistake or a decision to be made. */
const PACKAGES: Readonly<Record<string, readonly string[]>> = {
  bytes: [],
  table: [],
  charts: ['d3-dsv', 'valibot'],
  cards: [],
  scheduler: ['ts-fsrs', 'valibot'],
  store: ['idb-keyval', 'valibot'],
  sync: ['valibot'],
  figure: ['preact', 'preact/hooks'],
  quiz: ['preact', 'preact/hooks', '@preact/signals'],
  workers: ['workbox-core', 'workbox-precaching'],
  app: ['lean-qr', 'preact', 'preact/hooks', '@preact/signals', 'workbox-window'],
};

const sources = ROOMS.flatMap((room) => sourcesIn(join('src', room)).map(inRoom(room)));

/** What the headless command may import from outside its folder; only chart.ts touches the process. */
const COMMAND: Readonly<Record<string, readonly string[]>> = {
  'arguments.ts': ['node:util'],
  'chart.ts': ['node:fs', 'node:path'],
  'vite.config.ts': ['node:url', 'vite'],
};

describe('the import rule', () => {
  it('knows every room', () => {
    const folders = readdirSync('src', { withFileTypes: true }).filter((entry) =>
      entry.isDirectory(),
    );
    expect(folders.map((entry) => entry.name).sort()).toEqual([...ROOMS].sort());
  });

  it.each(sources)(
    '$path imports only rooms before its own, through their doors',
    ({ room, imports }) => {
      for (const from of imports) {
        const other = /^(?:\.\.\/)+([a-z]+)\/(.+)$/.exec(from);
        if (from.startsWith('./')) continue;
        if (!other) {
          expect(PACKAGES[room]).toContain(from);
          continue;
        }
        const [, target = '', file] = other;
        expect(ROOMS.indexOf(target as (typeof ROOMS)[number])).toBeLessThan(ROOMS.indexOf(room));
        expect(ROOMS).toContain(target);
        expect(file).toBe('index.ts');
      }
    },
  );

  it.each(sourcesIn('bin'))(
    '$path imports only the doors of table and charts, and what Node it needs',
    ({ name, imports }) => {
      const doors = ['table', 'charts'].map((room) => `../src/${room}/index.ts`);
      for (const from of imports) {
        if (from.startsWith('./')) continue;
        expect([...doors, ...(COMMAND[name] ?? [])]).toContain(from);
      }
    },
  );

  it.each([
    ['ts-fsrs', 'src/scheduler/memory.ts'],
    ['idb-keyval', 'src/store/database.ts'],
    ['lean-qr', 'src/app/qr.ts'],
    ['workbox-precaching', 'src/workers/service-worker.ts'],
    ['workbox-window', 'src/app/offline-device.ts'],
  ])('%s is imported in one file', (name, file) => {
    const importers = sources.filter(({ imports }) => imports.includes(name));
    expect(importers.map(({ path }) => path)).toEqual([file]);
  });

  it('tsc compiles every room by its own rules, after those that it imports', () => {
    for (const { room, imports } of sources) {
      const { references = [] } = readJson(join('src', room, 'tsconfig.json'));
      const compiled = references.map(({ path }) => path);
      const others = imports.flatMap((from) => /^\.\.\/([a-z]+)\/index\.ts$/.exec(from)?.[1] ?? []);
      for (const other of others) expect(compiled, room).toContain(`../${other}`);
    }
    const reached = new Set<string>();
    const follow = (folder: string): void => {
      if (reached.has(folder)) return;
      reached.add(folder);
      const { references = [] } = readJson(join(folder, 'tsconfig.json'));
      for (const { path } of references) follow(join(folder, path));
    };
    follow('.');
    for (const room of ROOMS) expect([...reached]).toContain(join('src', room));
    for (const folder of ['bin', 'scripts', 'tests']) expect([...reached]).toContain(folder);
  });

  it.each(['table', 'charts', 'cards', 'scheduler'])('%s compiles without DOM types', (room) => {
    const config = readJson(join('src', room, 'tsconfig.json'));
    const root = readJson('tsconfig.json');
    expect(config.compilerOptions?.lib).toBeUndefined();
    expect(root.compilerOptions?.lib).toEqual(['ES2023']);
    expect(root.compilerOptions?.types).toEqual([]);
  });

  it('a DOM type in a pure room is a compile error', () => {
    const folder = mkdtempSync(join(tmpdir(), 'throughline-types-'));
    writeFileSync(join(folder, 'probe.ts'), 'export const title: string = document.title;\n');
    const config = {
      extends: resolve('src/table/tsconfig.json'),
      compilerOptions: { rootDir: folder, outDir: join(folder, 'types') },
      include: [join(folder, 'probe.ts')],
    };
    writeFileSync(join(folder, 'tsconfig.json'), JSON.stringify(config));
    const tsc = resolve('node_modules/typescript/bin/tsc');
    const run = spawnSync(process.execPath, [tsc, '-p', folder], { encoding: 'utf8' });
    rmSync(folder, { recursive: true });
    expect(run.status).not.toBe(0);
    expect(run.stdout).toContain("Cannot find name 'document'");
  });

  it.each(['bytes', 'table', 'charts', 'cards', 'scheduler'])(
    '%s asks no clock and no dice',
    (room) => {
      for (const { path, text } of sources.filter((source) => source.room === room)) {
        expect(/Date\.now|Math\.random|new Date|performance\.now/.exec(text)?.[0] ?? '', path).toBe(
          '',
        );
      }
    },
  );
});

interface Config {
  readonly compilerOptions?: { readonly lib?: unknown; readonly types?: unknown };
  readonly references?: readonly { readonly path: string }[];
}

function readJson(path: string): Config {
  return JSON.parse(readFileSync(path, 'utf8')) as Config;
}

function sourcesIn(folder: string) {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.tsx?$/.test(name))
    .map((name) => {
      const path = [...folder.split(sep), name].join('/');
      const text = readFileSync(path, 'utf8');
      const imports = [...text.matchAll(/(?:from|import)\s*\(?\s*'([^']+)'/g)].map(
        (match) => match[1] ?? '',
      );
      return { path, name, text, imports };
    });
}

function inRoom(room: (typeof ROOMS)[number]) {
  return (source: ReturnType<typeof sourcesIn>[number]) => ({ ...source, room });
}
