/**
 * The proportional rule in steps that a player can repeat in the head, and how far it is from the
 * ball. The rule itself is in `cards`; these are its words.
 */

import { byProportion, type Known, placeByProportion, type Question } from '../../cards/index.ts';
import {
  type Decimal,
  formatDecimal,
  interpolate,
  minus,
  plus,
  size,
  toDecimal,
} from '../../charts/index.ts';
import { capital, inHundredths } from './quantities.ts';
import { knownName } from './question.ts';

export interface Working {
  readonly steps: readonly string[];
  /** The rule's result, in the unit of the question. */
  readonly rule: Decimal;
  /** Rule minus truth. */
  readonly miss: Decimal;
}

/** @returns null for a question that is not worked out between two known numbers */
export function workingOf(question: Question): Working | null {
  switch (question.kind) {
    case 'in between': {
      const { anchors, start } = question;
      const ends = anchors.map((anchor) => ({
        at: anchor.start,
        number: anchor.printed,
        name: `${formatDecimal(anchor.start)} is`,
      })) as [End, End];
      return between(ends, start, 'of start', interpolate([...anchors], start), question.truth[0]);
    }
    case 'rail ball': {
      const { known, at } = question;
      const rule = byProportion(known, at);
      return between(endsOf(known), at, 'along the rail', rule, question.truth[0]);
    }
    case 'off the rail': {
      const { known, onRail } = question;
      const rule = byProportion(known, onRail);
      const rest = between(endsOf(known), onRail, 'along the rail', rule, question.truth[0]);
      const first = `Picture the way on, through the ball to the rail: it gets there at ${formatDecimal(onRail)}.`;
      return rest && { ...rest, steps: [first, ...rest.steps] };
    }
    case 'arrival': {
      const { known, aim } = question;
      const ends = known.map((one) => ({
        at: one.printed,
        number: one.at,
        name: `${formatDecimal(one.printed)} goes to`,
      })) as [End, End];
      return between(ends, aim, 'of aim', placeByProportion(known, aim), question.truth[0]);
    }
    default:
      return null;
  }
}

/** One of the two ends the rule interpolates between: a place and its number. */
interface End {
  readonly at: Decimal;
  readonly number: Decimal;
  readonly name: string;
}

function endsOf(known: readonly [Known, Known]): [End, End] {
  return known.map((one) => ({
    at: one.at,
    number: one.printed,
    name: `${knownName(one)} is`,
  })) as [End, End];
}

function between(
  [first, last]: readonly [End, End],
  place: Decimal,
  what: string,
  rule: number | null,
  truth: Decimal,
): Working | null {
  if (rule === null) return null;
  const value = toDecimal(rule);
  const width = size(minus(last.at, first.at));
  const rise = minus(last.number, first.number);
  const gone = size(minus(place, first.at));
  // Rounded as shown, so that the sum agrees with the numbers the player reads.
  const part = inHundredths(minus(value, first.number));
  const sum = plus(first.number, part);
  return {
    rule: value,
    miss: minus(value, truth),
    steps: [
      `${capital(first.name)} ${formatDecimal(first.number)}; ${last.name} ${formatDecimal(last.number)}: ${formatDecimal(rise, 1, true)} over ${formatDecimal(width)} ${what}.`,
      `${formatDecimal(place)} is ${formatDecimal(gone)} on from ${formatDecimal(first.at)}; ${formatDecimal(gone)} out of ${formatDecimal(width)} of ${formatDecimal(rise, 1, true)} is ${formatDecimal(part, 1, true)}.`,
      `${formatDecimal(first.number)} and ${formatDecimal(part)} make ${formatDecimal(sum)}.`,
      ruleWords(minus(sum, inHundredths(truth))),
    ],
  };
}

/** The correction to the rule's value that the player remembers. */
function ruleWords(miss: Decimal): string {
  if (miss === 0) return 'The ball itself does the same: here the rule is right.';
  const by = formatDecimal(size(miss));
  return miss > 0
    ? `The ball itself wants less: here take ${by} off what the rule gives.`
    : `The ball itself wants more: here add ${by} to what the rule gives.`;
}
