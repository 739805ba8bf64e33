/** Reads the rooms of src, their sub-folders and their imports from the files. */

import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join, posix, sep } from 'node:path';
import { floorsOf, type Imports, reduced } from './graph.ts';

export interface Room {
  readonly name: string;
  /** 0 for a room that imports no other. */
  readonly floor: number;
  /** Rooms it imports, without those that it also imports indirectly. */
  readonly imports: readonly string[];
  /** Whether it compiles without browser types. */
  readonly pure: boolean;
  /** Sub-folders by floor, the lowest first. */
  readonly parts: readonly (readonly string[])[];
}

/** The files directly in src, which wire the rooms together. */
export const ROOT = 'main.tsx';

const IMPORT = /(?:from|import)\s*\(?\s*'(\.[^']+)'/g;

/**
 * Every room, by floor and then by name.
 * @param src the folder of the rooms
 */
export function readRooms(src: string): readonly Room[] {
  const files = importsOf(src);
  const rooms = grouped(files, ([first = '', second]) => (second === undefined ? ROOT : first));
  const floors = floorsOf(rooms);
  const arrows = reduced(rooms);
  return [...rooms.keys()]
    .map((name) => ({
      name,
      floor: floors.get(name) ?? 0,
      imports: [...(arrows.get(name) ?? [])].sort(),
      pure: isPure(join(src, name)),
      parts: partsOf(files, name),
    }))
    .sort((a, b) => a.floor - b.floor || (a.name < b.name ? -1 : 1));
}

/** The files that each file imports; paths in src. */
function importsOf(src: string): Imports {
  const paths = readdirSync(src, { recursive: true, encoding: 'utf8' })
    .map((path) => path.split(sep).join('/'))
    .filter((path) => /(?<!\.d)\.tsx?$/.test(path))
    .sort();
  return new Map(
    paths.map((path) => {
      const text = readFileSync(join(src, path), 'utf8');
      const others = [...text.matchAll(IMPORT)].map(([, from = '']) =>
        posix.join(posix.dirname(path), from),
      );
      return [path, new Set(others)];
    }),
  );
}

/**
 * Imports between groups of files.
 * @param groupOf names the group of a path; null leaves a file out
 */
function grouped(
  files: Imports,
  groupOf: (parts: readonly string[]) => string | null,
): Map<string, Set<string>> {
  const groups = new Map<string, Set<string>>();
  for (const [file, others] of files) {
    const group = groupOf(file.split('/'));
    if (group === null) continue;
    const own = groups.get(group) ?? new Set();
    groups.set(group, own);
    for (const other of others) {
      const to = files.has(other) ? groupOf(other.split('/')) : null;
      if (to !== null && to !== group) own.add(to);
    }
  }
  return groups;
}

/** The sub-folders by floor. Files beside the sub-folders belong to no floor. */
function partsOf(files: Imports, room: string): readonly (readonly string[])[] {
  const parts = grouped(files, ([first, part = '', file]) =>
    first === room && file !== undefined ? part : null,
  );
  const floors = floorsOf(parts);
  const rows: string[][] = [];
  for (const part of [...parts.keys()].sort()) {
    const floor = floors.get(part) ?? 0;
    rows[floor] = [...(rows[floor] ?? []), part];
  }
  return rows;
}

function isPure(folder: string): boolean {
  const path = join(folder, 'tsconfig.json');
  if (!existsSync(path)) return false;
  const { compilerOptions } = JSON.parse(readFileSync(path, 'utf8')) as {
    readonly compilerOptions?: { readonly lib?: unknown };
  };
  return compilerOptions?.lib === undefined;
}
