/** The score sheet of a finished rehearsal: questions, answers, right answers, and totals. */

import {
  type Asker,
  type Card,
  KINDS,
  type Kind,
  type Question,
  questionOf,
} from '../../cards/index.ts';
import { type Decimal, formatDecimal, minus, toDecimal, VERDICTS } from '../../charts/index.ts';
import type { Instance, RehearsalQuestion, Rehearsed } from '../../scheduler/index.ts';
import { medianOf } from '../drill/result.ts';
import type { Shown } from '../stage/phase.ts';
import { instanceFor, mirrorFor } from '../stage/questions.ts';
import { KIND_NAMES } from '../words/card.ts';
import type { Given } from '../words/given.ts';
import { errorWords } from '../words/quantities.ts';
import { askedWords, patternIn } from './asked-words.ts';
import { seedAt } from './draft.ts';

export interface Totals {
  readonly questions: number;
  /** How many answers were pocketed or dead center. */
  readonly made: number;
  /** How many answers were not off. */
  readonly within: number;
  readonly ranOut: number;
  /** Median time of the given answers, in milliseconds; null if there are none. */
  readonly medianMs: number | null;
}

export function totalsOf(questions: readonly RehearsalQuestion[]): Totals {
  const given = questions.filter((one) => !one.ranOut && one.answer !== null);
  const within = given.filter((one) => one.outcome !== 'off');
  return {
    questions: questions.length,
    made: within.filter((one) => one.outcome !== 'rattled').length,
    within: within.length,
    ranOut: questions.filter((one) => one.ranOut).length,
    medianMs: medianOf(given.map((one) => one.ms)),
  };
}

export interface ScoreRow {
  /** The number of the question, counted from 1. */
  readonly number: number;
  readonly pattern: string;
  /** The question in words. */
  readonly asked: string;
  readonly yours: string;
  readonly right: string;
  readonly error: string;
  readonly outcome: string;
  readonly seconds: string;
  /**
   * The question as it was asked, and the answer; null if the chart would now ask a different
   * question.
   */
  readonly again: { readonly shown: Shown; readonly given: Given | null } | null;
}

export interface ScoreContext {
  readonly asker: Asker;
  readonly cards: readonly Card[];
}

const NONE = '–';

export function scoreRows(context: ScoreContext, event: Rehearsed): readonly ScoreRow[] {
  return event.questions.map((record, n) => {
    const shown = shownAgain(context, event, record, n);
    return {
      number: n + 1,
      pattern: patternIn(record)?.name ?? NONE,
      asked: askedWords(record, shown?.question ?? null),
      ...answerColumns(record),
      outcome: record.ranOut ? 'ran out' : record.outcome,
      seconds: secondsWords(record.ms),
      again: shown && { shown, given: givenOf(record) },
    };
  });
}

/** Returns, for example, "12.3 s". */
export function secondsWords(ms: number): string {
  return `${(ms / 1000).toFixed(1)} s`;
}

/**
 * Rebuilds the question as it was asked, from its card and seed, in the picture used then. Returns
 * null if the question has changed, or if the record lacks the card, the seed or the picture.
 */
function shownAgain(
  { asker, cards }: ScoreContext,
  { seed, pictures }: Rehearsed,
  record: RehearsalQuestion,
  n: number,
): Shown | null {
  const card = cards.find(({ id }) => id === record.card);
  if (!card || seed === undefined || pictures === undefined) return null;
  const question = questionOf(asker, card, seedAt(seed, n));
  if (!question || !isSame(question, record)) return null;
  return { question, mirror: mirrorFor({ pictures }, card.id, n) };
}

/**
 * Tells whether a question matches the record in what it asks, in the right answer, and in the
 * tolerance.
 */
function isSame(question: Question, record: RehearsalQuestion): boolean {
  const { asked, tolerance } = record;
  const right = rightOf(record);
  return (
    (!asked || sameInstance(instanceFor(question), asked)) &&
    question.tolerance === toDecimal(tolerance) &&
    right?.length === question.truth.length &&
    question.truth.every((value, at) => value === right[at])
  );
}

function sameInstance(a: Instance, b: Instance): boolean {
  const parts = ['start', 'speed', 'aim', 'at', 'off'] as const;
  return parts.every((part) => a[part] === b[part]);
}

/**
 * Returns the right answer at that time. If it is not on record, it is the player's answer minus
 * its error; null if that is not on record either.
 */
function rightOf({ truth, answer, errors }: RehearsalQuestion): readonly Decimal[] | null {
  if (truth) return truth.map(toDecimal);
  if (!answer || !errors) return null;
  return answer.map((value, at) => minus(toDecimal(value), toDecimal(errors[at] ?? 0)));
}

function givenOf({ answer, errors, outcome }: RehearsalQuestion): Given | null {
  if (!answer || !errors) return null;
  return { values: answer.map(toDecimal), grade: { outcome, errors: errors.map(toDecimal) } };
}

type Columns = Pick<ScoreRow, 'yours' | 'right' | 'error'>;

/**
 * Returns the answer columns of a row. A verdict is a word and has no error; every other answer is
 * numbers with errors.
 */
function answerColumns(record: RehearsalQuestion): Columns {
  const { kind, answer, errors } = record;
  const write = (values: readonly Decimal[]) =>
    values.map((one) => valueWords(kind, one)).join(', ');
  const known = rightOf(record);
  const right = known ? write(known) : NONE;
  if (!answer || !errors) return { yours: NONE, right, error: NONE };
  const off = errors.map((error) => hundredths(toDecimal(error)));
  return {
    yours: write(answer.map(toDecimal)),
    right,
    error: kind === 'trust' ? NONE : off.map(errorWords).join(', '),
  };
}

function valueWords(kind: RehearsalQuestion['kind'], value: Decimal): string {
  if (kind === 'trust') return VERDICTS[Math.round(value / 10_000)] ?? NONE;
  return formatDecimal(hundredths(value), 1, kind === 'window');
}

function hundredths(value: Decimal): Decimal {
  return (Math.round(value / 100) * 100) as Decimal;
}

/**
 * Kinds that are graded by the tolerance in the settings. Balls and arrivals have tolerances of
 * their own.
 */
const BY_CURRENT: readonly Kind[] = ['number', 'window', 'in between'];

/**
 * Returns, for example, "Tolerance in diamonds: 0.1; rail ball 0.1–0.2". A verdict has no
 * tolerance.
 * @returns null if no answer has a tolerance
 */
export function gradedWords(questions: readonly RehearsalQuestion[]): string | null {
  const groups = [
    ['', BY_CURRENT] as const,
    ...KINDS.filter((kind) => !BY_CURRENT.includes(kind)).map(
      (kind) => [`${KIND_NAMES[kind].toLowerCase()} `, [kind]] as const,
    ),
  ];
  const parts = groups.flatMap(([name, kinds]) => {
    const own = questions.filter(({ kind }) => kinds.includes(kind));
    const widths = own.map(({ tolerance }) => tolerance).filter((width) => width > 0);
    return widths.length === 0 ? [] : [`${name}${rangeWords(widths)}`];
  });
  return parts.length === 0 ? null : `Tolerance in diamonds: ${parts.join('; ')}`;
}

/** Returns, for example, "0.1" or "0.1–0.2". */
function rangeWords(widths: readonly number[]): string {
  const ends = [Math.min(...widths), Math.max(...widths)];
  return [...new Set(ends.map((end) => formatDecimal(hundredths(toDecimal(end)))))].join('–');
}
