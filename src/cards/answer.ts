/** Typed answers: text in, numbers or a sentence the player can act on out. Nothing is ever lost. */

import {
  type Decimal,
  type DecimalError,
  formatDecimal,
  parseDecimal,
  patternOf,
  toDecimal,
} from '../charts/index.ts';
import { divisions } from '../table/index.ts';
import type { Card } from './card.ts';

export interface Field {
  readonly name: 'aim' | 'soft' | 'firm';
  /** May the number be below zero. */
  readonly signed: boolean;
  readonly least: Decimal;
  readonly most: Decimal;
}

/** A window is never wider than this many diamonds either way. */
const WIDEST = toDecimal(4);

/** The fields a card asks for, in order. */
export function fieldsOf(card: Card): readonly Field[] {
  if (card.kind === 'window') {
    const bounds = { signed: true, least: -WIDEST as Decimal, most: WIDEST };
    return [
      { name: 'soft', ...bounds },
      { name: 'firm', ...bounds },
    ];
  }
  const most = toDecimal(divisions(patternOf(card.pattern).aim.rail));
  return [{ name: 'aim', signed: false, least: toDecimal(0), most }];
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
 * Reads the typed fields of a card. The first field that cannot be read is named, with a sentence.
 * @param texts one text per field, as typed
 */
export function parseAnswer(card: Card, texts: readonly string[]): ParsedAnswer {
  const values: Decimal[] = [];
  for (const [index, field] of fieldsOf(card).entries()) {
    const parsed = parseDecimal(texts[index] ?? '');
    if (!parsed.ok) {
      return { ok: false, field: index, error: parsed.error, say: sentence(parsed.error, field) };
    }
    if (parsed.value < field.least || parsed.value > field.most) {
      return {
        ok: false,
        field: index,
        error: 'out of range',
        say: sentence('out of range', field),
      };
    }
    values.push(parsed.value);
  }
  return { ok: true, values };
}

function sentence(error: AnswerError, field: Field): string {
  switch (error) {
    case 'empty':
      return field.name === 'aim'
        ? 'Type the number first.'
        : `Type the number for ${field.name} first.`;
    case 'not a number':
      return 'That is not a number: digits and one decimal point or comma.';
    case 'too long':
      return 'That is too long for a diamond: eight characters at most.';
    case 'too fine':
      return 'Three decimals at most: nobody aims finer.';
    case 'out of range': {
      const least = formatDecimal(field.least, 0);
      const most = formatDecimal(field.most, 0);
      if (field.name === 'aim') return `That rail counts from ${least} to ${most}.`;
      return `A window goes from ${least} to ${formatDecimal(field.most, 0, true)}.`;
    }
  }
}
