import { describe, expect, it } from 'vitest';
import { computeChart, HARBOUR_LANE, toDecimal, toNumber } from '../../../src/charts/index.ts';
import { cueOf, cuesOf } from '../../../src/quiz/words/cue.ts';

const chart = computeChart(HARBOUR_LANE);
const tolerance = toDecimal(0.1);
const side = chart.lines.filter((line) => line.pattern === 'foot-to-side');

describe('the step cue', () => {
  it('exists for every line of a pattern with two or more anchors', () => {
    for (const line of side) expect(cueOf(chart, line, tolerance)).not.toBeNull();
  });

  it('asks about the stretch that contains the line', () => {
    for (const line of side) {
      const { ask } = cueOf(chart, line, tolerance) ?? { ask: '' };
      const [, from, to] = /from ([\d.]+) to ([\d.]+)\?$/.exec(ask) ?? [];
      expect(Number(from)).toBeLessThanOrEqual(toNumber(line.start));
      expect(Number(to)).toBeGreaterThanOrEqual(toNumber(line.start));
    }
  });

  it('does not give the step away in the question', () => {
    for (const line of side) {
      const cue = cueOf(chart, line, tolerance);
      expect(cue?.ask).not.toContain('+');
      expect(cue?.tell).toMatch(/^([+−][\d.]+ a diamond\.|It stays the same\.) /);
    }
  });

  it('counts from a printed anchor, and ends at the line', () => {
    for (const line of side) {
      const { tell } = cueOf(chart, line, tolerance) ?? { tell: '' };
      const places = [...tell.matchAll(/([\d.]+) is ([−\d.]+)/g)].map(([, at]) => Number(at));
      const anchor = / Count from ([\d.]+)/.exec(tell)?.[1];
      if (anchor) expect(places.at(-1)).toBe(toNumber(line.start));
      else expect(tell).toContain('is an anchor');
    }
  });

  it('has one step less than there are anchors, and none for a single line', () => {
    const cues = cuesOf(chart, 'foot-to-side', tolerance);
    expect(cues[0]?.from).toBe(side[0]?.start);
    expect(cues.at(-1)?.to).toBe(side.at(-1)?.start);
    const one = { ...chart, lines: side.slice(0, 1) };
    expect(cuesOf(one, 'foot-to-side', tolerance)).toEqual([]);
  });
});
