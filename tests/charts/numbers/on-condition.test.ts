import { describe, expect, it } from 'vitest';
import {
  type ChartDocument,
  computeChart,
  HARBOUR_LANE,
  lastRevision,
  type MeasuredLine,
  parseChart,
  stateOn,
  toDecimal,
  toNumber,
} from '../../../src/charts/index.ts';
import { CONDITIONS, SPEEDS } from '../../../src/table/index.ts';

const demo = computeChart(HARBOUR_LANE);
const slow = CONDITIONS['worn and slow'];
const onSlow = computeChart(withState({ condition: slow }));

function withState(part: object): ChartDocument {
  return { ...HARBOUR_LANE, revisions: [{ ...lastRevision(HARBOUR_LANE), ...part }] };
}

/** Every line of the demo that the slow table has too, measured a tenth above its number. */
const measured = demo.lines
  .filter(({ pattern, start }) =>
    onSlow.lines.some((one) => one.pattern === pattern && one.start === start),
  )
  .map(({ pattern, start, numbers }): Required<MeasuredLine> => {
    const high = (exact: number) => toDecimal(exact + 0.1);
    const { soft, medium, firm } = numbers;
    return {
      ...{ pattern, start, soft: high(soft.exact) },
      ...{ medium: high(medium.exact), firm: high(firm.exact) },
    };
  });

// Checked against the computed charts of the two tables.
describe('measured numbers on a table in another condition', () => {
  it.each(['computed', 'measured'] as const)(
    'move as far as the computed number of the same line (%s chart)',
    (basis) => {
      const chart = computeChart({ ...withState({ measured }), basis });
      const after = computeChart({ ...withState(stateOn(chart, slow)), basis });
      expect(measured.length).toBeGreaterThan(50);
      let most = 0;
      for (const line of measured) {
        const find = ({ lines }: typeof chart) =>
          lines.find((one) => one.pattern === line.pattern && one.start === line.start);
        const [from, to, own] = [find(demo), find(onSlow), find(after)];
        for (const speed of SPEEDS) {
          const by = (to?.numbers[speed].exact ?? 0) - (from?.numbers[speed].exact ?? 0);
          const moved = (own?.numbers[speed].exact ?? 0) - toNumber(line[speed]);
          // Rounded to a thousandth.
          expect(Math.abs(moved - by)).toBeLessThanOrEqual(0.0006);
          most = Math.max(most, Math.abs(by));
        }
      }
      expect(most).toBeGreaterThan(0.2);
    },
  );

  it('stay if the model has no number, and leave empty cells empty', () => {
    // No aim sends a ball from there to the corner at soft speed.
    const gap = demo.gaps.find(({ pattern }) => pattern === 'long-short-to-corner');
    if (!gap) throw new Error('the demo reaches the corner from everywhere');
    const line = { pattern: gap.pattern, start: gap.start, [gap.speed]: toDecimal(2.5) };
    const chart = computeChart(withState({ measured: [line] }));
    expect(stateOn(chart, slow).measured).toEqual([line]);
  });

  it('make a valid chart, with nothing else changed', () => {
    const chart = computeChart(withState({ measured }));
    const state = stateOn(chart, slow);
    const document = withState(state);
    expect(parseChart(JSON.parse(JSON.stringify(document)))).toEqual(document);
    expect({ ...state, measured, condition: chart.state.condition }).toEqual(chart.state);
  });
});
