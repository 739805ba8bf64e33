/** A remark on a drawn line whose numbers differ from the model's. */

import { type Question, shiftFor } from '../../cards/index.ts';
import {
  type Chart,
  type Decimal,
  formatDecimal,
  type NumberSource,
  roundTo,
  toDecimal,
  toNumber,
  unshifted,
} from '../../charts/index.ts';
import type { Speed } from '../../table/index.ts';
import { routeOf } from './feedback-figure.ts';

/** A number at one speed, and the model's number at that speed, both rounded as printed. */
export interface Differing {
  readonly speed: Speed;
  readonly source: NumberSource;
  readonly printed: Decimal;
  readonly model: Decimal;
}

/**
 * Returns the remark on the given numbers.
 * @returns null if every number equals the model's
 */
export function measuredWords(numbers: readonly Differing[]): string | null {
  const others = numbers.filter(({ printed, model }) => printed !== model);
  if (others.length === 0) return null;
  const measured = others.every(({ source }) => source === 'measured');
  const models = others.map(({ speed, model }) => {
    const at = numbers.length === 1 ? '' : ` at ${speed}`;
    return `${formatDecimal(model)}${at}`;
  });
  return `${measured ? 'Measured' : 'From what is measured'}: the model has ${listed(models)} here; it is drawn as it plays on your table.`;
}

/** Returns, for example, "2.1 at soft, 2.3 at medium and 2.4 at firm". */
function listed(items: readonly string[]): string {
  return items.length === 1
    ? `${items[0]}`
    : `${items.slice(0, -1).join(', ')} and ${items.at(-1)}`;
}

/** Returns the remark on a question, for the speeds that are drawn; null if none is needed. */
export function measuredIn(
  chart: Chart,
  question: Question,
  speeds: readonly Speed[],
): string | null {
  const numbers = speeds.map((speed): Differing => {
    const { exact, source, step } = numberIn(chart, question, speed);
    const shift = shiftFor(chart, question, speed);
    const model = unshifted(chart, routeOf(chart, question), question.start, exact, shift);
    return { speed, source, printed: roundTo(exact, step), model: roundTo(model, step) };
  });
  return measuredWords(numbers);
}

/** Returns the number that is played, its source, and the step to which it is rounded. */
function numberIn(chart: Chart, question: Question, speed: Speed) {
  const step = chart.document.printStep;
  if ('line' in question) return { ...question.line.numbers[speed], step };
  const source: NumberSource = 'interpolated';
  if (question.kind === 'arrival') return { exact: toNumber(question.aim), source, step };
  return { exact: toNumber(question.truth[0]), source, step: toDecimal(0.01) };
}
