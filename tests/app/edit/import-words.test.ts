import { describe, expect, it } from 'vitest';
import { importWords } from '../../../src/app/edit/import-words.ts';
import {
  HARBOUR_LANE,
  lastRevision,
  setNumber,
  setPattern,
  setRemark,
  stateOf,
  toDecimal,
} from '../../../src/charts/index.ts';

const before = stateOf(lastRevision(HARBOUR_LANE));
const six = { pattern: 'cross-side', start: toDecimal(6) } as const;
const two = { pattern: 'foot-to-side', start: toDecimal(2) } as const;
const one = setNumber(before, six, 'soft', toDecimal(4.9));

describe('the words for an imported table', () => {
  it('say that nothing is new if nothing changed', () => {
    expect(importWords(before, before, 'UTF-8')).toBe('Nothing in it is new.');
  });

  it('count the numbers changed in each pattern, and the other changes', () => {
    expect(importWords(before, one, 'UTF-8')).toBe(
      'The table is read in. 1 number changed: 1 in Cross-side. Undo takes it back.',
    );
    const more = setNumber(setNumber(one, two, 'soft', toDecimal(1)), two, 'firm', toDecimal(1.2));
    expect(importWords(before, setRemark(more, six, 'Runs long.'), 'UTF-8')).toBe(
      'The table is read in. 3 numbers changed: 2 in Foot rail to side; 1 in Cross-side. 1 remark changed. Undo takes it back.',
    );
  });

  it('name a pattern that the chart did not have', () => {
    const without = setPattern(before, 'cross-side', false);
    expect(importWords(without, before, 'UTF-8')).toContain(
      'Patterns that come to the chart: Cross-side.',
    );
  });

  it('say that Windows-1252 was assumed if it is not UTF-8', () => {
    expect(importWords(before, before, 'Windows-1252')).toContain('taken for Windows-1252');
    expect(importWords(before, before, 'UTF-16')).not.toContain('Windows-1252');
  });
});
