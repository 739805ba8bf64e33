import { describe, expect, it } from 'vitest';
import { cardsOf, type Fate, isLineCard, questionOf, replay } from '../../../src/cards/index.ts';
import {
  computeChart,
  HARBOUR_LANE,
  patternOf,
  roundTo,
  toDecimal,
  toNumber,
} from '../../../src/charts/index.ts';
import { fateWords } from '../../../src/quiz/words/fate.ts';
import { feedbackFor } from '../../../src/quiz/words/feedback.ts';
import { MIRRORS, type Mirror } from '../../../src/table/index.ts';

const chart = computeChart(HARBOUR_LANE);
const tolerance = toDecimal(0.1);
/** The questions of all lines, in the order of the cards. */
const questions = cardsOf(chart, tolerance)
  .filter(isLineCard)
  .flatMap((card) => questionOf({ chart, tolerance, speeds: ['medium'] }, card, 0) ?? []);
const [plain] = MIRRORS as [Mirror];
const pattern = patternOf('foot-to-side');

describe('what the ball would have done', () => {
  const speed = { speed: chart.setting.condition.speeds.medium };
  const context = {
    setting: chart.setting,
    target: pattern.target,
    mirror: plain,
    units: 'in' as const,
  };
  const play = (aim: number) => replay(chart.setting, pattern, 3, aim, speed);

  it('has words for every fate', () => {
    const line = chart.lines.find(
      (one) => one.pattern === 'foot-to-side' && toNumber(one.start) === 3,
    );
    const exact = line?.numbers.medium.exact ?? 0;
    const words: Partial<Record<Fate, string>> = {};
    for (let change = -exact; change < 2; change += 0.02) {
      const played = play(exact + change);
      words[played.fate] ??= fateWords(played, context);
    }
    expect(words.clean).toMatch(/^drops clean/);
    expect(words['rattles out']).toMatch(
      /^catches (a tip of the pocket|the facing), [\d.]+ inch(es)? (long|short), and comes out again$/,
    );
    expect(words.wide).toMatch(
      /^arrives at [\d.]+ on the \w+ rail(, [\d.]+ diamonds? (long|short))?/,
    );
    expect(words.early).toMatch(/^(drops into the foot-left corner first|runs into the corner)/);
    const slow = fateWords(replay(chart.setting, pattern, 3, exact, { speed: 0.3 }), context);
    expect(slow).toBe('never gets there');
  });

  it('agrees with the figure: both use one replay', () => {
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

  it('blames the rounding, not the call, if the printed number itself misses', () => {
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

  it('never shows an unrounded number that rounds to another one', () => {
    for (const question of questions) {
      const { verdict } = feedbackFor(shownIn, question, null);
      const [, printed, fine] = /^([\d.]+) is the number \(([\d.]+) before/.exec(verdict) ?? [];
      if (!printed || !fine) continue;
      expect(roundTo(Number(fine), toDecimal(0.1))).toBe(toDecimal(Number(printed)));
    }
  });

  it('shows a window at all three speeds for "show me"', () => {
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
