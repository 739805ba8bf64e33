import { describe, expect, it } from 'vitest';
import { tonightNumbers } from '../../../src/app/look-up/words.ts';
import { asTableShot, shotsOn, tonightOf } from '../../../src/app/state/tonight.ts';
import { newTable, revisedTo } from '../../../src/app/table-day/chart.ts';
import {
  atSpeed,
  besideWords,
  choiceOf,
  choose,
  namedAim,
  nudged,
  suggested,
} from '../../../src/app/table-day/choice.ts';
import { lookUp } from '../../../src/cards/index.ts';
import {
  computeChart,
  HARBOUR_LANE,
  HARBOUR_LANE_BAR,
  type PatternId,
  parseChart,
  patternOf,
  toDecimal,
  toNumber,
} from '../../../src/charts/index.ts';
import { foldLog, type LogEvent } from '../../../src/scheduler/index.ts';
import { correctedNumber } from '../../../src/shots/index.ts';
import { aimNamed, CONDITIONS, divisions, nameAim } from '../../../src/table/index.ts';

const chart = computeChart(HARBOUR_LANE);
const DAY = 20_000;

type ShotEvent = Extract<LogEvent, { type: 'table shot' }>;

function shot(seq: number, change: Partial<ShotEvent> = {}): ShotEvent {
  const line = chart.lines[seq % 8];
  if (!line) throw new Error('no line');
  return {
    version: 1,
    type: 'table shot',
    id: `a:${seq}`,
    device: 'a',
    seq,
    day: DAY,
    at: 1000 * seq,
    chart: HARBOUR_LANE.id,
    pattern: line.pattern,
    start: toNumber(line.start),
    speed: 'medium',
    aim: toNumber(line.numbers.medium.printed),
    miss: -0.5,
    ...change,
  };
}

function takenBack(seq: number, answered: string): LogEvent {
  const base = { version: 1, device: 'a', day: DAY, at: 1000 * seq } as const;
  return { ...base, type: 'taken back', id: `a:${seq}`, seq, answered };
}

const some = [1, 2, 3, 4, 5, 6].map((seq) => shot(seq));

describe('tonight', () => {
  it('is of this day and this chart, without what was taken back', () => {
    const log = foldLog([
      ...some,
      shot(7, { day: DAY - 1 }),
      shot(8, { chart: 'another' }),
      shot(9, { pattern: 'no-such-pattern' }),
      takenBack(10, 'a:3'),
    ]);
    const ids = shotsOn(log, HARBOUR_LANE.id, DAY).map(({ id }) => id);
    expect(ids).toEqual(['a:1', 'a:2', 'a:4', 'a:5', 'a:6']);
    expect(tonightOf(log, chart, DAY + 1)).toMatchObject({ corrections: [], why: 'no shots' });
  });

  // All short by half a diamond off the foot rail: short is a number too small (trade: more number is
  // a wider angle there), so something is added, and to the foot rail's numbers alone.
  it('is a function of the log and the chart alone', () => {
    const log = foldLog(some);
    const tonight = tonightOf(log, chart, DAY);
    expect(tonight.corrections).toMatchObject([{ kind: 'offset', group: 'short-rail' }]);
    expect(tonight.amounts[0]?.value).toBeGreaterThan(0);
    expect(tonightOf(foldLog([...some].reverse()), chart, DAY)).toEqual(tonight);
    expect(asTableShot(shotsOn(log, HARBOUR_LANE.id, DAY)[0] ?? never())).toEqual({
      pattern: some[0]?.pattern,
      start: some[0]?.start,
      speed: 'medium',
      aim: some[0]?.aim,
      miss: -0.5,
    });
  });
});

describe('a corrected number', () => {
  const add = (group: 'all' | 'short-rail' | 'long-rail', by: number) =>
    ({ kind: 'offset', group, add: toDecimal(by) }) as const;
  it.each([
    ['foot-to-side', [add('short-rail', 0.1)], 1.6, 1.7],
    ['foot-to-side', [add('long-rail', 0.1)], 1.6, 1.6],
    ['cross-side', [add('all', -0.15)], 2.4, 2.25],
    ['cross-side', [add('short-rail', 0.1), add('long-rail', -0.2)], 2.4, 2.2],
    ['cross-side', [{ kind: 'factor', times: toDecimal(1.05) }], 2.4, 2.5],
    ['cross-side', [], 2.4, 2.4],
  ] as const)('of %s by %j: %d becomes %d', (pattern, say, printed, called) => {
    expect(correctedNumber(say, pattern as PatternId, toDecimal(printed))).toBe(toDecimal(called));
  });

  it('is told in Look up beside the printed ones, and only where it applies', () => {
    const [way] = lookUp(
      chart,
      { count: { rail: 'left', from: 'foot' }, diamond: toDecimal(3) },
      { kind: 'pocket', pocket: 'head-right' },
    ).found;
    if (!way) throw new Error('no way');
    const printed = Object.values(way.numbers).map((number) =>
      typeof number === 'string' ? never() : toNumber(number.printed) + 0.1,
    );
    const words = tonightNumbers(chart, way, [add('short-rail', 0.1)]);
    expect(words).toMatch(/^With tonight’s \+0\.1: soft /);
    for (const number of printed) expect(words).toContain(number.toFixed(1));
    expect(tonightNumbers(chart, way, [add('long-rail', 0.1)])).toBe(null);
    expect(tonightNumbers(chart, way, [])).toBe(null);
  });
});

describe('where numbers name the nose', () => {
  const nose = computeChart(HARBOUR_LANE, 'opposite');

  // A reviewer: a correction counted through the sight was added to a number at the nose.
  it('a correction moves them by less than the sights it is counted on', () => {
    const [way] = lookUp(
      nose,
      { count: { rail: 'foot', from: 'right' }, diamond: toDecimal(0.5) },
      { kind: 'pocket', pocket: 'head-left' },
    ).found;
    const medium = way?.numbers.medium;
    if (!way || !medium || typeof medium === 'string') throw new Error('no way');
    const { table } = nose.setting;
    const from = toNumber(way.start);
    const sight = aimNamed(table, way.route, from, toNumber(medium.printed), 'opposite') + 0.5;
    const called = nameAim(table, way.route, from, sight, 'opposite');
    const words = tonightNumbers(nose, way, [
      { kind: 'offset', group: 'long-rail', add: toDecimal(0.5) },
    ]);
    const told = Number(/medium ([\d.]+)/.exec(words ?? '')?.[1]);
    // Called to the nearest 0.05.
    expect(Math.abs(told - called)).toBeLessThanOrEqual(0.025 + 1e-9);
    expect(called - toNumber(medium.printed)).toBeLessThan(0.45);
  });

  it('the sight aimed at stays on its rail, however far it is turned', () => {
    for (const line of nose.lines) {
      for (const steps of [-200, 200]) {
        const { aim } = nudged(nose, choose(nose, line, 'medium'), steps);
        expect(aim).toBeGreaterThanOrEqual(0);
        expect(aim).toBeLessThanOrEqual(divisions(patternOf(line.pattern).aim.rail));
      }
    }
  });
});

describe('the line to shoot', () => {
  const line = chart.lines[5] ?? never();

  it('is what is suggested, else the last one, else the first', () => {
    const next = { line, speed: 'firm', standardError: 0.2, gain: 3 } as const;
    expect(suggested(chart, next, [])).toMatchObject({ pattern: line.pattern, speed: 'firm' });
    const last = asTableShot(shotsOn(foldLog(some), HARBOUR_LANE.id, DAY)[3] ?? never());
    expect(suggested(chart, null, [last])).toMatchObject({ start: last.start, speed: last.speed });
    expect(suggested(chart, null, [])).toMatchObject({ pattern: chart.lines[0]?.pattern });
  });

  it('is aimed at the printed number, in either naming, and a step up and down is no step', () => {
    for (const naming of ['through', 'opposite'] as const) {
      const named = computeChart(HARBOUR_LANE, naming);
      const own = named.lines[5] ?? never();
      const choice = choose(named, own, 'soft');
      expect(namedAim(named, choice)).toBe(own.numbers.soft.printed);
      const up = nudged(named, choice, 1);
      expect(namedAim(named, up)).toBe(own.numbers.soft.printed + HARBOUR_LANE.printStep);
      expect(nudged(named, up, -1).aim).toBeCloseTo(choice.aim, 9);
      expect(namedAim(named, nudged(named, choice, -200))).toBe(0);
    }
  });

  it('keeps what is aimed at beside the printed number from speed to speed', () => {
    for (const naming of ['through', 'opposite'] as const) {
      const named = computeChart(HARBOUR_LANE, naming);
      const own = named.lines[5] ?? never();
      const soft = nudged(named, choose(named, own, 'soft'), 2);
      expect(besideWords(named, soft)).toBe('0.2 more than printed');
      const firm = atSpeed(named, soft, 'firm');
      expect(namedAim(named, firm)).toBe(own.numbers.firm.printed + 2 * HARBOUR_LANE.printStep);
      expect(besideWords(named, nudged(named, firm, -3))).toBe('0.1 less than printed');
      expect(besideWords(named, choose(named, own, 'soft'))).toBe(null);
    }
  });

  it('is told in a line', () => {
    const [logged] = shotsOn(foldLog([shot(1, { miss: 1.25 })]), HARBOUR_LANE.id, DAY);
    expect(choiceOf(chart, logged ?? never())).toMatch(
      / from \d\.\d, medium, aimed at \d\.\d: long 1¼$/,
    );
  });
});

describe('a fitted table', () => {
  const signature = { date: '2026-11-25', author: 'Ines', why: 'Fitted to 12 test shots.' };
  const condition = CONDITIONS['worn and slow'];
  const AT = Date.UTC(2026, 10, 25, 20);

  it('becomes the chart’s next revision, or a chart that can be read back', () => {
    const revised = revisedTo(chart, condition, signature);
    expect(revised.revisions).toHaveLength(HARBOUR_LANE.revisions.length + 1);
    expect(revised.revisions.at(-1)).toMatchObject({ condition, ...signature });
    expect(parseChart(JSON.parse(JSON.stringify(revised)))).toEqual(revised);
    const own = newTable(chart, condition, signature, AT, [HARBOUR_LANE, HARBOUR_LANE_BAR]);
    expect(own.revisions).toHaveLength(1);
    expect(own.name).toContain('2026-11-25');
    expect(parseChart(JSON.parse(JSON.stringify(own)))).toEqual(own);
  });

  it('never takes the id of another chart', () => {
    const one = newTable(chart, condition, signature, AT, [HARBOUR_LANE]);
    const two = newTable(chart, condition, signature, AT, [HARBOUR_LANE, one]);
    expect(new Set([HARBOUR_LANE.id, one.id, two.id]).size).toBe(3);
  });

  it('has a name of its own, the second of an evening too', () => {
    const one = newTable(chart, condition, signature, AT, [HARBOUR_LANE]);
    const two = newTable(chart, condition, signature, AT, [HARBOUR_LANE, one]);
    const three = newTable(chart, condition, signature, AT, [HARBOUR_LANE, one, two]);
    expect(one.name).toBe(`${HARBOUR_LANE.name}, 2026-11-25`);
    expect(two.name).toBe(`${one.name}, second`);
    expect(three.name).toBe(`${one.name}, third`);
  });
});

function never(): never {
  throw new Error('there is one');
}
