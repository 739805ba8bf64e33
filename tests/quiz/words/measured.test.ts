/** Lines with measured numbers: what the answer screen says about them and draws. */

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { playFlag } from '../../../src/app/parts/flags.ts';
import {
  cardsOf,
  gradeAnswer,
  isMade,
  isSkill,
  type Question,
  questionOf,
  replay,
  routeFor,
  verdictAt,
  windowsAt,
} from '../../../src/cards/index.ts';
import {
  type Chart,
  type ChartDocument,
  computeChart,
  type Decimal,
  HARBOUR_LANE,
  type Line,
  lastRevision,
  launchOf,
  patternOf,
  toDecimal,
  toNumber,
} from '../../../src/charts/index.ts';
import { fateWords } from '../../../src/quiz/words/fate.ts';
import { feedbackFor } from '../../../src/quiz/words/feedback.ts';
import { lineAtSpeeds, playNumber } from '../../../src/quiz/words/feedback-figure.ts';
import { measuredWords } from '../../../src/quiz/words/measured.ts';
import {
  diamondLength,
  diamondOf,
  MIRRORS,
  type Mirror,
  NAMINGS,
  pointAlong,
  SPEEDS,
  type Stretch,
  solveLine,
} from '../../../src/table/index.ts';
import { MEASURED_BAR_TABLE } from '../../charts/measured.ts';

const tolerance = toDecimal(0.1);
const SIX = { pattern: 'cross-side', start: toDecimal(6) } as const;
const [plain] = MIRRORS as [Mirror];
const computed = computeChart(HARBOUR_LANE);
const solved = lineOf(computed);
/** The tester's line: its number at medium is 0.3 more than the solved one. */
const measured = computeChart(withMedium(toNumber(solved.numbers.medium.printed) + 0.3));

function withMedium(medium: number): ChartDocument {
  const line = { ...SIX, medium: toDecimal(medium) };
  return {
    ...HARBOUR_LANE,
    revisions: [{ ...lastRevision(HARBOUR_LANE), measured: [line] }],
  };
}

function lineOf({ lines }: Chart): Line {
  const line = lines.find((one) => one.pattern === SIX.pattern && one.start === SIX.start);
  if (!line) throw new Error('no line from 6');
  return line;
}

function numberQuestion(chart: Chart): Question {
  const line = lineOf(chart);
  const truth = [line.numbers.medium.printed] as const;
  return { kind: 'number', ...SIX, line, speed: 'medium', tolerance, truth };
}

function answered(chart: Chart, question: Question, values: readonly Decimal[]) {
  const pace = { slow: 20_000, quick: 5_000 };
  const given = {
    values,
    grade: gradeAnswer(values, question.truth, question.tolerance, 1000, pace),
  };
  return feedbackFor({ chart, mirror: plain, units: 'in' }, question, given);
}

describe('a line measured 0.3 above the model', () => {
  it('goes in if called by the chart, and says that the model differs', () => {
    const question = numberQuestion(measured);
    const { heading, ball, measured: said, figure } = answered(measured, question, question.truth);
    expect(heading).toBe('Dead center');
    expect(ball).toMatch(/^The ball drops/);
    expect(ball).not.toContain('forgives less');
    const model = toNumber(solved.numbers.medium.printed).toFixed(1);
    expect(said).toBe(
      `Measured: the model has ${model} here; it is drawn as it plays on your table.`,
    );
    expect(figure.paths.map(({ tone }) => tone)).toEqual(['true']);
    expect(figure.marks.map(({ label }) => label)).toContain((Number(model) + 0.3).toFixed(1));
    // The ball leaves 0.3 beside the line through the sight: that line is not drawn.
    expect(figure.aims).toEqual([]);
  });

  it('called by the model, does what a call 0.3 low does on a computed chart', () => {
    const question = numberQuestion(measured);
    const called = solved.numbers.medium.exact;
    const here = playNumber(measured, SIX, called, 'medium');
    const there = playNumber(computed, SIX, called - shiftIn(measured, 'medium'), 'medium');
    expect(here.fate).toBe(there.fate);
    expect(isMade(here)).toBe(false);
    expect(answered(measured, question, [toDecimal(called)]).heading).toBe('Off');
  });

  it('has the shifted windows and the verdict of the solved line', () => {
    const of = (chart: Chart) => {
      const { soft, medium, firm } = lineOf(chart).numbers;
      return { soft: soft.exact, medium: medium.exact, firm: firm.exact };
    };
    const pattern = patternOf(SIX.pattern);
    const here = windowsAt(measured, pattern, SIX.start, of(measured));
    const there = windowsAt(computed, pattern, SIX.start, of(computed));
    for (const speed of SPEEDS) {
      // 0.002: the precision of a window's ends (make-window.ts).
      const by = shiftIn(measured, speed);
      expect(Math.abs((here[speed]?.from ?? 0) - (there[speed]?.from ?? 9) - by)).toBeLessThan(
        0.002,
      );
      expect(Math.abs((here[speed]?.to ?? 0) - (there[speed]?.to ?? 9) - by)).toBeLessThan(0.002);
    }
    const verdict = verdictAt(measured, pattern, SIX.start, of(measured));
    expect(verdict.kind).toBe(verdictAt(computed, pattern, SIX.start, of(computed)).kind);
  });

  it('is drawn at three speeds like the solved line', () => {
    const [here, there] = [
      lineAtSpeeds(measured, lineOf(measured)),
      lineAtSpeeds(computed, solved),
    ];
    for (const [n, { tone, stretches }] of here.paths.entries()) {
      expect(there.paths[n]?.tone).toBe(tone);
      const [a, b] = [stretches.at(-1), there.paths[n]?.stretches.at(-1)];
      // Metres: a number solved alone is good to 5e-5 of a diamond of aim (solve.ts).
      expect(a?.ball.x).toBeCloseTo(b?.ball.x ?? Number.NaN, 3);
      expect(a?.ball.y).toBeCloseTo(b?.ball.y ?? Number.NaN, 3);
    }
    expect(here.aims).toEqual([]);
    expect(there.aims).toHaveLength(1);
  });

  it('shows that a flag with the model’s number misses, and that the chart’s drops', () => {
    const number = toNumber(solved.numbers.medium.printed);
    const played = playFlag(measured, lineOf(measured), { speed: 'medium', number, day: 1 }, 'in');
    expect(played?.charts).toMatch(/ it drops/);
    expect(played?.yours).not.toMatch(/ drops/);
  });
});

function shiftIn(chart: Chart, speed: 'soft' | 'medium' | 'firm'): number {
  return lineOf(chart).numbers[speed].exact - solved.numbers[speed].exact;
}

describe('an aim beside a measured number', () => {
  it.each([-0.5, 0, 0.4])('measured %d off does what it does beside the solved one', (off) => {
    const chart = computeChart(withMedium(solved.numbers.medium.exact + off));
    fc.assert(
      fc.property(
        fc.constantFrom(...SPEEDS),
        fc.integer({ min: -100, max: 100 }).map((hundredths) => hundredths / 100),
        (speed, d) => {
          const here = playNumber(chart, SIX, lineOf(chart).numbers[speed].exact + d, speed);
          const there = playNumber(computed, SIX, solved.numbers[speed].exact + d, speed);
          // A number solved alone and one solved in its column differ by 5e-5 (solve.ts). That
          // changes the fate on the edge of a window, but nowhere else.
          const edges = [-1e-4, 1e-4].map(
            (hair) => playNumber(computed, SIX, solved.numbers[speed].exact + d + hair, speed).fate,
          );
          expect([there.fate, ...edges]).toContain(here.fate);
          if (here.fate !== there.fate || here.miss === null) return;
          expect(here.miss).toBeCloseTo(there.miss ?? Number.NaN, 3);
        },
      ),
      { numRuns: 60 },
    );
  });
});

describe.each(NAMINGS)('every kind on a measured chart, %s', (naming) => {
  const chart = computeChart(MEASURED_BAR_TABLE, naming);
  const asker = { chart, tolerance, speeds: SPEEDS };
  const questions = cardsOf(chart, tolerance)
    .filter((card, n) => n % 5 === 0 || isSkill(card.kind))
    .flatMap((card) => questionOf(asker, card, 7) ?? []);

  it('does what the solved number does if it is right to the last digit', () => {
    const seen = new Set<string>();
    for (const question of questions) {
      const { kind } = question;
      if (kind === 'trust' || kind === 'window' || kind === 'arrival') continue;
      seen.add(kind);
      const context = { chart, mirror: plain, units: 'in' } as const;
      const { ball } = feedbackFor(context, question, null);
      const solved = ball.replace(/ Rounded to [\d.]+, the number misses\.$/, '');
      expect(solved).toBe(`The ball ${modelWords(chart, question)}.`);
    }
    expect([...seen].sort()).toEqual(['in between', 'number', 'off the rail', 'rail ball']);
  });

  it('draws an arrival to the right place', () => {
    const arrivals = questions.filter((question) => question.kind === 'arrival');
    expect(arrivals.length).toBeGreaterThan(0);
    for (const question of arrivals) {
      const { figure } = feedbackFor({ chart, mirror: plain, units: 'in' }, question, null);
      expect(figure.paths[0]?.stretches.length).toBeGreaterThan(0);
      expect(endsAt(chart, question, figure.paths[0]?.stretches ?? [])).toBeLessThan(1e-3);
    }
  });
});

/** What the ball does with the model's own number. */
function modelWords({ setting, ...chart }: Chart, question: Question): string {
  const route = routeFor(setting.table, question);
  const launch = launchOf({ ...chart, setting }, route, question.speed);
  const { aim } = solveLine(setting, route, toNumber(question.start), launch);
  if (aim === null) throw new Error(`no number from ${question.start}`);
  const played = replay(setting, route, toNumber(question.start), aim, launch);
  if ('known' in question) expect(isMade(played)).toBe(true);
  return fateWords(played, { setting, target: route.target, mirror: plain, units: 'in' });
}

/** Distance of a path's end from the question's place, meters along the rail. */
function endsAt(chart: Chart, question: Question, stretches: readonly Stretch[]): number {
  if (question.kind !== 'arrival') throw new Error(`${question.kind} has no place`);
  const last = stretches.at(-1);
  if (!last) throw new Error('no path');
  const { table } = chart.setting;
  const end = pointAlong(last, last.duration);
  const place = diamondOf(table, question.count, end);
  return Math.abs(place - toNumber(question.truth[0])) * diamondLength(table, question.count.rail);
}

describe('the remark on the model’s numbers', () => {
  const at = (speed: 'soft' | 'medium' | 'firm', printed: number, model: number) =>
    ({
      speed,
      source: 'measured',
      printed: toDecimal(printed),
      model: toDecimal(model),
    }) as const;

  it('is null if both print the same', () => {
    expect(measuredWords([at('medium', 2.3, 2.3)])).toBeNull();
    expect(measuredWords([])).toBeNull();
  });

  it('names the speeds if several are drawn', () => {
    expect(measuredWords([at('soft', 2.1, 2), at('medium', 2.3, 2.3), at('firm', 2.6, 2.4)])).toBe(
      'Measured: the model has 2.0 at soft and 2.4 at firm here; it is drawn as it plays on your table.',
    );
  });

  it('does not say "measured" about numbers that only follow from measured ones', () => {
    expect(measuredWords([{ ...at('medium', 2.6, 2.3), source: 'by window' }])).toMatch(
      /^From what is measured: the model has 2\.3 here/,
    );
  });
});
