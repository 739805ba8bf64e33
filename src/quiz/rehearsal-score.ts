/** The score sheet of a finished rehearsal: what was asked, answered and right, and the totals. */

import { type Asker, type Card, type Question, questionOf } from '../cards/index.ts';
import {
  type Decimal,
  formatDecimal,
  isPatternId,
  minus,
  patternOf,
  toDecimal,
  VERDICTS,
} from '../charts/index.ts';
import type { Instance, RehearsalQuestion, Rehearsed } from '../scheduler/index.ts';
import type { Mirror } from '../table/index.ts';
import { KIND_NAMES } from './card-words.ts';
import type { Given, Shown } from './phase.ts';
import { ballPlaceWords } from './question-words.ts';
import { seedAt } from './rehearsal.ts';
import { instanceFor } from './session.ts';
import { errorWords } from './words.ts';

export interface Totals {
  readonly questions: number;
  /** Pocketed or dead center. */
  readonly made: number;
  /** All but those that were off. */
  readonly within: number;
  readonly ranOut: number;
  /** Of the answers given, milliseconds; null if none was. */
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

/** The middle one, or half-way between the middle two. */
function medianOf(values: readonly number[]): number | null {
  const sorted = [...values].sort((a, b) => a - b);
  const low = sorted[Math.floor((sorted.length - 1) / 2)];
  const high = sorted[Math.floor(sorted.length / 2)];
  return low === undefined || high === undefined ? null : (low + high) / 2;
}

export interface ScoreRow {
  /** From 1. */
  readonly number: number;
  readonly pattern: string;
  /** What was given and asked, in words. */
  readonly asked: string;
  readonly yours: string;
  readonly right: string;
  readonly error: string;
  readonly outcome: string;
  readonly seconds: string;
  /** The question as it stood, and what was answered; null if the chart would ask another now. */
  readonly again: { readonly shown: Shown; readonly given: Given | null } | null;
}

export interface ScoreContext {
  readonly asker: Asker;
  readonly cards: readonly Card[];
  /** The picture in which a card was shown as the question of a number, from 0. */
  readonly mirrorOf: (card: string, n: number) => Mirror;
}

const NONE = '–';

export function scoreRows(context: ScoreContext, event: Rehearsed): readonly ScoreRow[] {
  return event.questions.map((record, n) => {
    const question = questionAgain(context, event, record, n);
    const mirror = context.mirrorOf(record.card, n);
    return {
      number: n + 1,
      pattern: patternWords(record),
      asked: question ? askedAgain(question, mirror) : askedWords(record),
      ...answerColumns(record, question),
      outcome: record.ranOut ? 'ran out' : record.outcome,
      seconds: secondsWords(record.ms),
      again: question && { shown: { question, mirror }, given: givenOf(record) },
    };
  });
}

/** "12.3 s" */
export function secondsWords(ms: number): string {
  return `${(ms / 1000).toFixed(1)} s`;
}

/** The question as it was, from its card and its seed; null if that is another one by now. */
function questionAgain(
  { asker, cards }: ScoreContext,
  { seed }: Rehearsed,
  record: RehearsalQuestion,
  n: number,
): Question | null {
  const card = cards.find(({ id }) => id === record.card);
  if (!card || seed === undefined) return null;
  const question = questionOf(asker, card, seedAt(seed, n));
  return question && isSame(question, record) ? question : null;
}

function isSame(question: Question, { asked, answer, errors }: RehearsalQuestion): boolean {
  if (asked && !sameInstance(instanceFor(question), asked)) return false;
  if (!answer || !errors) return true;
  return question.truth.every((value, at) => value === truthAt(answer, errors, at));
}

function sameInstance(a: Instance, b: Instance): boolean {
  const parts = ['start', 'speed', 'aim', 'at', 'off'] as const;
  return parts.every((part) => a[part] === b[part]);
}

/** What was right when it was asked: the answer less its error. */
function truthAt(answer: readonly number[], errors: readonly number[], at: number): Decimal {
  return minus(toDecimal(answer[at] ?? 0), toDecimal(errors[at] ?? 0));
}

function givenOf({ answer, errors, outcome }: RehearsalQuestion): Given | null {
  if (!answer || !errors) return null;
  return { values: answer.map(toDecimal), grade: { outcome, errors: errors.map(toDecimal) } };
}

type Columns = Pick<ScoreRow, 'yours' | 'right' | 'error'>;

/** A verdict is a word, right or not; all else are numbers and how far they were off. */
function answerColumns(record: RehearsalQuestion, question: Question | null): Columns {
  const { kind, answer, errors } = record;
  const write = (values: readonly Decimal[]) =>
    values.map((one) => valueWords(kind, one)).join(', ');
  if (!answer || !errors) {
    return { yours: NONE, right: question ? write(question.truth) : NONE, error: NONE };
  }
  const off = errors.map((error) => hundredths(toDecimal(error)));
  return {
    yours: write(answer.map(toDecimal)),
    right: write(errors.map((_, at) => truthAt(answer, errors, at))),
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

function askedAgain(question: Question, mirror: Mirror): string {
  const from = `${KIND_NAMES[question.kind]} from ${formatDecimal(question.start)}`;
  switch (question.kind) {
    case 'arrival':
      return `${from}, aimed at ${formatDecimal(question.aim)}`;
    case 'rail ball':
    case 'off the rail':
      return `${from}, ${ballPlaceWords(question, mirror)}`;
    default:
      return from;
  }
}

/** From the record alone, where the chart no longer asks the same. */
function askedWords({ kind, asked }: RehearsalQuestion): string {
  const number = (value: number) => formatDecimal(hundredths(toDecimal(value)));
  const parts = [
    asked ? `${KIND_NAMES[kind]} from ${number(asked.start)}` : KIND_NAMES[kind],
    asked?.aim === undefined ? '' : `aimed at ${number(asked.aim)}`,
    asked?.at === undefined ? '' : `a ball at ${number(asked.at)}`,
  ];
  return parts.filter(Boolean).join(', ');
}

/** A card's id names its pattern, whether or not the card is still on the chart. */
function patternWords({ card }: RehearsalQuestion): string {
  const id = card.split('/').find(isPatternId);
  return id ? patternOf(id).name : NONE;
}
