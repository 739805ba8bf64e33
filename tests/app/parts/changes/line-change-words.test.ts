import { describe, expect, it } from 'vitest';
import { isBeyond, spokenChange } from '../../../../src/app/parts/changes/line-change-words.ts';
import {
  type ChartState,
  changedLines,
  computeChart,
  HARBOUR_LANE,
  lastRevision,
  revise,
  stateOf,
  toDecimal,
} from '../../../../src/charts/index.ts';

const tolerance = toDecimal(0.1);
const state = stateOf(lastRevision(HARBOUR_LANE));
const place = { pattern: 'cross-side', start: toDecimal(6) } as const;

/** The demo's chart with parts of its own; a measured number is printed as it was measured. */
function chart(part: Partial<ChartState>) {
  const signature = { date: '2026-11-25', author: 'A player', why: 'Measured.' };
  return computeChart(revise(HARBOUR_LANE, { ...state, ...part }, signature));
}

const at = (medium: number) => chart({ measured: [{ ...place, medium: toDecimal(medium) }] });
const without = chart({ patterns: state.patterns.filter((id) => id !== place.pattern) });

function spoken(before: ReturnType<typeof chart>, after: ReturnType<typeof chart>): string {
  const line = changedLines(before, after).find(
    ({ pattern, start }) => pattern === place.pattern && start === place.start,
  );
  if (!line) throw new Error('the line has not changed');
  return spokenChange(line, 'medium', tolerance);
}

describe('a moving number for screen readers', () => {
  it.each([
    ['up, beyond the tolerance', at(4.9), at(5.1), 'was 4.9, is 5.1: 0.2 higher, more than 0.1'],
    ['down, within it', at(5.1), at(5), 'was 5.1, is 5.0: 0.1 lower'],
    ['with its line, to the chart', without, at(4.9), 'new: 4.9'],
    ['with its line, off the chart', at(4.9), without, 'leaves the chart, was 4.9'],
  ])('%s', (_name, before, after, words) => {
    expect(spoken(before, after)).toBe(words);
  });

  it('says that it stays if only another speed moves', () => {
    const soft = (value: number) =>
      chart({ measured: [{ ...place, soft: toDecimal(value), medium: toDecimal(4.9) }] });
    expect(spoken(soft(4.7), soft(4.8))).toBe('4.9, the same');
  });

  it('contains no sign and no arrow', () => {
    for (const line of changedLines(at(4.9), at(5.3)))
      expect(spokenChange(line, 'firm', tolerance)).not.toMatch(/[+−–→=]/);
  });

  it('is beyond a tolerance only if it moves by more', () => {
    const [line] = changedLines(at(4.9), at(5)).filter(({ by }) => by?.medium !== 0);
    if (!line) throw new Error('the line has not changed');
    expect(isBeyond(line, 'medium', tolerance)).toBe(false);
    expect(isBeyond(line, 'medium', toDecimal(0.05))).toBe(true);
  });
});
