/**
 * The proportional rule in steps that a player can do in the head, and how far its result is from
 * what the ball does. The rule itself is in `cards`; this file has its words.
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
  /** The result of the rule, in the unit of the question. */
  readonly rule: Decimal;
  /** The result of the rule minus the right number. */
  readonly miss: Decimal;
}

/**
 * Returns the rule worked out for a question.
 * @returns null if the question is not solved between two known numbers, or if the rule has no
 * result
 */
export function workingOf(question: Question): Working | null {
  switch (question.kind) {
    case 'in between': {
      const { anchors, start, truth } = question;
      const rule = interpolate([...anchors], start);
      return between(anchorEnds(anchors), start, 'of start', rule, truth[0]);
    }
    case 'rail ball':
      return alongRail(question.known, question.at, question.truth[0]);
    case 'off the rail': {
      const { known, onRail, truth } = question;
      const rest = alongRail(known, onRail, truth[0]);
      const first = `Extend the path past the ball to the rail: it gets there at ${formatDecimal(onRail)}.`;
      return rest && { ...rest, steps: [first, ...rest.steps] };
    }
    case 'arrival': {
      const { known, aim, truth } = question;
      return between(arrivalEnds(known), aim, 'of aim', placeByProportion(known, aim), truth[0]);
    }
    default:
      return null;
  }
}

/** One of the two ends between which the rule interpolates: a place and its number. */
interface End {
  readonly at: Decimal;
  readonly number: Decimal;
  readonly name: string;
}

type Two<T> = readonly [T, T];

function anchorEnds([first, last]: Extract<Question, { kind: 'in between' }>['anchors']): Two<End> {
  const endOf = ({ start, printed }: typeof first): End => ({
    at: start,
    number: printed,
    name: `${formatDecimal(start)} is`,
  });
  return [endOf(first), endOf(last)];
}

function alongRail(known: Two<Known>, at: Decimal, truth: Decimal): Working | null {
  const endOf = (one: Known): End => ({
    at: one.at,
    number: one.printed,
    name: `${knownName(one)} is`,
  });
  const ends = [endOf(known[0]), endOf(known[1])] as const;
  return between(ends, at, 'along the rail', byProportion(known, at), truth);
}

/**
 * Returns the same ends with place and number swapped, because an arrival question goes from a
 * number to its place.
 */
function arrivalEnds([first, last]: Two<Known>): Two<End> {
  const endOf = ({ at, printed }: Known): End => ({
    at: printed,
    number: at,
    name: `${formatDecimal(printed)} goes to`,
  });
  return [endOf(first), endOf(last)];
}

function between(
  [first, last]: Two<End>,
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
  // Rounded as shown, so that the sum agrees with the numbers that the player reads.
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

/** Says how the player should correct the result of the rule. */
function ruleWords(miss: Decimal): string {
  if (miss === 0) return 'On this table the rule is right here.';
  const by = formatDecimal(size(miss));
  return miss > 0 ? `On this table it takes ${by} less.` : `On this table it takes ${by} more.`;
}
