import { describe, expect, it } from 'vitest';
import { askedWords } from '../../../src/app/charts/use.tsx';
import {
  type ChartDocument,
  computeChart,
  HARBOUR_LANE,
  LEVEL_NAMES,
  lastRevision,
  toDecimal,
} from '../../../src/charts/index.ts';

const LINES = [
  { pattern: 'cross-side', start: toDecimal(6), level: 0 },
  { pattern: 'cross-side', start: toDecimal(7), level: 1 },
  { pattern: 'cross-corner', start: toDecimal(2), level: 0 },
] as const;

function teaching(patterns: ChartDocument['revisions'][0]['patterns']) {
  const levels = { names: LEVEL_NAMES, lines: LINES };
  const last = { ...lastRevision(HARBOUR_LANE), patterns, levels };
  return computeChart({ ...HARBOUR_LANE, revisions: [last] });
}

describe('the number of lines asked at a level', () => {
  it('counts those of the level and of the levels before it', () => {
    const chart = teaching(['cross-side', 'cross-corner']);
    // 7 and 11 lines, as the chart’s page counts them.
    expect(askedWords(chart, 0)).toMatch(/^2 of 18 lines are asked/);
    expect(askedWords(chart, 1)).toMatch(/^3 of 18 lines are asked/);
  });

  // Bug: lines of a pattern removed from the chart were counted.
  it('leaves out lines that the chart no longer has', () => {
    expect(askedWords(teaching(['cross-side']), 0)).toMatch(/^1 of 7 lines/);
  });
});
