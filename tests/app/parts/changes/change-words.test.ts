import { describe, expect, it } from 'vitest';
import {
  changeRow,
  patternsWords,
  type Reading,
} from '../../../../src/app/parts/changes/change-words.ts';
import { emptyState } from '../../../../src/charts/document/document.ts';
import {
  type ChartState,
  diffStates,
  type MeasuredLine,
  toDecimal,
} from '../../../../src/charts/index.ts';
import { CLUB_CLOTH, TABLES } from '../../../../src/table/index.ts';

const reading: Reading = { table: TABLES['9ft'], naming: 'through', units: 'in', levels: null };
const NAMES = ['Corner', 'Rail', 'House'] as const;
const before = emptyState(CLUB_CLOTH);
const place = { pattern: 'cross-side', start: toDecimal(6) } as const;

function rows(part: Partial<ChartState>, how: Partial<Reading> = {}) {
  return diffStates(before, { ...before, ...part }).map((change) => {
    const { name, from, to } = changeRow(change, { ...reading, ...how });
    return `${name}: ${from} → ${to}`;
  });
}

describe('what a revision changes, in words', () => {
  it('gives the condition, with speeds in the player’s units', () => {
    // 1 mph is 0.44704 m/s (exact, by the definition of the mile: 1609.344 m).
    const condition = {
      ...CLUB_CLOTH,
      restitution: 0.9,
      speeds: { ...CLUB_CLOTH.speeds, firm: 5 },
    };
    expect(rows({ condition })).toEqual([
      'Cushion liveliness: 0.88 → 0.9',
      'Firm speed: 10.29 mph → 11.18 mph',
    ]);
    expect(rows({ condition }, { units: 'cm' })[1]).toBe('Firm speed: 4.60 m/s → 5.00 m/s');
  });

  it('names a pattern that joins, a number, a priority, a remark and a level', () => {
    const levels = { names: NAMES, lines: [{ ...place, level: 1 as const }] };
    const part: Partial<ChartState> = {
      patterns: ['cross-side'],
      measured: [{ ...place, medium: toDecimal(4.85) }],
      priorities: [{ pattern: 'cross-side', start: null, priority: 'first' }],
      remarks: [{ ...place, text: '<b>Short</b>' }],
      levels,
    };
    expect(rows(part, { levels })).toEqual([
      'Cross-side: not on the chart → on the chart',
      'Cross-side from 6.0 at medium: not measured → 4.85',
      'When to learn Cross-side: not said → first',
      'Remark on Cross-side from 6.0: none → “<b>Short</b>”',
      'Name of level 1: none → “Corner”',
      'Name of level 2: none → “Rail”',
      'Name of level 3: none → “House”',
      'Level of Cross-side from 6.0: in no level → Rail',
    ]);
  });

  it('gives a number in the player’s naming', () => {
    // By hand: from 4 to 4 straight across every point of the line is level with 4.
    const across: MeasuredLine = {
      pattern: 'cross-side',
      start: toDecimal(4),
      medium: toDecimal(4),
    };
    expect(rows({ measured: [across] }, { naming: 'opposite' })).toEqual([
      'Cross-side from 4.0 at medium: not measured → 4.0',
    ]);
    // Across 50 in from sight to sight, 2 × 3 11/16 in more: the nose is at (50 + 3.6875) of
    // 57.375, so from 6 through 5 it is crossed at 6 − 0.93573 (WPA sights).
    const slanted: MeasuredLine = { ...across, start: toDecimal(6), medium: toDecimal(5) };
    expect(rows({ measured: [slanted] }, { naming: 'opposite' })).toEqual([
      'Cross-side from 6.0 at medium: not measured → 5.06',
    ]);
  });
});

describe('patterns that come and go', () => {
  it('are named in one sentence each', () => {
    const after = { ...before, patterns: ['cross-side', 'cross-corner'] as const };
    const changes = diffStates({ ...before, patterns: ['up-and-back'] }, after);
    expect(patternsWords(changes)).toEqual([
      'Patterns that come to the chart: Cross-side; Cross-corner.',
      'Patterns that leave the chart: Up and back.',
    ]);
    expect(patternsWords([])).toEqual([]);
  });

  it('are on one side alone if two charts are compared', () => {
    const changes = diffStates(
      { ...before, patterns: ['up-and-back'] },
      { ...before, patterns: ['cross-side'] },
    );
    expect(patternsWords(changes, ['theirs', 'yours'])).toEqual([
      'Patterns on yours alone: Cross-side.',
      'Patterns on theirs alone: Up and back.',
    ]);
  });
});
