import { describe, expect, it } from 'vitest';
import { cardsOf, type Fate, isLineCard, questionOf, replay } from '../../../src/cards/index.ts';
import {
  computeChart,
  HARBOUR_LANE,
  PATTERNS,
  patternOf,
  roundTo,
  toDecimal,
  toNumber,
} from '../../../src/charts/index.ts';
import { type Spot, spot } from '../../../src/figure/frame.ts';
import { feedbackFor } from '../../../src/quiz/words/feedback.ts';
import { questionWords } from '../../../src/quiz/words/question.ts';
import {
  countWords,
  errorWords,
  fateWords,
  lengthWords,
  routeWords,
} from '../../../src/quiz/words/words.ts';
import { MIRRORS, type Mirror, type Rail, sightAt, TABLES } from '../../../src/table/index.ts';

const chart = computeChart(HARBOUR_LANE);
const tolerance = toDecimal(0.1);
/** The questions of all lines, in the order of the cards. */
const questions = cardsOf(chart, tolerance)
  .filter(isLineCard)
  .flatMap((card) => questionOf({ chart, tolerance, speeds: ['medium'] }, card, 0) ?? []);
const [plain, leftRight, footHead, both] = MIRRORS as [Mirror, Mirror, Mirror, Mirror];
const pattern = patternOf('foot-to-side');

describe('names in the four pictures', () => {
  it.each(MIRRORS)(
    'name the rail that is drawn there, and the end it is counted from: %o',
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
  ])('are those of the picture', (mirror, words) => {
    expect(routeWords(pattern, mirror)).toBe(words);
  });

  it('are in the question that is read out', () => {
    expect(questionWords(fromThree(), both, 'through')).toContain(
      'From 3.0 on the right rail, off the head rail',
    );
  });
});

describe('words for errors and lengths', () => {
  it.each([
    [0.2, '0.2 high'],
    [-0.15, '0.15 low'],
    [0, 'exact'],
  ])('%d is %s', (error, words) => {
    expect(errorWords(toDecimal(error))).toBe(words);
  });

  it('gives inches to the half and centimetres whole', () => {
    expect(lengthWords(0.127, 'in')).toBe('5 inches');
    expect(lengthWords(0.0334, 'in')).toBe('1.5 inches');
    expect(lengthWords(0.127, 'cm')).toBe('13 cm');
  });
});

describe('what the ball would have done', () => {
  const speed = { speed: chart.setting.condition.speeds.medium };
  const context = {
    setting: chart.setting,
    target: pattern.target,
    mirror: plain,
    units: 'in' as const,
  };
  const play = (aim: number) => replay(chart.setting, pattern, 3, aim, speed);

  it('is told for every fate', () => {
    const line = chart.lines.find(
      (one) => one.pattern === 'foot-to-side' && toNumber(one.start) === 3,
    );
    const exact = line?.numbers.medium.exact ?? 0;
    const told: Partial<Record<Fate, string>> = {};
    for (let change = -exact; change < 2; change += 0.02) {
      const played = play(exact + change);
      told[played.fate] ??= fateWords(played, context);
    }
    expect(told.clean).toMatch(/^drops clean/);
    expect(told['rattles out']).toMatch(
      /^catches (a tip of the pocket|the facing), [\d.]+ inch(es)? (long|short), and comes out again$/,
    );
    expect(told.wide).toMatch(
      /^arrives at [\d.]+ on the \w+ rail(, [\d.]+ diamonds? (long|short))?/,
    );
    expect(told.early).toMatch(/^(drops into the foot-left corner first|runs into the corner)/);
    const slow = fateWords(replay(chart.setting, pattern, 3, exact, { speed: 0.3 }), context);
    expect(slow).toBe('never gets there');
  });

  it('agrees with the figure: both come from one replay', () => {
    const given = {
      values: [toDecimal(2.4)],
      grade: { outcome: 'off' as const, errors: [toDecimal(0.6)] },
    };
    const feedback = feedbackFor(shownIn, fromThree(), given);
    const yours = feedback.figure.paths.find((path) => path.tone === 'yours');
    const played = play(2.4);
    expect(yours?.stretches).toEqual(played.stretches);
    expect(feedback.ball).toBe(`The ball ${fateWords(played, context)}.`);
    expect(feedback.verdict).toBe(
      '1.8 is the number (1.82 before rounding). You called 2.4: 0.6 high.',
    );
  });

  it('blames the rounding, not the call, when the printed number itself misses', () => {
    let blamed = 0;
    for (const question of questions) {
      if (question.kind === 'trust') continue;
      const given = {
        values: question.truth,
        grade: { outcome: 'pocketed' as const, errors: question.truth.map(() => toDecimal(0)) },
      };
      const { ball, legend } = feedbackFor(shownIn, question, given);
      const made = ball.includes('drops');
      expect(ball.includes('the rounding to 0.1')).toBe(legend === 'both');
      if (legend === 'both') expect(made).toBe(false);
      if (legend === 'both') blamed += 1;
    }
    expect(blamed).toBeGreaterThan(0);
  });

  it('never shows a number before rounding that rounds to another', () => {
    for (const question of questions) {
      const { verdict } = feedbackFor(shownIn, question, null);
      const [, printed, fine] = /^([\d.]+) is the number \(([\d.]+) before/.exec(verdict) ?? [];
      if (!printed || !fine) continue;
      expect(roundTo(Number(fine), toDecimal(0.1))).toBe(toDecimal(Number(printed)));
    }
  });

  it('shows a window on request at all three speeds', () => {
    const question = questions.find((one) => one.kind === 'window');
    if (!question) throw new Error('no question');
    const { heading, legend, figure } = feedbackFor(shownIn, question, null);
    expect([heading, legend]).toEqual(['The window', 'speeds']);
    expect(figure.paths.map((path) => path.tone)).toEqual(['soft', 'medium', 'firm']);
  });
});

const shownIn = { chart, mirror: plain, units: 'in' as const };

function fromThree() {
  const question = questions.find(
    (one) => one.kind === 'number' && one.pattern === 'foot-to-side' && one.start === toDecimal(3),
  );
  if (!question) throw new Error('no question');
  return question;
}
