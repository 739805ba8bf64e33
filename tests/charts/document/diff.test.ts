import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { applyDiff } from '../../../src/charts/document/diff.ts';
import {
  cellKey,
  changedCell,
  changedLines,
  computeChart,
  diffStates,
  inOrder,
  type MeasuredLine,
  revise,
  toDecimal,
} from '../../../src/charts/index.ts';
import { MEASURED_BAR_TABLE } from '../measured.ts';
import { differingKeys, stateArb } from '../states.ts';

const SIGNED = { date: '2026-11-16', author: 'Quay Street', why: 'Measured again.' };

describe('the difference of two states', () => {
  it('is empty between a state and itself', () => {
    fc.assert(
      fc.property(stateArb, (state) => {
        expect(diffStates(state, state)).toEqual([]);
      }),
    );
  });

  it('applied to the one gives the other', () => {
    fc.assert(
      fc.property(stateArb, stateArb, (a, b) => {
        expect(applyDiff(a, diffStates(a, b))).toEqual(inOrder(b));
      }),
    );
  });

  it('is the same in reverse, with from and to swapped', () => {
    fc.assert(
      fc.property(stateArb, stateArb, (a, b) => {
        const back = diffStates(b, a).map(({ from, to }) => ({ from: to, to: from }));
        expect(back).toEqual(diffStates(a, b));
      }),
    );
  });

  it('has one entry for each cell that differs', () => {
    fc.assert(
      fc.property(stateArb, stateArb, (a, b) => {
        const keys = diffStates(a, b).map((change) => cellKey(changedCell(change)));
        expect(keys.toSorted()).toEqual(differingKeys(a, b));
      }),
    );
  });
});

/** The chart with lines measured again, and without some lines of cross-side. */
function withLines(lines: readonly MeasuredLine[], without: readonly number[] = []) {
  const [last] = MEASURED_BAR_TABLE.revisions;
  const kept = last.measured.filter(
    (old) =>
      !lines.some(({ pattern, start }) => pattern === old.pattern && start === old.start) &&
      !(old.pattern === 'cross-side' && without.includes(old.start)),
  );
  return revise(MEASURED_BAR_TABLE, { ...last, measured: [...kept, ...lines] }, SIGNED);
}

const before = computeChart(MEASURED_BAR_TABLE);
const lineAt6: MeasuredLine = {
  pattern: 'cross-side',
  start: toDecimal(6),
  soft: toDecimal(4.9),
  medium: toDecimal(4.7),
  firm: toDecimal(4.75),
};

describe('the numbers that two charts print', () => {
  it('are the same for the same chart', () => {
    expect(changedLines(before, computeChart(MEASURED_BAR_TABLE))).toEqual([]);
  });

  it('move as measured', () => {
    // By hand: the fixture's line from 6 is 4.9, 4.85, 4.7.
    const after = computeChart(withLines([lineAt6]));
    const [change, ...others] = changedLines(before, after);
    expect(others).toEqual([]);
    expect(change).toMatchObject({ pattern: 'cross-side', start: 60000 });
    expect(change?.by).toEqual({ soft: 0, medium: -1500, firm: 500 });
    expect(changedLines(after, before)[0]?.by).toEqual({ soft: 0, medium: 1500, firm: -500 });
  });

  it('come and go with their lines', () => {
    const start = toDecimal(6.5);
    const other = computeChart(withLines([{ ...lineAt6, start }], [toDecimal(8)]));
    const changes = changedLines(before, other);
    expect(changes.map(({ start, from, to, by }) => [start, !!from, !!to, by])).toEqual([
      [65000, false, true, null],
      [80000, true, false, null],
    ]);
  });

  it('cannot be compared in two namings', () => {
    const opposite = computeChart(MEASURED_BAR_TABLE, 'opposite');
    expect(() => changedLines(before, opposite)).toThrow(/through and opposite/);
  });
});
