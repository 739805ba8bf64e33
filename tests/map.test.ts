import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { floorsOf, reduced } from '../scripts/map/graph.ts';
import { spread } from '../scripts/map/spread.ts';
import { CAPTIONS, mapOf, readRooms } from '../scripts/map.ts';

const PATH = 'docs/map.svg';
if (process.env.THROUGHLINE_WRITE_MAP) writeFileSync(PATH, mapOf('src'));

describe('the map of the rooms', () => {
  it('shows what the imports are (npm run map)', () => {
    expect(existsSync(PATH) ? readFileSync(PATH, 'utf8') : '').toBe(mapOf('src'));
  });

  it('has a few words about every room', () => {
    const names = readRooms('src').map(({ name }) => name);
    expect(Object.keys(CAPTIONS).sort()).toEqual([...names].sort());
  });

  it('has every sub-folder of a room', () => {
    for (const { name, parts } of readRooms('src').filter((room) =>
      existsSync(`src/${room.name}/index.ts`),
    )) {
      const folders = readdirSync(`src/${name}`, { withFileTypes: true })
        .filter((entry) => entry.isDirectory() && entry.name !== 'style')
        .map((entry) => entry.name);
      expect(parts.flat().sort()).toEqual(folders.sort());
    }
  });
});

describe('the graph', () => {
  const graph = (imports: Readonly<Record<string, readonly string[]>>) =>
    new Map(Object.entries(imports).map(([name, others]) => [name, new Set(others)]));

  it('drops an import that another one makes superfluous', () => {
    const arrows = reduced(graph({ a: ['b', 'c', 'd'], b: ['c'], c: ['d'], d: [] }));
    expect([...arrows].map(([name, others]) => [name, [...others]])).toEqual([
      ['a', ['b']],
      ['b', ['c']],
      ['c', ['d']],
      ['d', []],
    ]);
  });

  it('puts a name a floor above the highest that it imports, and a circle on one floor', () => {
    const floors = floorsOf(graph({ a: ['b', 'd'], b: ['c'], c: ['b', 'd'], d: [] }));
    expect(Object.fromEntries(floors)).toEqual({ a: 2, b: 1, c: 1, d: 0 });
  });
});

describe('places on a line', () => {
  it('are the wanted ones where there is room', () => {
    expect(spread([1, 5, 20], [3, 3, 3], [0, 30])).toEqual([1, 5, 20]);
  });

  it('give way to both sides alike', () => {
    expect(spread([10, 10], [4, 4], [0, 30])).toEqual([8, 12]);
  });

  it('stay within their bounds', () => {
    expect(spread([1, 1], [4, 4], [2, 30])).toEqual([2, 6]);
    expect(spread([29, 29], [4, 4], [0, 30])).toEqual([26, 30]);
  });
});
