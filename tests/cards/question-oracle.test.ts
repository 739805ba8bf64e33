/**
 * Plays the skills' answers by the oracle's own code of the model (tests/oracle: odex 2.0.4, a general
 * ODE solver): with the true number, the ball has to arrive where the question says. The bound is 0.001
 * diamond, as for whole shots, plus the cost of rounding a truth to a ten-thousandth: no line here
 * moves its arrival by more than 10 diamonds per diamond of aim.
 */

import { describe, expect, it } from 'vitest';
import {
  type Asker,
  cardsOf,
  isSkill,
  type Question,
  questionOf,
  SKILL_KINDS,
} from '../../src/cards/index.ts';
import {
  computeChart,
  HARBOUR_LANE,
  kickTo,
  launchOf,
  patternOf,
  toDecimal,
  toNumber,
} from '../../src/charts/index.ts';
import { diamondLength, diamondOf, type Route, targetPoint } from '../../src/table/index.ts';
import { judge } from '../oracle/grid.ts';

const WITHIN = 0.001 + 10 * 0.5e-4;
const asker: Asker = {
  chart: computeChart(HARBOUR_LANE),
  tolerance: toDecimal(0.1),
  speeds: ['soft', 'medium', 'firm'],
};
const { setting } = asker.chart;
const diamond = diamondLength(setting.table, 'left');

describe.each(SKILL_KINDS)('%s', (kind) => {
  const cards = cardsOf(asker.chart, asker.tolerance).filter((card) => card.kind === kind);
  const some = cards.filter((_, n) => n % Math.ceil(cards.length / 6) === 0);

  it.each(some.map((card) => [card.id, card] as const))('%s', (_id, card) => {
    const question = questionOf(asker, card, 20_261_125);
    if (!question || !isSkill(question.kind)) throw new Error('nothing to ask');
    expect(missBy(question)).toBeLessThan(WITHIN);
  });
});

/** Diamonds from the right place to where the ball arrives with the true answer. */
function missBy(question: Question): number {
  const pattern = patternOf(question.pattern);
  const [truth = toDecimal(0)] = question.truth;
  const launch = launchOf(asker.chart, pattern, question.speed);
  const start = toNumber(question.start);
  const play = (route: Route, aim: number) => judge({ setting, route, start, aim, launch }).ended;
  switch (question.kind) {
    case 'arrival': {
      const route = kickTo({ ...pattern, kicks: question.count }, toNumber(truth));
      const { ball } = play(route, toNumber(question.aim));
      return Math.abs(diamondOf(setting.table, question.count, ball) - toNumber(truth));
    }
    case 'in between':
      return away(pattern, play(pattern, toNumber(truth)).ball);
    case 'rail ball': {
      const route = kickTo({ ...pattern, kicks: question.count }, toNumber(question.at));
      return away(route, play(route, toNumber(truth)).ball);
    }
    case 'off the rail': {
      const off = toNumber(question.off) * diamond;
      const route = kickTo({ ...pattern, kicks: question.count }, toNumber(question.at), off);
      return away(route, play(route, toNumber(truth)).ball);
    }
    default:
      throw new Error(question.kind);
  }
}

function away(route: Route, at: { readonly x: number; readonly y: number }): number {
  const goal = targetPoint(setting.table, route.target);
  return Math.hypot(at.x - goal.x, at.y - goal.y) / diamond;
}
