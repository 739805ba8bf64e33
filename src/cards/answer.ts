/**
 * Reads typed answers: turns text into numbers, or into a sentence that tells the player what to
 * change.
 */

import {
  type Decimal,
  type DecimalError,
  formatDecimal,
  parseDecimal,
  patternOf,
  toDecimal,
  VERDICTS,
} from '../charts/index.ts';
import { type Count, divisions } from '../table/index.ts';
import type { Question } from './question.ts';

export interface Field {
  readonly name: 'aim' | 'place' | 'soft' | 'firm' | 'verdict';
  /** Whether the number may be negative. */
  readonly signed: boolean;
  readonly least: Decimal;
  readonly most: Decimal;
  /** The rail on which the number counts diamonds; null if the number is not a place on a rail. */
  readonly count: Count | null;
}

/** In diamonds. No window is wider than this to either side. */
const WIDEST = toDecimal(4);

/** Returns the fields that a question asks for, in order. */
export function fieldsOf(question: Question): readonly Field[] {
  switch (question.kind) {
    case 'window': {
      const bounds = { signed: true, least: -WIDEST as Decimal, most: WIDEST, count: null };
      return [
        { name: 'soft', ...bounds },
        { name: 'firm', ...bounds },
      ];
    }
    case 'trust': {
      const most = toDecimal(VERDICTS.length - 1);
      return [{ name: 'verdict', signed: false, least: toDecimal(0), most, count: null }];
    }
    case 'arrival':
      return [onRail('place', question.count)];
    default:
      return [onRail('aim', patternOf(question.pattern).aim)];
  }
}

function onRail(name: 'aim' | 'place', count: Count): Field {
  const most = toDecimal(divisions(count.rail));
  return { name, signed: false, least: toDecimal(0), most, count };
}

export type AnswerError = DecimalError | 'out of range';

export type ParsedAnswer =
  | { readonly ok: true; readonly values: readonly Decimal[] }
  | {
      readonly ok: false;
      readonly field: number;
      readonly error: AnswerError;
      readonly say: string;
    };

/**
 * Reads the answer to a question. If a field cannot be read, reports the first such field with a
 * sentence.
 * @param texts one text per field: a number as typed, or a verdict's name
 */
export function parseAnswer(question: Question, texts: readonly string[]): ParsedAnswer {
  const values: Decimal[] = [];
  for (const [index, field] of fieldsOf(question).entries()) {
    const parsed = readField(field, texts[index] ?? '');
    if (!parsed.ok) {
      return { ok: false, field: index, error: parsed.error, say: sentence(parsed.error, field) };
    }
    values.push(parsed.value);
  }
  return { ok: true, values };
}

type ReadField = { ok: true; value: Decimal } | { ok: false; error: AnswerError };

function readField(field: Field, text: string): ReadField {
  if (field.name === 'verdict') {
    const index = (VERDICTS as readonly string[]).indexOf(text);
    return index < 0 ? { ok: false, error: 'empty' } : { ok: true, value: toDecimal(index) };
  }
  const parsed = parseDecimal(text);
  if (!parsed.ok) return parsed;
  const { value } = parsed;
  if (value < field.least || value > field.most) return { ok: false, error: 'out of range' };
  return { ok: true, value };
}

function sentence(error: AnswerError, field: Field): string {
  switch (error) {
    case 'empty':
      return emptySentence(field);
    case 'not a number':
      return 'That is not a number: digits and one decimal point or comma.';
    case 'too long':
      return 'That is too long for a diamond: eight characters at most.';
    case 'too fine':
      return 'Three decimals at most: nobody aims finer.';
    case 'out of range': {
      const least = formatDecimal(field.least, 0);
      const most = formatDecimal(field.most, 0);
      if (field.count) return `That rail counts from ${least} to ${most}.`;
      return `A window goes from ${least} to ${formatDecimal(field.most, 0, true)}.`;
    }
  }
}

function emptySentence({ name }: Field): string {
  if (name === 'verdict') return 'Choose one of the three first.';
  if (name === 'soft' || name === 'firm') return `Type the number for ${name} first.`;
  return 'Type the number first, or point at the rail.';
}
