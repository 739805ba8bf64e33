import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Named,
  readStart,
  readTyped,
  showOff,
  showTyped,
} from '../../../src/app/edit/typed-number.ts';
import {
  computeChart,
  HARBOUR_LANE,
  lastRevision,
  PATTERNS,
  patternOf,
  setNumber,
  toDecimal,
} from '../../../src/charts/index.ts';
import { NAMINGS, TABLES } from '../../../src/table/index.ts';

const cross: Named = {
  table: TABLES['9ft'],
  pattern: patternOf('cross-side'),
  naming: 'through',
};
const six = toDecimal(6);

describe('a typed number', () => {
  it.each([
    ['4.9', 49_000],
    ['4,9', 49_000],
    [' 4.85 ', 48_500],
    ['0', 0],
    ['8', 80_000],
    ['', null],
  ])('%j is read', (text, number) => {
    expect(readTyped(text, six, cross)).toEqual({ ok: true, number });
  });

  it.each([
    ['abc', 'not a number'],
    ['4.8555', 'three decimals at most'],
    ['4.800000000', 'too long for a number'],
    ['8.1', 'beyond the rail'],
    ['-0.1', 'beyond the rail'],
  ])('%j is refused', (text, say) => {
    expect(readTyped(text, six, cross)).toEqual({ ok: false, say });
  });

  it('shows as it was typed, in either naming', () => {
    const pattern = fc.constantFrom(...PATTERNS.map(({ id }) => patternOf(id)));
    const thousandths = fc.integer({ min: 0, max: 4000 });
    fc.assert(
      fc.property(
        fc.constantFrom(...NAMINGS),
        pattern,
        thousandths,
        fc.integer({ min: 1, max: 7 }),
        (naming, one, number, half) => {
          const named: Named = { table: TABLES['7ft'], pattern: one, naming };
          const start = toDecimal(half / 2);
          const typed = readTyped((number / 1000).toFixed(3), start, named);
          if (!typed.ok || typed.number === null) {
            // In the naming opposite the sight, some starts cannot reach the ends of the rail.
            expect(naming).toBe('opposite');
            return;
          }
          expect(Number(showTyped(typed.number, start, named))).toBe(number / 1000);
        },
      ),
    );
  });

  it('is the number that the chart prints, in either naming', () => {
    for (const naming of NAMINGS) {
      const named: Named = { ...cross, naming };
      const typed = readTyped('4.85', six, named);
      if (!typed.ok || typed.number === null) throw new Error('4.85 is a number');
      const place = { pattern: 'cross-side', start: six } as const;
      const state = setNumber(lastRevision(HARBOUR_LANE), place, 'medium', typed.number);
      const chart = computeChart(
        {
          ...HARBOUR_LANE,
          printStep: toDecimal(0.05),
          revisions: [{ ...lastRevision(HARBOUR_LANE), ...state }],
        },
        naming,
      );
      const line = chart.lines.find(
        ({ pattern, start }) => pattern === 'cross-side' && start === six,
      );
      expect(line?.numbers.medium).toMatchObject({ printed: 48_500, source: 'measured' });
    }
  });

  it('shows its difference with a sign', () => {
    expect(showOff(toDecimal(4.9), 4.82, six, cross)).toBe('+0.08');
    expect(showOff(toDecimal(4.8), 4.82, six, cross)).toBe('−0.02');
  });
});

describe('a typed start', () => {
  it.each([
    ['6.25', { ok: true, number: 62_500 }],
    ['', { ok: false, say: 'type a start' }],
    ['9', { ok: false, say: 'starts go from 0 to 8' }],
    ['x', { ok: false, say: 'not a number' }],
  ])('%j', (text, read) => {
    expect(readStart(text, cross.pattern)).toEqual(read);
  });
});
