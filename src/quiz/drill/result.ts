/**
 * The figures of a drill's result. The definitions follow the NIST/SEMATECH e-Handbook of
 * Statistical Methods (section 1.3.5, measures of location and scale): the mean, the median, and
 * the standard deviation s = √(Σ(x − mean)² / (n − 1)). The standard error of a mean is s/√n.
 */

import type { Kind } from '../../cards/index.ts';
import type { Drilled } from '../../scheduler/index.ts';
import { type Run, specOf } from './run.ts';

/** How a player's calls scatter around the right numbers, in diamonds. */
export interface Lean {
  /** The number of calls. */
  readonly n: number;
  /** Mean signed error; positive if the calls are too high on average. */
  readonly bias: number;
  /** Standard deviation of the errors; null for a single call. */
  readonly spread: number | null;
  /** Standard error of the bias; null for a single call. */
  readonly standardError: number | null;
}

export interface Figures {
  readonly asked: number;
  /** How many answers were not off. "Show me" counts as off. */
  readonly within: number;
  /** `within` divided by `asked`, from 0 to 1; null if nothing was asked. */
  readonly share: number | null;
  /**
   * Median time of the questions that were answered, in milliseconds; null if none was answered.
   */
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

/** Returns the middle value, or the mean of the two middle values; null if there are no values. */
export function medianOf(values: readonly number[]): number | null {
  const sorted = [...values].sort((a, b) => a - b);
  const [low, high] = [sorted[(sorted.length - 1) >> 1], sorted[sorted.length >> 1]];
  return low === undefined || high === undefined ? null : (low + high) / 2;
}

/**
 * Tells whether the calls of a kind can have a bias. A window has two numbers and a verdict has
 * none, so they cannot.
 */
export function leans(kind: Kind): boolean {
  return kind !== 'window' && kind !== 'trust';
}

/** What the diamonds of an error measure: the aim or the arrival. */
export type Basis = 'aim' | 'arrival';

export function basisOf(kind: Kind): Basis | null {
  if (!leans(kind)) return null;
  return kind === 'arrival' ? 'arrival' : 'aim';
}

/**
 * Returns the signed errors of one basis. Aim and arrival are kept apart because their diamonds are
 * not comparable.
 */
export function errorsOf(questions: readonly Drilled[], basis: Basis): readonly number[] {
  return questions
    .filter(({ kind }) => basisOf(kind) === basis)
    .flatMap(({ errors }) => errors?.slice(0, 1) ?? []);
}

/**
 * Returns the basis by which runs are compared: the aim if the run asked for any aim, otherwise the
 * arrival.
 */
export function mainBasis(questions: readonly Drilled[]): Basis {
  return questions.some(({ kind }) => basisOf(kind) === 'aim') ? 'aim' : 'arrival';
}

/** Averages of a player's earlier drills, for comparison. */
export interface Past {
  readonly runs: number;
  /**
   * The counts of the earlier drill if there is only one, so that no mean is needed; otherwise
   * null.
   */
  readonly only: Pick<Figures, 'within' | 'asked'> | null;
  /** Whether the earlier drills have the same kinds of questions. */
  readonly sameKinds: boolean;
  /** Mean over the earlier drills; null if none of them has this figure. */
  readonly share: number | null;
  readonly bias: number | null;
  readonly spread: number | null;
}

/** How many earlier drills to compare with, at most. */
const LATEST = 10;
/** A drill with fewer answers does not count, because the player only took a look at it. */
const LEAST = 5;

/**
 * Averages the last ten drills that began before a run. If there are drills of the same kinds, it
 * uses only those; otherwise it uses all.
 * @param runs all runs, oldest first
 * @returns null if there is no earlier drill
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

/**
 * Returns the kinds that the player chose, because a short run may not reach all of them. If the
 * code is unreadable, returns the kinds that were asked.
 */
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
