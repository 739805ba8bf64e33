import { describe, expect, it } from 'vitest';
import { cardsOf, questionOf } from '../../../src/cards/index.ts';
import {
  computeChart,
  HARBOUR_LANE,
  PATTERNS,
  patternOf,
  toDecimal,
} from '../../../src/charts/index.ts';
import { type Spot, spot } from '../../../src/figure/frame.ts';
import { countWords, routeWords } from '../../../src/quiz/words/names.ts';
import { questionWords } from '../../../src/quiz/words/question.ts';
import { MIRRORS, type Mirror, type Rail, sightAt, TABLES } from '../../../src/table/index.ts';

const [plain, leftRight, footHead, both] = MIRRORS as [Mirror, Mirror, Mirror, Mirror];
const pattern = patternOf('foot-to-side');

describe('names in the four pictures', () => {
  it.each(MIRRORS)(
    'name the rail that is drawn there, and the end its count begins at: %o',
    (mirror) => {
      const frame = { table: TABLES['9ft'], mirror };
      // Seen with the foot rail at the top (frame.ts): x runs right, y runs down.
      const isNearer = {
        left: (one: Spot, other: Spot) => one.x < other.x,
        right: (one: Spot, other: Spot) => one.x > other.x,
        foot: (one: Spot, other: Spot) => one.y < other.y,
        head: (one: Spot, other: Spot) => one.y > other.y,
      };
      const middle = spot(frame, { x: frame.table.length / 2, y: frame.table.width / 2 });
      for (const count of PATTERNS.flatMap(({ start, aim }) => [start, aim])) {
        const [near, far] = [1, 2].map((diamond) =>
          spot(frame, sightAt(frame.table, count, diamond)),
        );
        const [, rail, end] = /^(\w+) rail, from the (\w+)$/.exec(countWords(count, mirror)) ?? [];
        expect(isNearer[rail as Rail](near as Spot, middle), `${rail} rail`).toBe(true);
        expect(isNearer[end as Rail](near as Spot, far as Spot), `from the ${end}`).toBe(true);
      }
    },
  );

  it.each([
    [plain, 'off the foot rail, into the right side pocket'],
    [leftRight, 'off the foot rail, into the left side pocket'],
    [footHead, 'off the head rail, into the right side pocket'],
    [both, 'off the head rail, into the left side pocket'],
  ])('follow the mirror', (mirror, words) => {
    expect(routeWords(pattern, mirror)).toBe(words);
  });

  it('are those of the question as it is read out', () => {
    const chart = computeChart(HARBOUR_LANE);
    const tolerance = toDecimal(0.1);
    const card = cardsOf(chart, tolerance).find(
      (one) => one.kind === 'number' && one.pattern === pattern.id && one.start === toDecimal(3),
    );
    const question = card && questionOf({ chart, tolerance, speeds: ['medium'] }, card, 0);
    if (!question) throw new Error('no question');
    expect(questionWords(question, both, 'through')).toContain(
      'From 3.0 on the right rail, off the head rail',
    );
  });
});
