/**
 * A question: what is given, what is asked, and the one right answer. A line's card asks the same
 * question each time; a skill's card asks a fresh one each time it comes round.
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
 * `number`: start, target and speed are given, the aim-through diamond is asked.
 * `window`: the same line; asked is what soft takes off its medium number and what firm adds.
 * `arrival`: start and aim are given, asked is the diamond at which the ball arrives.
 * `in between`: the number of a start between two anchors.
 * `rail ball`: the number that kicks to a ball between two known targets.
 * `off the rail`: the same, for a ball that stands off the rail.
 * `trust`: does the line bank, is it thin, or is it a kick only.
 */
export type Kind = (typeof KINDS)[number];

/** Kinds that ask a fresh instance each time. */
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
  /** How far an answer may be off and still count, diamonds of what is asked. */
  readonly tolerance: Decimal;
}

export interface NumberQuestion extends QuestionBase {
  readonly kind: 'number';
  readonly line: Line;
  readonly truth: readonly [Decimal];
}

/** Truth: printed soft − medium, and printed firm − medium. */
export interface WindowQuestion extends QuestionBase {
  readonly kind: 'window';
  readonly line: Line;
  readonly truth: readonly [Decimal, Decimal];
}

/** Truth: the diamond, to a ten-thousandth, level with the ball as it touches the rail. */
export interface ArrivalQuestion extends QuestionBase {
  readonly kind: 'arrival';
  /** The number it is played with, in the chart's naming. */
  readonly aim: Decimal;
  /** The rail it arrives on, and how that is counted. */
  readonly count: Count;
  /** The known targets on either side. */
  readonly known: readonly [Known, Known];
  readonly truth: readonly [Decimal];
}

/** Truth: the number, to a ten-thousandth, of a start that no anchor has. */
export interface BetweenQuestion extends QuestionBase {
  readonly kind: 'in between';
  readonly anchors: readonly [AnchorNumber, AnchorNumber];
  readonly truth: readonly [Decimal];
}

/** Truth: the number, to a ten-thousandth, that kicks full at the ball. */
export interface RailBallQuestion extends QuestionBase {
  readonly kind: 'rail ball';
  readonly count: Count;
  /** The ball's own place on the rail. */
  readonly at: Decimal;
  readonly known: readonly [Known, Known];
  readonly truth: readonly [Decimal];
}

export interface OffRailQuestion extends QuestionBase {
  readonly kind: 'off the rail';
  readonly count: Count;
  /** The diamond the ball is level with. */
  readonly at: Decimal;
  /** How far its centre is from the nose, diamonds. */
  readonly off: Decimal;
  /** Where the way through the ball gets to the rail. */
  readonly onRail: Decimal;
  readonly known: readonly [Known, Known];
  readonly truth: readonly [Decimal];
}

/** Truth: the place of the verdict in the list of verdicts. */
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
