import { describe, expect, it } from 'vitest';
import {
  type Chart,
  computeChart,
  HARBOUR_LANE,
  parseCondition,
  patternOf,
  toNumber,
} from '../../src/charts/index.ts';
import { turned, withinLimits } from '../../src/shots/condition-knobs.ts';
import { type ConditionFit, conditionOf, type TableShot } from '../../src/shots/index.ts';
import {
  CONDITIONS,
  type Condition,
  type Setting,
  SPEEDS,
  type Speed,
} from '../../src/table/index.ts';
import { dice } from '../oracle/dice.ts';
import { type Called, CLUB_PLAYER, missByOde, NONE, ODE_PATTERNS, readAt } from './table-shots.ts';

const chart = computeChart(HARBOUR_LANE);
const { setting } = chart;
const { table } = setting;
const worn: Setting = { table, condition: CONDITIONS['worn and slow'] };

const called: readonly Called[] = chart.lines.flatMap((line, n) => {
  const speed = SPEEDS[n % 3] as Speed;
  const aim = toNumber(line.numbers[speed].printed);
  const route = patternOf(line.pattern);
  return [{ pattern: line.pattern, route, start: toNumber(line.start), speed, aim }];
});

function shotsOn(truth: Setting, count: number, errors = NONE, seed = 3): readonly TableShot[] {
  const roll = dice(seed);
  const shots: TableShot[] = [];
  while (shots.length < count) {
    const one = called[Math.floor(roll() * called.length)] as Called;
    const shot = readAt(truth, one, errors, roll);
    if (shot) shots.push(shot);
  }
  return shots;
}

function fitOf(shots: readonly TableShot[], of: Chart = chart): ConditionFit {
  const answer = conditionOf(of, shots);
  if (!answer.ok) throw new Error(answer.why);
  return answer.fit;
}

/** The largest difference between two tables' numbers, diamonds, over the chart's lines at medium. */
function furthest(a: Condition, b: Condition): number {
  const numbers = (condition: Condition) => {
    const [first] = HARBOUR_LANE.revisions;
    const revision = { ...first, patterns: chart.patterns, condition };
    const { lines } = computeChart({ ...HARBOUR_LANE, revisions: [revision] });
    return new Map(
      lines.map((line) => [`${line.pattern} ${line.start}`, line.numbers.medium.exact]),
    );
  };
  const theirs = numbers(b);
  const gaps = [...numbers(a)].flatMap(([key, number]) => {
    const other = theirs.get(key);
    return other === undefined ? [] : [Math.abs(number - other)];
  });
  return Math.max(...gaps);
}

describe('the condition of a table', () => {
  it('needs enough shots, patterns and information', () => {
    expect(conditionOf(chart, [])).toEqual({ ok: false, why: 'too few shots' });
    const [one] = shotsOn(worn, 1);
    if (!one) throw new Error('one shot');
    const same = Array.from({ length: 20 }, () => one);
    expect(conditionOf(chart, same)).toEqual({ ok: false, why: 'too few patterns' });
    // Eight shots at two lines with wildly different arrivals tell almost nothing.
    const two = called.filter(
      ({ pattern }) => pattern === 'cross-side' || pattern === 'foot-to-side',
    );
    const wild = Array.from({ length: 8 }, (_, n): TableShot => {
      const { route: _route, ...shot } = two[n % 2 === 0 ? 0 : two.length - 1] as Called;
      return { ...shot, miss: [2.5, -2, -2.5, 1.5, 2, -1.5, -1, 2.5][n] ?? 0 };
    });
    expect(conditionOf(chart, wild)).toEqual({ ok: false, why: 'too uncertain' });
  });

  // Not exactly: the weak prior pulls the knobs towards the chart's.
  it('is recovered from shots without errors', () => {
    const fit = fitOf(shotsOn(worn, 40));
    const before = furthest(setting.condition, worn.condition);
    expect(before).toBeGreaterThan(0.2);
    expect(furthest(fit.condition, worn.condition)).toBeLessThan(before / 5);
    expect(fit.scale).toBe(1);
  });

  // Only the restitution differs, so only the prior separates the fit from the truth.
  it('finds dead cushions and changes nothing else', () => {
    const dead: Setting = { table, condition: { ...setting.condition, restitution: 0.76 } };
    const { condition } = fitOf(shotsOn(dead, 40));
    expect(condition.restitution).toBeCloseTo(0.76, 2);
    expect(condition.noseFriction).toBeCloseTo(setting.condition.noseFriction, 2);
    expect(condition.speeds.medium / setting.condition.speeds.medium).toBeCloseTo(1, 1);
    expect(condition.slideFriction).toBe(setting.condition.slideFriction);
  });

  // A general ODE solver plays the shots on an independent version of the model; read by hand.
  it('is recovered from the general solver’s shots', () => {
    const truth: Setting = {
      table,
      condition: { ...setting.condition, restitution: 0.78, noseFriction: 0.17 },
    };
    const shots = ODE_PATTERNS.flatMap((pattern) =>
      called
        .filter((one) => one.pattern === pattern)
        .filter((_, n) => n % 2 === 0)
        .map(
          ({ route, ...shot }): TableShot => ({
            ...shot,
            miss: missByOde(truth, { route, ...shot }),
          }),
        ),
    );
    const { condition } = fitOf(shots);
    expect(furthest(setting.condition, truth.condition)).toBeGreaterThan(0.15);
    expect(furthest(condition, truth.condition)).toBeLessThan(0.05);
  });

  // Nine in ten of the 90 % intervals, ± 1.645 se, must contain the truth; of 60, less three standard
  // deviations of the count, √(60·0.9·0.1) = 2.3.
  it('is as accurate as its standard errors', () => {
    const evenings = 20;
    let covered = 0;
    for (let n = 0; n < evenings; n++) {
      const roll = dice(100 + n);
      const truth = turned(setting.condition, [2 * roll() - 1, 2 * roll() - 1, 2 * roll() - 1]);
      const { condition, errors } = fitOf(shotsOn({ table, condition: truth }, 24, CLUB_PLAYER, n));
      const speed = Math.log(condition.speeds.soft / truth.speeds.soft);
      const off = [
        (condition.restitution - truth.restitution) / errors.restitution,
        (condition.noseFriction - truth.noseFriction) / errors.noseFriction,
        speed / errors.speed,
      ];
      covered += off.filter((one) => Math.abs(one) < 1.645).length;
    }
    expect(covered).toBeGreaterThan(60 * 0.9 - 3 * 2.3);
  });

  it('is the same in any order of the shots, and each time', () => {
    const shots = shotsOn(worn, 20, CLUB_PLAYER);
    const once = fitOf(shots);
    expect(fitOf(shots)).toEqual(once);
    const back = fitOf([...shots].reverse());
    expect(back.condition.restitution).toBeCloseTo(once.condition.restitution, 5);
    expect(back.condition.speeds.firm).toBeCloseTo(once.condition.speeds.firm, 4);
  });

  it('hardly moves with one wild shot, and identifies it', () => {
    const shots = shotsOn(worn, 20, CLUB_PLAYER);
    const at = shots.findIndex(({ miss }) => miss !== null);
    const spoiled = shots.map((shot, n) =>
      n === at ? { ...shot, miss: (shot.miss ?? 0) + 3 } : shot,
    );
    const after = fitOf(spoiled);
    expect(furthest(after.condition, fitOf(shots).condition)).toBeLessThan(0.1);
    const [least] = [...after.shots].sort((a, b) => a.weight - b.weight);
    expect(least?.shot).toBe(spoiled[at]);
  });

  it('leaves smaller misses than the chart’s table', () => {
    const { shots } = fitOf(shotsOn(worn, 32, CLUB_PLAYER));
    const squares = (of: 'before' | 'after') =>
      shots.reduce((sum, shot) => sum + (shot[of] ?? 0) ** 2, 0);
    expect(squares('after')).toBeLessThan(squares('before') / 2);
  });

  it('is the chart’s if all shots dropped as printed', () => {
    const made = shotsOn(setting, 60).filter(({ miss }) => miss === null);
    expect(made.length).toBeGreaterThan(20);
    const { condition } = fitOf(made);
    expect(furthest(condition, setting.condition)).toBeLessThan(0.06);
  });

  it('stays within the limits of a condition', () => {
    for (const knobs of [
      [40, 40, 40],
      [-40, -40, -40],
    ]) {
      const edge = withinLimits(setting.condition, knobs);
      const shorter = edge.map((knob) => knob * (1 - 1e-9));
      const longer = edge.map((knob, n) => (n === 0 ? knob * 1.01 : knob * (1 - 1e-9)));
      expect(parseCondition(turned(setting.condition, shorter)).ok).toBe(true);
      expect(parseCondition(turned(setting.condition, longer)).ok).toBe(false);
    }
  });
});
