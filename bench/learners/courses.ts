/** What the players learn: all cards of the demo chart as the app asks them, or 60 lines by heart. */

import { type Card, cardsOf, KINDS } from '../../src/cards/index.ts';
import { computeChart, HARBOUR_LANE, toDecimal } from '../../src/charts/index.ts';
import { useOf, worthOf } from '../../src/quiz/index.ts';
import { type Course, courseOf, type Wish } from '../../src/scheduler/choose/course.ts';
import { foldLog } from '../../src/scheduler/index.ts';

export interface Learnt {
  readonly name: string;
  readonly cards: readonly Card[];
  readonly wish: Wish;
  readonly course: Course;
}

const CHART = computeChart(HARBOUR_LANE);
const CARDS = cardsOf(CHART, toDecimal(0.1));
const PATTERNS = CHART.patterns.slice(0, 6);

const WISH: Wish = {
  kinds: KINDS,
  anchorsOnly: true,
  meetFirst: true,
  newLinesADay: null,
  day: null,
  worth: (pattern) => worthOf(useOf({}, pattern)),
};

function learnt(name: string, cards: readonly Card[], wish: Wish): Learnt {
  return { name, cards, wish, course: courseOf(cards, foldLog([]), wish) };
}

/** All cards of the app, anchors by heart. A pattern counts by how often it comes up. */
export const ALL = learnt('all cards', CARDS, WISH);

/** The lines of the first six patterns by heart, all worth the same and none shown first. */
export const SIXTY = learnt(
  '60 lines',
  CARDS.filter(({ kind, pattern }) => kind === 'number' && PATTERNS.includes(pattern)).map(
    (card) => ({ ...card, priority: 1 }),
  ),
  { ...WISH, anchorsOnly: false, meetFirst: false, worth: () => 1 },
);
