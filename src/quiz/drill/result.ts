/**
 * The result of a drill, in figures. The definitions are those of the NIST/SEMATECH e-Handbook of
 * Statistical Methods (section 1.3.5: measures of location and scale): the mean, the median, and the
 * standard deviation s = √(Σ(x − mean)² / (n − 1)); the standard error of a mean is s/√n.
 */

import type { Kind } from '../../cards/index.ts';
import type { Drilled } from '../../scheduler/index.ts';
import { type Run, specOf } from './run.ts';

/** How a player's calls scatter around the truth, diamonds. */
export interface Lean {
  /** The number of calls. */
  readonly n: number;
  /** Mean signed error: positive if the calls are high. */
  readonly bias: number;
  /** Standard deviation of the errors; null for a single call. */
  readonly spread: number | null;
  /** Standard error of the bias; null for a single call. */
  readonly standardError: number | null;
}

export interface Figures {
  readonly asked: number;
  /** Answers that were not off; "show me" is off. */
  readonly within: number;
  /** within / asked, 0–1; null if nothing was asked. */
  readonly share: number | null;
  /** Median over the questions that were answered, milliseconds; null if none was. */
  readonly medianMs: number | null;
}

/** @returns null if there are no errors */
export function leanOf(errors: readonly number[]): Lean | null {
  const n = errors.length;
  if (n === 0) return null;
  const bias = sum(errors) / n;
  if (n === 1) return { n, bias, spread: null, standardError: null };
  const spread = Math.sqrt(sum(errors.map((error) => (error - bias) ** 2)) / (n - 1));
  return { n, bias, spread, standardError: spread / Math.sqrt(n) };
}

export function figuresOf(questions: readonly Drilled[]): Figures {
  const asked = questions.length;
  const within = questions.filter(({ outcome }) => outcome !== 'off').length;
  const times = questions.filter(({ answer }) => answer !== null).map(({ ms }) => ms);
  return { asked, within, share: asked === 0 ? null : within / asked, medianMs: medianOf(times) };
}

/** The middle value, or the mean of the middle two; null without values. */
export function medianOf(values: readonly number[]): number | null {
  const sorted = [...values].sort((a, b) => a - b);
  const [low, high] = [sorted[(sorted.length - 1) >> 1], sorted[sorted.length >> 1]];
  return low === undefined || high === undefined ? null : (low + high) / 2;
}

/** Can the calls of a kind have a bias: a window has two numbers, a verdict none. */
export function leans(kind: Kind): boolean {
  return kind !== 'window' && kind !== 'trust';
}

/** The diamonds of an error: those of the aim, or those of the arrival. */
export type Basis = 'aim' | 'arrival';

export function basisOf(kind: Kind): Basis | null {
  if (!leans(kind)) return null;
  return kind === 'arrival' ? 'arrival' : 'aim';
}

/** The signed errors of one basis: a diamond of aim is not a diamond of arrival. */
export function errorsOf(questions: readonly Drilled[], basis: Basis): readonly number[] {
  return questions
    .filter(({ kind }) => basisOf(kind) === basis)
    .flatMap(({ errors }) => errors?.slice(0, 1) ?? []);
}

/** The basis by which runs are compared: the aim if the run asked for any, otherwise the arrival. */
export function mainBasis(questions: readonly Drilled[]): Basis {
  return questions.some(({ kind }) => basisOf(kind) === 'aim') ? 'aim' : 'arrival';
}

/** A player's earlier drills, for comparison. */
export interface Past {
  readonly runs: number;
  /** The count of a single earlier drill, which needs no mean. */
  readonly only: Pick<Figures, 'within' | 'asked'> | null;
  /** Do they have the same kinds of questions. */
  readonly sameKinds: boolean;
  /** Means over the runs; null if no run has such a figure. */
  readonly share: number | null;
  readonly bias: number | null;
  readonly spread: number | null;
}

/** The number of earlier drills to compare with. */
const LATEST = 10;
/** A drill with fewer answers does not count: the player only had a look. */
const LEAST = 5;

/**
 * The last ten drills begun before a run: those of the same kinds if there are any, otherwise all.
 * @param runs all runs, oldest first
 * @returns null if there is none
 */
export function pastOf(run: Run, runs: readonly Run[]): Past | null {
  const earlier = runs.filter((one) => one.at < run.at && one.questions.length >= LEAST);
  const same = earlier.filter((one) => kindsOf(one) === kindsOf(run));
  const sameKinds = same.length > 0;
  const latest = (sameKinds ? same : earlier).slice(-LATEST);
  const [first] = latest;
  if (!first) return null;
  const basis = mainBasis(run.questions);
  const leanings = latest.map(({ questions }) => leanOf(errorsOf(questions, basis)));
  return {
    runs: latest.length,
    only: latest.length === 1 ? figuresOf(first.questions) : null,
    sameKinds,
    share: meanOf(latest.map(({ questions }) => figuresOf(questions).share)),
    bias: meanOf(leanings.map((lean) => lean?.bias ?? null)),
    spread: meanOf(leanings.map((lean) => lean?.spread ?? null)),
  };
}

/** The chosen kinds, since a short run may not reach all of them; for an unreadable code, the asked ones. */
function kindsOf(run: Run): string {
  const kinds = specOf(run)?.kinds ?? run.questions.map(({ kind }) => kind);
  return [...new Set(kinds)].sort().join();
}

function meanOf(values: readonly (number | null)[]): number | null {
  const known = values.filter((value) => value !== null);
  return known.length === 0 ? null : sum(known) / known.length;
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
