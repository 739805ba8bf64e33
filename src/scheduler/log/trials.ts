/**
 * Counts how a player's answers came out, by what memory had predicted. The player's own numbers
 * are learned from these counts (choose/player.ts), so the order of answers makes no difference.
 */

import type { Kind } from '../../cards/index.ts';

/** Right answers and all answers, by bin. Bin 0 has the first answers of cards. */
export interface Tallies {
  readonly right: readonly number[];
  readonly all: readonly number[];
}

export interface Trials {
  readonly kinds: ReadonlyMap<Kind, Tallies>;
  /** Later answers by pattern: how many were right, and how many were expected to be. */
  readonly patterns: ReadonlyMap<string, PatternSums>;
  /** Study days with an answer; null if there are none. */
  readonly days: PracticeDays | null;
}

interface PatternSums {
  readonly right: number;
  readonly expected: number;
}

interface PracticeDays {
  readonly first: number;
  readonly last: number;
  /** How many days had an answer, from the first to the last. */
  readonly came: number;
}

type GrowingTallies = { readonly [K in keyof Tallies]: number[] };

/** Trials while a log is folded. */
export interface GrowingTrials extends Trials {
  readonly kinds: Map<Kind, GrowingTallies>;
  readonly patterns: Map<string, { right: number; expected: number }>;
  days: PracticeDays | null;
}

export function noTrials(): GrowingTrials {
  return { kinds: new Map(), patterns: new Map(), days: null };
}

export function copyTrials({ kinds, patterns, days }: Trials): GrowingTrials {
  const own = new Map<Kind, GrowingTallies>();
  for (const [kind, { right, all }] of kinds) own.set(kind, { right: [...right], all: [...all] });
  return {
    kinds: own,
    patterns: new Map([...patterns].map(([id, sums]) => [id, { ...sums }])),
    days,
  };
}

/**
 * Later answers are binned by the stability and by days / stability. A bin is a step of the
 * logarithm: the first class of stabilities ends at FIRST_CLASS days, each other is CLASS times as
 * wide; ratios begin at LEAST_RATIO and rise by the factor RATIO.
 */
const FIRST_CLASS = 2;
const CLASS = 3;
const CLASSES = 5;
const LEAST_RATIO = Math.exp(-4);
const RATIO = Math.exp(0.4);
const RATIOS = 20;

/** The stability and the days, both in days, in the middle of a bin from 1 on. */
export function middleOf(bin: number): { readonly stability: number; readonly days: number } {
  const stability = FIRST_CLASS * CLASS ** (Math.floor((bin - 1) / RATIOS) - 0.5);
  const ratio = LEAST_RATIO * RATIO ** (((bin - 1) % RATIOS) + 0.5);
  return { stability, days: ratio * stability };
}

function binOf(days: number, stability: number): number {
  const at = stepsTo(stability, FIRST_CLASS / CLASS, CLASS, CLASSES);
  return 1 + RATIOS * at + stepsTo(days / stability, LEAST_RATIO, RATIO, RATIOS);
}

/** How many whole factors a value is above the least, from 0 to below `count`. */
function stepsTo(value: number, least: number, factor: number, count: number): number {
  const steps = Math.floor(Math.log(value / least) / Math.log(factor));
  return Math.max(0, Math.min(count - 1, steps));
}

/** An answer, and what memory said before it. */
export interface Trial {
  readonly kind: Kind;
  /** Null if the card's id names none that this version knows. */
  readonly pattern: string | null;
  readonly right: boolean;
  /** Null for a card's first answer. */
  readonly before: {
    readonly stability: number;
    /** Whole days since the last answer, and the recall predicted after them. */
    readonly days: number;
    readonly recall: number;
  } | null;
}

/** Counts an answer. A second answer on one day says little about memory and does not count. */
export function countTrial(trials: GrowingTrials, { kind, pattern, right, before }: Trial): void {
  if (before && before.days < 1) return;
  const tallies = trials.kinds.get(kind) ?? { right: [], all: [] };
  trials.kinds.set(kind, tallies);
  const bin = before ? binOf(before.days, before.stability) : 0;
  for (let n = tallies.all.length; n <= bin; n++) {
    tallies.right.push(0);
    tallies.all.push(0);
  }
  tallies.right[bin] = (tallies.right[bin] as number) + Number(right);
  tallies.all[bin] = (tallies.all[bin] as number) + 1;
  if (!before || pattern === null) return;
  const sums = trials.patterns.get(pattern) ?? { right: 0, expected: 0 };
  trials.patterns.set(pattern, sums);
  sums.right += Number(right);
  sums.expected += before.recall;
}

/** Counts a day of practice. A log is folded in the order of its days. */
export function countDay(trials: GrowingTrials, day: number): void {
  const { days } = trials;
  if (!days) trials.days = { first: day, last: day, came: 1 };
  else if (day > days.last) trials.days = { ...days, last: day, came: days.came + 1 };
}
