import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { VERDICTS, type Verdict, verdictOf, widthOf } from '../../../src/charts/index.ts';
import { type MakeWindow, SPEEDS, type Speed } from '../../../src/table/index.ts';

type Windows = Readonly<Record<Speed, MakeWindow | null>>;

describe('a verdict', () => {
  // Our own thresholds (verdict.ts has the reasons): from 0.1 diamond banks, from 0.03 thin.
  it.each([
    [[null, null, null], 'kick only', null],
    [[0.1, null, null], 'banks', 'soft'],
    [[null, 0.1, null], 'banks', 'medium'],
    [[null, null, 0.5], 'banks', 'firm'],
    [[0.02, 0.04, 0.3], 'banks', 'firm'],
    [[0.099, 0.05, null], 'thin', 'soft'],
    [[null, 0.03, 0.01], 'thin', 'medium'],
    [[0.0299, null, 0.01], 'kick only', 'soft'],
    [[0, 0, 0], 'kick only', null],
    [[0.2, 0.2, 0.2], 'banks', 'soft'],
  ] as const)('for windows of %j is %s, best at %s', (widths, kind, best) => {
    expect(verdictOf(windowsOf(widths))).toMatchObject({ kind, best });
  });

  it('never worsens when a window widens', () => {
    fc.assert(
      fc.property(windows, fc.constantFrom(...SPEEDS), share, share, (before, speed, low, high) => {
        const { from, to } = before[speed] ?? { from: 2, to: 2 };
        const after = { ...before, [speed]: { from: from - low, to: to + high } };
        expect(rank(verdictOf(after))).toBeLessThanOrEqual(rank(verdictOf(before)));
      }),
    );
  });

  it('does not depend on where the windows are, nor on which speed is which', () => {
    fc.assert(
      fc.property(windows, fc.integer({ min: -4, max: 4 }), (before, shift) => {
        // Quarters of a diamond are exact in binary, so widths do not change.
        const moved = bySpeed((speed) => grid(before[speed], shift / 4));
        const rotated = { soft: moved.medium, medium: moved.firm, firm: moved.soft };
        const { kind } = verdictOf(bySpeed((speed) => grid(before[speed], 0)));
        expect(verdictOf(moved).kind).toBe(kind);
        expect(verdictOf(rotated).kind).toBe(kind);
      }),
    );
  });

  it('names the speed with the widest window, and its width rounded down to a thousandth', () => {
    fc.assert(
      fc.property(windows, (all) => {
        const { best, reason, kind } = verdictOf(all);
        const widest = Math.max(...SPEEDS.map((speed) => widthOf(all[speed])));
        if (best === null) {
          expect(widest).toBe(0);
          expect(reason).toBe('No aim drops at any of the three speeds.');
          return;
        }
        expect(widthOf(all[best])).toBe(widest);
        expect(reason).toContain(`At ${best} speed`);
        const shown = Number(/([\d.]+) of a diamond/.exec(reason)?.[1]);
        expect(Math.abs(shown - widest)).toBeLessThan(0.001 + 1e-9);
        // A width of less than a tenth does not read as a tenth.
        expect(shown).toBeLessThanOrEqual(widest + 1e-9);
        if (kind === 'thin') expect(shown).toBeLessThan(0.1);
      }),
      { examples: [[windowsOf([null, 0.0996, null])], [windowsOf([0.0297, null, null])]] },
    );
  });
});

function rank({ kind }: Verdict): number {
  return VERDICTS.indexOf(kind);
}

function bySpeed(of: (speed: Speed) => MakeWindow | null): Windows {
  return { soft: of('soft'), medium: of('medium'), firm: of('firm') };
}

function windowsOf(widths: readonly (number | null)[]): Windows {
  return bySpeed((speed) => {
    const width = widths[SPEEDS.indexOf(speed)] ?? null;
    return width === null ? null : { from: 0, to: width };
  });
}

/** The same window in steps of 2⁻¹², moved along. */
function grid(window: MakeWindow | null, shift: number): MakeWindow | null {
  const round = (value: number) => Math.round(value * 4096) / 4096 + shift;
  return window && { from: round(window.from), to: round(window.to) };
}

const share = fc.double({ min: 0, max: 0.2, noNaN: true });
const window: fc.Arbitrary<MakeWindow | null> = fc.option(
  fc.tuple(fc.double({ min: 0, max: 8, noNaN: true }), share).map(([from, width]) => ({
    from,
    to: from + width,
  })),
);
const windows: fc.Arbitrary<Windows> = fc.record({ soft: window, medium: window, firm: window });
