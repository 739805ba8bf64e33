import { describe, expect, it } from 'vitest';
import { levelWords } from '../../../../src/app/parts/changes/level-words.ts';
import { emptyState } from '../../../../src/charts/document/document.ts';
import { diffStates, type Level, type Levels, toDecimal } from '../../../../src/charts/index.ts';
import { CLUB_CLOTH } from '../../../../src/table/index.ts';

const before = emptyState(CLUB_CLOTH);
const NAMES: Levels['names'] = ['Corner', 'Rail', 'House'];

/** Lines of one pattern from 1 up, each in its level; null is in none. */
function levels(lines: readonly (Level | null)[], names = NAMES): Levels {
  const entries = lines.flatMap((level, n) =>
    level === null ? [] : [{ pattern: 'cross-side' as const, start: toDecimal(n + 1), level }],
  );
  return { names, lines: entries };
}

function words(from: Levels | null, to: Levels | null, sides?: readonly [string, string]) {
  const changes = diffStates({ ...before, levels: from }, { ...before, levels: to });
  return levelWords(changes, (to ?? from ?? levels([])).names, sides);
}

describe('the summary of level changes', () => {
  it('names new levels once, with how many lines are in each', () => {
    expect(words(null, levels([0, 0, 1, 2, 2, 2]))).toEqual([
      'New levels: Corner; Rail; House.',
      '6 lines put into levels: 2 in Corner, 1 in Rail, 3 in House.',
    ]);
  });

  it('names no level without lines', () => {
    expect(words(null, levels([1]))[1]).toBe('1 line put into levels: 1 in Rail.');
  });

  it('names removed levels', () => {
    expect(words(levels([0, 1]), null)).toEqual([
      'No more levels: it had Corner; Rail; House.',
      '2 lines taken out of the levels.',
    ]);
  });

  it('counts lines that change level, come and go', () => {
    expect(words(levels([0, 0, 0, 1, null, 2]), levels([1, 2, 2, 1, 0, null]))).toEqual([
      '1 line put into levels: 1 in Corner.',
      '3 lines change level.',
      '1 line taken out of the levels.',
    ]);
    expect(words(levels([0]), levels([1]))).toEqual(['1 line changes level.']);
  });

  it('names a renamed level', () => {
    const named = levels([0], ['Corner', 'Club', 'House']);
    expect(words(levels([0]), named)).toEqual(['Names of levels: level 2 was “Rail”, is “Club”.']);
  });

  it('names the sides if two charts are compared', () => {
    const sides = ['theirs', 'yours'] as const;
    expect(words(null, levels([0, 1]), sides)).toEqual([
      'Levels on yours alone: Corner; Rail; House.',
      '2 lines with another level on theirs than on yours.',
    ]);
    expect(words(levels([0]), null, sides)[0]).toBe('Levels on theirs alone: Corner; Rail; House.');
    const named = levels([0], ['Corner', 'Club', 'House']);
    expect(words(levels([0]), named, sides)).toEqual([
      'Names of levels: level 2 theirs “Rail”, yours “Club”.',
    ]);
  });

  it('is empty if nothing changes', () => {
    expect(words(levels([0]), levels([0]))).toEqual([]);
  });
});
