import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, posix, resolve, sep } from 'node:path';
import { describe, expect, it } from 'vitest';

/** The rooms, each allowed to import those before it, through their doors; see DEVELOPERS.md. */
const ROOMS = [
  'bytes',
  'table',
  'charts',
  'shots',
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
  shots: [],
  cards: [],
  scheduler: ['ts-fsrs', 'valibot'],
  store: ['idb-keyval', 'valibot'],
  sync: ['valibot'],
  figure: ['preact', 'preact/hooks'],
  quiz: ['preact', 'preact/hooks', '@preact/signals'],
  workers: ['workbox-core', 'workbox-precaching'],
  app: ['lean-qr', 'preact', 'preact/hooks', '@preact/signals', 'workbox-window'],
};

/** The sub-rooms of a room, each allowed to import those before it. */
const SUB_ROOMS: Readonly<Record<string, readonly string[]>> = {
  charts: ['document', 'numbers', 'formats'],
  scheduler: ['memory', 'log', 'effects', 'insight', 'weights', 'choose'],
  figure: ['', 'plots'],
  quiz: ['words', 'stage', 'daily', 'drill', 'rehearsal', 'ear', 'placement'],
};

/** What a feature of the app may import besides its own folder: never another feature. */
const SHARED_BY_FEATURES = ['style', 'state', 'device', 'parts', 'ports.ts', 'router.ts'];

/** Files in a folder, tsconfig.json and stylesheets included. */
const MOST_FILES = 25;

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
    ({ room, path, imports }) => {
      for (const from of imports) {
        const target = targetOf(path, from);
        if (target === null) expect(PACKAGES[room]).toContain(from);
        else if (!target.startsWith(`src/${room}/`)) {
          const [, other = '', ...file] = target.split('/');
          expect(ROOMS.indexOf(other as (typeof ROOMS)[number])).toBeLessThan(ROOMS.indexOf(room));
          expect(ROOMS).toContain(other);
          expect(file).toEqual(['index.ts']);
        }
      }
    },
  );

  it.each(sources.filter(({ room, name }) => SUB_ROOMS[room] && name !== 'index.ts'))(
    '$path imports only sub-rooms before its own',
    ({ room, path, imports }) => {
      const order = SUB_ROOMS[room] ?? [];
      expect(order).toContain(subRoomOf(path));
      for (const target of imports.map((from) => targetOf(path, from))) {
        if (!target?.startsWith(`src/${room}/`)) continue;
        expect(target).not.toBe(`src/${room}/index.ts`);
        const ranks = [target, path].map((file) => order.indexOf(subRoomOf(file)));
        expect(ranks[0], target).toBeLessThanOrEqual(ranks[1] ?? -1);
        expect(ranks[0], target).toBeGreaterThanOrEqual(0);
      }
    },
  );

  it.each(sources.filter(({ room, name }) => room === 'app' && name.includes('/')))(
    '$path imports no other feature',
    ({ path, imports }) => {
      const shared = SHARED_BY_FEATURES.indexOf(featureOf(path));
      for (const target of imports.map((from) => targetOf(path, from))) {
        if (!target?.startsWith('src/app/') || featureOf(target) === featureOf(path)) continue;
        expect(SHARED_BY_FEATURES, target).toContain(featureOf(target));
        // What is shared knows no more than it needs: parts know the state, the device neither.
        if (featureOf(path) === 'device') expect(featureOf(target), target).toMatch(/router|ports/);
        else if (shared >= 0) expect(featureOf(target), target).not.toBe('parts');
      }
    },
  );

  it.each(foldersIn('src'))('%s is a folder that can be read at a glance', (folder) => {
    const files = readdirSync(folder, { withFileTypes: true }).filter((entry) => entry.isFile());
    expect(files.length).toBeLessThanOrEqual(MOST_FILES);
  });

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
    ['ts-fsrs', 'src/scheduler/memory/memory.ts'],
    ['idb-keyval', 'src/store/database.ts'],
    ['lean-qr', 'src/app/device/qr.ts'],
    ['workbox-precaching', 'src/workers/service-worker.ts'],
    ['workbox-window', 'src/app/device/offline-device.ts'],
  ])('%s is imported in one file', (name, file) => {
    const importers = sources.filter(({ imports }) => imports.includes(name));
    expect(importers.map(({ path }) => path)).toEqual([file]);
  });

  it('tsc compiles every room by its own rules, after those that it imports', () => {
    for (const { room, imports } of sources) {
      const { references = [] } = readJson(join('src', room, 'tsconfig.json'));
      const compiled = references.map(({ path }) => path);
      const others = imports.flatMap(
        (from) => /^(?:\.\.\/)+([a-z]+)\/index\.ts$/.exec(from)?.[1] ?? [],
      );
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

  it.each(['table', 'charts', 'shots', 'cards', 'scheduler'])(
    '%s compiles without DOM types',
    (room) => {
      const config = readJson(join('src', room, 'tsconfig.json'));
      const root = readJson('tsconfig.json');
      expect(config.compilerOptions?.lib).toBeUndefined();
      expect(root.compilerOptions?.lib).toEqual(['ES2023']);
      expect(root.compilerOptions?.types).toEqual([]);
    },
  );

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

  it.each(['bytes', 'table', 'charts', 'shots', 'cards', 'scheduler'])(
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

/** The file that an import names, by its path from the root; null for a package. */
function targetOf(path: string, from: string): string | null {
  return from.startsWith('.') ? posix.join(posix.dirname(path), from) : null;
}

/** "document" of src/charts/document/cells.ts. */
function subRoomOf(path: string): string {
  return path.split('/').slice(2, -1).join('/');
}

/** The folder of src/app that a file lies in; a file of src/app itself is its own. */
function featureOf(path: string): string {
  return path.split('/')[2] ?? '';
}

function foldersIn(root: string): readonly string[] {
  const inside = readdirSync(root, { withFileTypes: true, recursive: true });
  const folders = inside.filter((entry) => entry.isDirectory());
  return [root, ...folders.map((entry) => posix.join(entry.parentPath, entry.name))];
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
