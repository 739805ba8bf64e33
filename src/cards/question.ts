/**
 * A question: what is given, what is asked, and the one right answer. A line's card asks the same
 * question each time; a skill's card asks a new one at each turn.
 */

import type { AnchorNumber, Decimal, Line, PatternId, Verdict } from '../charts/index.ts';
import type { Count, Speed } from '../table/index.ts';
import type { Known } from './known.ts';

export const KINDS = [
  'number',
  'window',
  'arrival',
  'in between',
  'rail ball',
  'off the rail',
  'trust',
] as const;
/**
 * `number` gives start, target and speed, and asks for the diamond to aim through.
 * `window` asks what to subtract from the line's medium number for soft, and what to add for firm.
 * `arrival` gives start and aim, and asks for the diamond at which the ball arrives.
 * `in between` asks for the number of a start between two anchors.
 * `rail ball` asks for the number that kicks to a ball between two known targets.
 * `off the rail` asks the same for a ball off the rail.
 * `trust` asks whether the line is a bank, a thin bank, or only a kick.
 */
export type Kind = (typeof KINDS)[number];

/** The kinds that ask a new question at each turn. */
export const SKILL_KINDS = ['arrival', 'in between', 'rail ball', 'off the rail'] as const;
export type SkillKind = (typeof SKILL_KINDS)[number];
export type LineKind = Exclude<Kind, SkillKind>;

export function isSkill(kind: Kind): kind is SkillKind {
  return (SKILL_KINDS as readonly Kind[]).includes(kind);
}

interface QuestionBase {
  readonly pattern: PatternId;
  readonly start: Decimal;
  readonly speed: Speed;
  /** An answer is right if it is within this of the truth, in diamonds. */
  readonly tolerance: Decimal;
}

export interface NumberQuestion extends QuestionBase {
  readonly kind: 'number';
  readonly line: Line;
  readonly truth: readonly [Decimal];
}

/** The truth is two differences of printed numbers: soft − medium and firm − medium. */
export interface WindowQuestion extends QuestionBase {
  readonly kind: 'window';
  readonly line: Line;
  readonly truth: readonly [Decimal, Decimal];
}

/** The truth is the diamond level with the ball when it touches the rail, to a ten-thousandth. */
export interface ArrivalQuestion extends QuestionBase {
  readonly kind: 'arrival';
  /** The number to play, in the chart's naming. */
  readonly aim: Decimal;
  /** The count of the rail at which the ball arrives. */
  readonly count: Count;
  /** The known targets on either side. */
  readonly known: readonly [Known, Known];
  readonly truth: readonly [Decimal];
}

/** The truth is the number of a start that is not an anchor's, to a ten-thousandth. */
export interface BetweenQuestion extends QuestionBase {
  readonly kind: 'in between';
  readonly anchors: readonly [AnchorNumber, AnchorNumber];
  readonly truth: readonly [Decimal];
}

/** The truth is the number that hits the ball full, to a ten-thousandth. */
export interface RailBallQuestion extends QuestionBase {
  readonly kind: 'rail ball';
  readonly count: Count;
  /** The ball's place on the rail. */
  readonly at: Decimal;
  readonly known: readonly [Known, Known];
  readonly truth: readonly [Decimal];
}

export interface OffRailQuestion extends QuestionBase {
  readonly kind: 'off the rail';
  readonly count: Count;
  /** The diamond that the ball is level with. */
  readonly at: Decimal;
  /** The distance from the cushion's nose to the ball's center, in diamonds. */
  readonly off: Decimal;
  /** The diamond at which the path through the ball reaches the rail. */
  readonly onRail: Decimal;
  readonly known: readonly [Known, Known];
  readonly truth: readonly [Decimal];
}

/** The truth is the verdict's index in VERDICTS. */
export interface TrustQuestion extends QuestionBase {
  readonly kind: 'trust';
  readonly line: Line;
  readonly verdict: Verdict;
  readonly truth: readonly [Decimal];
}

export type Question =
  | NumberQuestion
  | WindowQuestion
  | ArrivalQuestion
  | BetweenQuestion
  | RailBallQuestion
  | OffRailQuestion
  | TrustQuestion;
