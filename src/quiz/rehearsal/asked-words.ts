/**
 * Words for the question in a row of the score sheet, understandable without the picture. They use
 * the rail names of the printed chart, and say at which end of a rail the count of its diamonds
 * begins.
 */

import { patternIn as idIn, type Question } from '../../cards/index.ts';
import {
  type Decimal,
  formatDecimal,
  type Pattern,
  patternOf,
  toDecimal,
} from '../../charts/index.ts';
import type { Instance, RehearsalQuestion } from '../../scheduler/index.ts';
import type { Count } from '../../table/index.ts';
import { instanceFor } from '../stage/questions.ts';
import { KIND_NAMES } from '../words/card.ts';
import { offWords } from '../words/question.ts';

/** Returns the pattern named in a card's id, even if the card is no longer on the chart. */
export function patternIn({ card }: Pick<RehearsalQuestion, 'card'>): Pattern | null {
  const id = idIn(card);
  return id ? patternOf(id) : null;
}

/**
 * Returns, for example, "Off the rail: from 1.0 on the head rail (from the left), ball 1.5 diamonds
 * off the foot rail, level with 2.2 (from the left)".
 * @param question the question as it was asked; null if the chart now asks a different one, so that
 * only the record can be used
 */
export function askedWords(record: RehearsalQuestion, question: Question | null): string {
  const kind = KIND_NAMES[record.kind];
  const asked = question ? instanceFor(question) : record.asked;
  if (!asked) return kind;
  const pattern = patternIn(record);
  // The record does not say which rail a ball was on.
  const rail = question && 'count' in question ? question.count : null;
  const parts = [
    `${kind}: from ${place(asked.start, pattern?.start ?? null)}`,
    ...aimedWords(asked, pattern?.aim ?? null, rail),
    ...ballWords(asked, rail),
  ];
  return parts.join(', ');
}

function aimedWords({ aim }: Instance, on: Count | null, to: Count | null): readonly string[] {
  if (aim === undefined) return [];
  return [`number ${place(aim, on)}`, ...(to ? [`arrives on ${railWords(to)}`] : [])];
}

function ballWords({ at, off }: Instance, on: Count | null): readonly string[] {
  if (at === undefined) return [];
  if (off === undefined) return [`ball at ${place(at, on)}`];
  const rail = on ? `the ${on.rail} rail` : 'its rail';
  const from = on ? ` (from the ${on.from})` : '';
  return [`ball ${offWords(toDecimal(off))} off ${rail}`, `level with ${number(at)}${from}`];
}

/** Returns, for example, "1.0 on the head rail (from the left)". */
function place(diamond: number, on: Count | null): string {
  return on ? `${number(diamond)} on ${railWords(on)}` : number(diamond);
}

function railWords({ rail, from }: Count): string {
  return `the ${rail} rail (from the ${from})`;
}

function number(diamond: number): string {
  return formatDecimal((Math.round(toDecimal(diamond) / 100) * 100) as Decimal);
}
