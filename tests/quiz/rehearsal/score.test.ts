import { describe, expect, it } from 'vitest';
import { type Card, cardsOf, pictureFor, questionOf } from '../../../src/cards/index.ts';
import { computeChart, HARBOUR_LANE, toDecimal, toNumber } from '../../../src/charts/index.ts';
import { askerFor, scoreRows, totalsOf } from '../../../src/quiz/index.ts';
import { seedAt } from '../../../src/quiz/rehearsal/draft.ts';
import {
  gradedWords,
  type ScoreContext,
  type ScoreRow,
} from '../../../src/quiz/rehearsal/score.ts';
import type { RehearsalQuestion, Rehearsed } from '../../../src/scheduler/index.ts';
import { DEFAULT_SETTINGS } from '../../../src/store/index.ts';
import { base, said } from '../../scheduler/making.ts';

const chart = computeChart(HARBOUR_LANE);
const cards = cardsOf(chart, toDecimal(0.1));
const asker = askerFor(chart, DEFAULT_SETTINGS);
const context: ScoreContext = { asker, cards };
const SEED = 77;

describe('the totals', () => {
  // By hand: two made, one more within tolerance, one off, one that ran out.
  const questions = [
    of({ outcome: 'dead center', ms: 2000 }),
    of({ outcome: 'pocketed', ms: 9000 }),
    of({ outcome: 'rattled', ms: 4000 }),
    of({ outcome: 'off', ms: 5000 }),
    of({ outcome: 'off', ms: 25_000, answer: null, errors: null, ranOut: true }),
  ];

  it('count what was made, was within tolerance, and ran out', () => {
    expect(totalsOf(questions)).toMatchObject({ questions: 5, made: 2, within: 3, ranOut: 1 });
  });

  // 2, 4, 5, 9 s: halfway between the middle two, the median of an even number of values.
  it('give the median time of the given answers', () => {
    expect(totalsOf(questions).medianMs).toBe(4500);
    expect(totalsOf(questions.slice(0, 3)).medianMs).toBe(4000);
    expect(totalsOf(questions.slice(4)).medianMs).toBeNull();
  });
});

describe('the tolerance of the sheet', () => {
  it('is the current one, then those of balls and arrivals', () => {
    const ball = (tolerance: number) => of({ kind: 'rail ball', tolerance });
    const trust = of({ kind: 'trust', tolerance: 0 });
    expect(gradedWords([of({}), of({ kind: 'window' }), trust])).toBe('Tolerance in diamonds: 0.1');
    expect(gradedWords([ball(0.2), of({ tolerance: 0.05 }), ball(0.1234)])).toBe(
      'Tolerance in diamonds: 0.05; rail ball 0.12–0.2',
    );
    expect(gradedWords([trust])).toBeNull();
  });
});

describe('a row of the sheet', () => {
  it('gives a number with the question, your answer, the right one and the error', () => {
    const card = cardOf('cross-corner', 'number');
    const row = rowOf(answered(card, 0, [0.2]));
    const right = toNumber(askedOf(card, 0).truth[0]);
    expect(row).toMatchObject({
      number: 1,
      pattern: 'Cross-corner',
      // The left rail counts from the foot, by the pattern's own count (charts/document/patterns.ts).
      asked: `Number: from ${toNumber(askedOf(card, 0).start).toFixed(1)} on the left rail (from the foot)`,
      yours: (right + 0.2).toFixed(1),
      right: right.toFixed(1),
      error: '0.2 high',
      outcome: 'off',
      seconds: '12.3 s',
    });
  });

  it('gives both fields of a window, with their signs', () => {
    const card = cardOf('cross-corner', 'window');
    const row = rowOf(answered(card, 0, [-0.1, 0]));
    expect(row.right).toMatch(/^[+−]?\d\.\d, [+−]?\d\.\d$/);
    expect(row.error).toBe('0.1 low, exact');
  });

  it('gives a verdict by its name, without an error', () => {
    const card = cardOf('cross-corner', 'trust');
    const verdict = askedOf(card, 0);
    if (verdict.kind !== 'trust') throw new Error('not a verdict');
    const row = rowOf(answered(card, 0, [0]));
    expect(row).toMatchObject({ right: verdict.verdict.kind, yours: verdict.verdict.kind });
    expect(row.error).toBe('–');
  });

  it('gives the place of a kick’s ball, and shows that very question again', () => {
    const card = cardOf('cross-side', 'rail ball', 'rail ball');
    const row = rowOf(answered(card, 0, [0.5]));
    expect(row.asked).toMatch(
      /^Rail ball: from \d\.\d on the left rail \(from the foot\), ball at \d\.\d on the \w+ rail \(from the \w+\)$/,
    );
    expect(row.again?.shown).toEqual({
      question: askedOf(card, 0),
      mirror: pictureFor(card.id, 0),
    });
    expect(row.again?.given?.grade).toEqual({ outcome: 'off', errors: [toDecimal(0.5)] });
  });

  // Up and back starts on the head rail and goes off the foot rail, both counted from the left:
  // the pattern's own counts (charts/document/patterns.ts), for the printed picture.
  it('names rails as on the chart, whatever picture was shown', () => {
    for (const kind of ['off the rail', 'arrival'] as const) {
      const own = cards.filter((card) => card.pattern === 'up-and-back' && card.kind === kind);
      expect(own.length).toBeGreaterThan(0);
      for (const card of own) {
        const [all, one] = (['all', 'one'] as const).map(
          (pictures) => scoreRows(context, { ...eventOf([answered(card, 0, [0])]), pictures })[0],
        );
        expect(all?.again && one?.again).toBeTruthy();
        expect(all?.asked).toBe(one?.asked);
        expect(all?.asked).toContain('on the head rail (from the left)');
        expect(all?.asked).toMatch(
          kind === 'arrival'
            ? /, number \d\.\d on the foot rail \(from the left\), arrives on the \w+ rail \(from the \w+\)$/
            : /, ball (half a diamond|[\d.]+ diamonds?) off the \w+ rail, level with \d\.\d+ \(from the \w+\)$/,
        );
      }
    }
  });

  it('of a clock that ran out has the right number, and no answer', () => {
    const card = cardOf('cross-corner', 'number');
    const truth = toNumber(askedOf(card, 0).truth[0]);
    const row = rowOf({ ...late(card), truth: [truth] });
    const right = truth.toFixed(1);
    expect(row).toMatchObject({ yours: '–', right, error: '–', outcome: 'ran out' });
    expect(row.again?.given).toBeNull();
    expect(row.again?.shown.question).toEqual(askedOf(card, 0));
  });

  it('of a clock that ran out has no right number if none was recorded', () => {
    const row = rowOf(late(cardOf('cross-corner', 'number')));
    expect(row).toMatchObject({ yours: '–', right: '–', error: '–', again: null });
  });

  it('shows the picture of that time, whatever the current setting', () => {
    // A card whose first picture is not the printed one: three in four are.
    const card = cards.find(({ id, kind }) => kind === 'number' && pictureFor(id, 0).leftRight);
    if (!card) throw new Error('every card is shown as printed');
    const record = answered(card, 0, [0]);
    const mirrorIn = (pictures: 'all' | 'one') =>
      scoreRows(context, { ...eventOf([record]), pictures })[0]?.again?.shown.mirror;
    expect(mirrorIn('all')).toEqual(pictureFor(card.id, 0));
    expect(mirrorIn('one')).toEqual({ leftRight: false, footHead: false });
    const { pictures: _pictures, ...unknown } = eventOf([record]);
    expect(scoreRows(context, unknown)).toMatchObject([{ error: 'exact', again: null }]);
  });
});

describe('a sheet whose chart has changed since', () => {
  it('keeps answer and error as recorded for a number that moved', () => {
    const card = cardOf('cross-corner', 'number');
    const record = answered(card, 0, [0.2]);
    const moved = { ...record, answer: [3.2], errors: [0.1] };
    expect(rowOf(moved)).toMatchObject({
      yours: '3.2',
      right: '3.1',
      error: '0.1 high',
      again: null,
    });
  });

  it('keeps the number that was right then, also where the clock ran out', () => {
    const card = cardOf('cross-corner', 'number');
    const moved = toNumber(askedOf(card, 0).truth[0]) + 0.5;
    const row = rowOf({ ...late(card), truth: [moved] });
    expect(row).toMatchObject({ right: moved.toFixed(1), outcome: 'ran out', again: null });
  });

  it('shows no table if the tolerance has changed: it graded by another one', () => {
    const card = cardOf('cross-corner', 'number');
    const row = rowOf({ ...answered(card, 0, [0.2]), tolerance: 0.2 });
    expect(row).toMatchObject({ error: '0.2 high', again: null });
  });

  it('gives a ball’s place as recorded if it is elsewhere now', () => {
    const card = cardOf('cross-side', 'rail ball', 'rail ball');
    const asked = { start: 5, speed: 'medium' as const, at: 2.25 };
    const row = rowOf({ ...answered(card, 0, [0]), asked });
    expect(row).toMatchObject({
      asked: 'Rail ball: from 5.0 on the left rail (from the foot), ball at 2.25',
      again: null,
    });
  });

  it('keeps pattern, answer and error of a card that is gone', () => {
    const card = cardOf('cross-corner', 'number');
    const [row] = scoreRows({ ...context, cards: [] }, eventOf([answered(card, 0, [-0.1])]));
    expect(row).toMatchObject({ pattern: 'Cross-corner', error: '0.1 low', again: null });
  });

  it('uses the record alone if the seed is unknown', () => {
    const { seed: _seed, ...event } = eventOf([answered(cardOf('cross-side', 'number'), 0, [0])]);
    expect(scoreRows(context, event)).toMatchObject([{ error: 'exact', again: null }]);
  });
});

function of(part: Partial<RehearsalQuestion>): RehearsalQuestion {
  const rest = { card: 'c/cross-side/5', kind: 'number', ranOut: false, tolerance: 0.1 } as const;
  return { ...rest, answer: [1], errors: [0], outcome: 'off', ms: 0, ...part };
}

/** The record of an answer with an error. */
function answered(card: Card, n: number, errors: readonly number[]): RehearsalQuestion {
  const { start, speed, truth, ...rest } = askedOf(card, n);
  const at = 'at' in rest ? { at: toNumber(rest.at) } : {};
  const off = 'off' in rest ? { off: toNumber(rest.off) } : {};
  const aim = 'aim' in rest ? { aim: toNumber(rest.aim) } : {};
  const answer = truth.map((value, field) =>
    toNumber(toDecimal(toNumber(value) + (errors[field] ?? 0))),
  );
  const asked = { start: toNumber(start), speed, ...at, ...off, ...aim };
  const tolerance = toNumber(rest.tolerance);
  return of({ card: card.id, kind: card.kind, tolerance, asked, answer, errors, ms: 12_300 });
}

/** The record of a clock that ran out, from before right numbers were recorded. */
function late(card: Card): RehearsalQuestion {
  return { ...answered(card, 0, [0]), answer: null, errors: null, ranOut: true };
}

function askedOf(card: Card, n: number) {
  const question = questionOf(asker, card, seedAt(SEED, n));
  if (!question) throw new Error(`${card.id} asks nothing`);
  return question;
}

function cardOf(pattern: string, kind: Card['kind'], part = ''): Card {
  const card = cards.find((one) => one.pattern === pattern && one.kind === kind);
  const any = card ?? cards.find((one) => one.kind === kind && one.id.includes(part));
  if (!any) throw new Error(`no ${kind} of ${pattern}`);
  return any;
}

function eventOf(questions: readonly RehearsalQuestion[]): Rehearsed {
  const what = { counts: false, clock: 25 as const, began: 1000, seed: SEED };
  return said(base(1, 10), 'rehearsed', { ...what, pictures: 'all', questions });
}

function rowOf(record: RehearsalQuestion): ScoreRow {
  return scoreRows(context, eventOf([record]))[0] as ScoreRow;
}
