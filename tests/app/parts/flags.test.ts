import { describe, expect, it } from 'vitest';
import { flaggedStarts, flagWords, playFlag } from '../../../src/app/parts/flags.ts';
import { lineIdOf } from '../../../src/cards/index.ts';
import {
  computeChart,
  HARBOUR_LANE,
  lineFrom,
  toDecimal,
  toNumber,
} from '../../../src/charts/index.ts';
import { foldLog, type LogEvent } from '../../../src/scheduler/index.ts';

const chart = computeChart(HARBOUR_LANE);
const line = lineFrom(chart, 'cross-side', toDecimal(6));
if (!line) throw new Error('no line');
const { printed } = line.numbers.medium;
const flag = (by: number) => ({ speed: 'medium', number: toNumber(printed) + by, day: 1 }) as const;

function flagged(
  seq: number,
  number: number | null,
  id = lineIdOf(chart, line as never),
): LogEvent {
  const base = { version: 1, id: `a:${seq}`, device: 'a', seq, day: 1, at: seq } as const;
  return { ...base, type: 'flagged', line: id, speed: 'medium', number };
}

describe('flags', () => {
  it('count for their pattern until they are taken down', () => {
    const up = foldLog([flagged(1, 5)]);
    expect([...flaggedStarts(chart, 'cross-side', up)]).toEqual([toDecimal(6)]);
    expect(flaggedStarts(chart, 'cross-corner', up).size).toBe(0);
    expect(
      flaggedStarts(chart, 'cross-side', foldLog([flagged(1, 5), flagged(2, null)])).size,
    ).toBe(0);
  });

  it('of the other naming do not count for this chart’s numbers', () => {
    const other = foldLog([flagged(1, 5, `${lineIdOf(chart, line)}/opposite`)]);
    expect(flaggedStarts(chart, 'cross-side', other).size).toBe(0);
    const opposite = computeChart(HARBOUR_LANE, 'opposite');
    expect(flaggedStarts(opposite, 'cross-side', other).size).toBe(1);
  });

  it('name both numbers, or say that they are the same', () => {
    const say = toNumber(printed).toFixed(1);
    expect(flagWords(line, { speed: 'medium', number: 1.25, day: 1 })).toBe(
      `You flagged this line: 1.25 instead of ${say} at medium.`,
    );
    expect(flagWords(line, flag(0))).toBe(
      `You flagged this line: ${say} at medium, as the chart has it.`,
    );
  });
});

describe('a played flag', () => {
  it('goes wide half a diamond from the chart’s number, and the words say so', () => {
    // Derived from the mirror law: across and back, the arrival moves twice as far as the aim, here a
    // whole diamond (12.5 in); a side pocket's mouth is 5 to 5 1/8 in (WPA Equipment Specifications).
    const played = playFlag(chart, line, flag(0.5), 'in');
    expect(played?.yours).toMatch(/^With \d\.\d the ball arrives at .* (long|short)/);
    expect(played?.figure.paths.map(({ tone }) => tone)).toEqual(['yours', 'true']);
  });

  it('follows the chart’s path with the chart’s own number', () => {
    const played = playFlag(chart, line, flag(0), 'in');
    const [yours, truth] = played?.figure.paths ?? [];
    expect(yours?.stretches).toEqual(truth?.stretches);
  });

  it.each([-0.5, 8.5])('is not drawn at %d, which no rail has', (number) => {
    expect(playFlag(chart, line, { speed: 'medium', number, day: 1 }, 'in')).toBeNull();
  });
});
