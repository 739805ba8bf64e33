/**
 * The model set to a measured number. A measured number is true of the table, so it must do what the
 * solved one does, and every aim beside it what the same aim beside the solved one does. Both sides of
 * each law use our own model, which sheet.test.ts and tests/table check.
 */

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type ChartDocument,
  computeChart,
  computeSheet,
  givenLines,
  HARBOUR_LANE,
  lastRevision,
  type MeasuredLine,
  numberAt,
  patternOf,
  type SheetNumber,
  type SheetRequest,
  sheetStarts,
  shiftAt,
  shiftFrom,
  toDecimal,
  toNumber,
  unshifted,
  widthOf,
} from '../../../src/charts/index.ts';
import { shiftOf } from '../../../src/charts/numbers/set-to-measured.ts';
import type { GivenLine } from '../../../src/charts/numbers/sheet-aims.ts';
import { divisions, NAMINGS, SPEEDS, solveLine } from '../../../src/table/index.ts';

/** Rounding of a decimal, and the solver's own tolerance (solve.ts), diamonds. */
const ROUNDING = 1e-4;

const computed = computeChart(HARBOUR_LANE);
/** Lines not from a rail's end: from that sight, every line crosses the nose in one point. */
const WITHIN = computed.lines.filter(({ pattern, start }) => {
  const last = divisions(patternOf(pattern).start.rail);
  return start > 0 && start < toDecimal(last);
});
const SIX = { pattern: 'cross-side', start: toDecimal(6) } as const;

function corrected(...measured: readonly MeasuredLine[]): ChartDocument {
  return { ...HARBOUR_LANE, revisions: [{ ...lastRevision(HARBOUR_LANE), measured }] };
}

function sheetRequest(chart: ReturnType<typeof computeChart>, id: 'cross-side'): SheetRequest {
  return {
    setting: chart.setting,
    route: patternOf(id),
    starts: sheetStarts(chart, id),
    printStep: chart.document.printStep,
    naming: chart.naming,
    stroke: {},
    anchorBound: 0.06,
  };
}

describe('a number that is the model’s own', () => {
  it('has no shift, to the last bit', () => {
    for (const { pattern, start, numbers } of computed.lines) {
      for (const speed of SPEEDS) {
        expect(shiftAt(computed, { pattern, start }, speed)).toBe(0);
        const solved = solveLine(computed.setting, patternOf(pattern), toNumber(start), {
          ...patternOf(pattern).stroke,
          speed: computed.setting.condition.speeds[speed],
        });
        expect(shiftOf(solved.aim ?? Number.NaN, solved)).toBe(0);
        expect(numbers[speed].source).toBe('computed');
      }
    }
  });

  it('has no shift between lines, or outside the chart', () => {
    expect(shiftAt(computed, { ...SIX, start: toDecimal(6.1) }, 'medium')).toBe(0);
    expect(shiftAt(computed, { ...SIX, start: toDecimal(1) }, 'medium')).toBe(0);
  });

  it('given to a sheet, makes the sheet of a computed chart, to the last bit', () => {
    const request = sheetRequest(computed, 'cross-side');
    const plain = computeSheet(request);
    const given = plain.lines.map(({ start, numbers }): GivenLine => {
      const of = (speed: (typeof SPEEDS)[number]) => {
        const number = numbers[speed];
        return typeof number === 'string'
          ? number
          : ({ aim: number.exact, source: 'measured' } as const);
      };
      return { start, numbers: { soft: of('soft'), medium: of('medium'), firm: of('firm') } };
    });
    const bare = ({ lines }: ReturnType<typeof computeSheet>) =>
      lines.map(({ numbers, ...line }) => ({
        ...line,
        numbers: SPEEDS.map((speed) => {
          const number = numbers[speed];
          if (typeof number === 'string') return number;
          return { exact: number.exact, printed: number.printed, drops: number.makeWindow };
        }),
      }));
    expect(bare(computeSheet({ ...request, given }))).toEqual(bare(plain));
  });
});

describe('a measured number', () => {
  it.each(NAMINGS)('is shifted by its difference from the solved one, %s', (naming) => {
    const plain = computeChart(HARBOUR_LANE, naming);
    fc.assert(
      fc.property(fc.constantFrom(...WITHIN), fc.integer({ min: 0, max: 5 }), (line, tenths) => {
        const { pattern, start } = line;
        const solved = line.numbers.medium.exact;
        // Toward the rail's middle, so that soft and firm, which follow, stay on the rail.
        const side = solved < divisions(patternOf(pattern).aim.rail) / 2 ? 1 : -1;
        const medium = toDecimal(solved + (side * tenths) / 10);
        const chart = computeChart(corrected({ pattern, start, medium }), naming);
        const shift = shiftAt(chart, line, 'medium');
        expect(Math.abs(shift - (toNumber(medium) - solved))).toBeLessThan(ROUNDING);
        const printed = numberAt(chart, pattern, start, 'medium') ?? Number.NaN;
        const model = unshifted(chart, patternOf(pattern), start, printed, shift);
        const own = numberAt(plain, pattern, start, 'medium') ?? Number.NaN;
        expect(Math.abs(model - own)).toBeLessThan(ROUNDING);
      }),
      { numRuns: 12 },
    );
  });

  it('is played unchanged if the model has none', () => {
    const start = toDecimal(0);
    const route = patternOf('cross-side');
    expect(solveLine(computed.setting, route, 0, { speed: 0.3 }).aim).toBeNull();
    const slow = {
      ...computed,
      setting: {
        ...computed.setting,
        condition: {
          ...computed.setting.condition,
          speeds: { soft: 0.3, medium: 0.3, firm: 0.3 },
        },
      },
    };
    expect(shiftFrom(slow, route, start, 2, 'medium')).toBe(0);
  });

  it('has the window and drift of the solved one, moved along', () => {
    const before = computed.lines.find(
      (one) => one.pattern === SIX.pattern && one.start === SIX.start,
    );
    const medium = toDecimal((before?.numbers.medium.exact ?? Number.NaN) + 0.3);
    const chart = computeChart(corrected({ ...SIX, medium }));
    const request = sheetRequest(chart, SIX.pattern);
    const plain = computeSheet(request);
    const set = computeSheet({ ...request, given: givenLines(chart, SIX.pattern) });
    const n = plain.lines.findIndex(({ start }) => start === SIX.start);
    const [own, line] = [plain.lines[n], set.lines[n]];
    for (const speed of SPEEDS) {
      const [solved, given] = [own?.numbers[speed], line?.numbers[speed]] as [
        SheetNumber,
        SheetNumber,
      ];
      const by = given.exact - solved.exact;
      expect(by).toBeCloseTo(0.3, 4);
      expect(given.model).toBe(solved.exact);
      expect(widthOf(solved.makeWindow)).toBeGreaterThan(0);
      expect(given.makeWindow?.from).toBeCloseTo((solved.makeWindow?.from ?? 0) + by, 12);
      expect(given.makeWindow?.to).toBeCloseTo((solved.makeWindow?.to ?? 0) + by, 12);
    }
    expect(line?.atMedium?.drift).toEqual(own?.atMedium?.drift);
    expect(line?.atMedium?.entryAngleDeg).toBe(own?.atMedium?.entryAngleDeg);
    expect(line?.verdict?.kind).toBe(own?.verdict?.kind);
    // The line through the sights differs, and so does its point on the cushion.
    expect(line?.atMedium?.touch).toBeGreaterThan((own?.atMedium?.touch ?? Number.NaN) + 0.2);
  });
});
