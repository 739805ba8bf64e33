import { describe, expect, it } from 'vitest';
import { type Card, cardsOf } from '../../../src/cards/index.ts';
import { computeChart, HARBOUR_LANE, toDecimal } from '../../../src/charts/index.ts';
import {
  foldLog,
  forecastFor,
  forecastRequestOf,
  type LogEvent,
  numberCards,
  PUBLISHED,
  type Wish,
} from '../../../src/scheduler/index.ts';
import { dice } from '../../oracle/dice.ts';
import { FIRST_DAY, learn, play, WISH } from './playing.ts';

/** The laws are the project's own; a player who remembers by FSRS-6 (ts-fsrs 5) is the oracle. */
const cards = cardsOf(computeChart(HARBOUR_LANE), toDecimal(0.1));
const lines = numberCards(cards);

const TODAY = FIRST_DAY + 8;
const wish = { ...WISH, day: TODAY + 20 };
const practiced = learn(cards, 8, wish, 10);

function forecast(events: readonly LogEvent[], steps: number, today = TODAY, wanted: Wish = wish) {
  return forecastFor(forecastRequestOf(cards, foldLog(events), today, wanted, steps));
}

describe('a forecast', () => {
  const made = forecast(practiced, 19);

  it('is the same for the same request', () => {
    expect(forecast(practiced, 19)).toEqual(made);
  });

  it('has an interval around what is expected, within all lines', () => {
    const { expected, low, high, of } = made.held;
    expect(of).toBe(lines.length);
    expect(low).toBeGreaterThanOrEqual(0);
    expect(low).toBeLessThan(expected);
    expect(high).toBeGreaterThan(expected);
    expect(high).toBeLessThanOrEqual(of);
  });

  it('has a curve from today to the day, and a load for each day before it', () => {
    expect(made.curve.map(({ day }) => day)).toEqual(
      Array.from({ length: 21 }, (_, n) => TODAY + n),
    );
    expect(made.curve.at(-1)?.held).toBeCloseTo(made.held.expected, 9);
    expect(made.load.map(({ day }) => day)).toEqual(
      Array.from({ length: 20 }, (_, n) => TODAY + n),
    );
    for (const { answers } of made.load) expect(answers).toBeLessThanOrEqual(19);
  });

  it('counts missed days: later days have fewer questions than today', () => {
    const later = made.load.slice(1).reduce((sum, { answers }) => sum + answers, 0) / 19;
    expect(made.load[0]?.answers).toBe(19);
    expect(later).toBeLessThan(19);
    expect(later).toBeGreaterThan(19 / 2);
  });

  it('only forgets if nothing is practiced', () => {
    const { curve, load } = forecast(practiced, 0);
    for (const [n, { held }] of curve.entries())
      expect(held).toBeLessThanOrEqual((curve[n - 1]?.held ?? Number.POSITIVE_INFINITY) + 1e-9);
    expect(load.every(({ answers }) => answers === 0)).toBe(true);
  });

  it('holds more with more minutes, and nearly everything with many', () => {
    const held = [0, 6, 19, 60].map((steps) => forecast(practiced, steps).held.expected);
    for (const [n, one] of held.entries()) expect(one).toBeGreaterThan((held[n - 1] ?? -1) - 1);
    expect(held[3]).toBeGreaterThan(0.9 * lines.length);
    expect(held[0]).toBeLessThan(held[2] ?? 0);
  });

  it('says how many steps are enough, and that these are enough', () => {
    const few = forecast(practiced, 4);
    expect(few.enough).toBe(false);
    expect(few.stepsNeeded).toBeGreaterThan(4);
    const then = forecast(practiced, few.stepsNeeded ?? 0);
    expect(then.held.expected).toBeGreaterThan(0.86 * lines.length);
    expect(forecast(practiced, 60)).toMatchObject({ enough: true, stepsNeeded: 60 });
    const tomorrow = { ...WISH, day: FIRST_DAY + 1 };
    expect(forecast([], 4, FIRST_DAY, tomorrow).stepsNeeded).toBeNull();
  });

  it('drops lines that are more likely lost than known, the least worth first', () => {
    const { drop } = forecast(practiced, 2);
    const byId = new Map(lines.map((card) => [card.id, card]));
    expect(drop.length).toBeGreaterThan(0);
    const worth = drop.map((id) => byId.get(id)?.priority ?? Number.NaN);
    expect(worth).not.toContain(Number.NaN);
    const few = forecast(practiced, 40).drop.length;
    expect(few).toBeLessThan(drop.length);
  });

  it('goes a month ahead if no day is set', () => {
    const { curve } = forecast(practiced, 19, TODAY, WISH);
    expect(curve).toHaveLength(31);
  });

  it('learns that a player is always off', () => {
    let before: readonly LogEvent[] = [];
    for (let day = FIRST_DAY; day < TODAY; day++)
      before = play(cards, day, wish, { before, most: 19, outcome: () => 'off' }).events;
    expect(forecast(before, 19).held.expected).toBeLessThan(lines.length / 4);
  });

  it('comes true, on average, for players who remember by FSRS-6', () => {
    const players = [1, 2, 3, 4];
    const errors = players.map((seed) => {
      const { said, known } = season(seed);
      expect(said.high - said.low).toBeLessThan(55);
      return said.expected - known;
    });
    const mean = errors.reduce((sum, one) => sum + one, 0) / players.length;
    expect(Math.abs(mean)).toBeLessThan(5);
  });
});

/** Ten days of practice, a forecast, fifteen more days, and what is truly known then. */
function season(seed: number) {
  const roll = dice(seed);
  for (let n = 0; n < 10; n++) roll();
  const day = FIRST_DAY + 25;
  const wanted = { ...WISH, day };
  let before: readonly LogEvent[] = [];
  let said = forecast([], 19, FIRST_DAY, wanted).held;
  for (let today = FIRST_DAY; today < day; today++) {
    if (today === FIRST_DAY + 10) said = forecast(before, 19, today, wanted).held;
    if (roll() < 0.15) continue;
    const { memories } = foldLog(before);
    const outcome = ({ id }: Card) => {
      const memory = memories.get(id);
      const recall = memory ? PUBLISHED.recall(memory, today - memory.lastDay) : 0.8;
      return roll() < 0.97 * recall ? 'pocketed' : 'off';
    };
    before = play(cards, today, wanted, { before, most: 19, outcome }).events;
  }
  const { memories } = foldLog(before);
  const recall = (id: string): number => {
    const memory = memories.get(id);
    return memory ? PUBLISHED.recall(memory, day - memory.lastDay) : 0;
  };
  const known = lines.reduce((sum, { id, interpolation }) => {
    if (memories.has(id) || !interpolation) return sum + recall(id);
    const { anchors, skill } = interpolation;
    return sum + [...anchors, skill].reduce((product, one) => product * recall(one), 1);
  }, 0);
  return { said, known };
}
