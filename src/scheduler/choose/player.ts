/**
 * A player's own memory in a few numbers: how long it lasts compared with FSRS, how it fades in the
 * end, how often each kind is right at first and at best, how well each pattern keeps, and how many
 * days are missed. Each has a prior, so a new player counts as an ordinary one. They come in closed
 * sums over a grid from counts, so the order of answers makes no difference.
 */

import { KINDS, type Kind } from '../../cards/index.ts';
import { middleOf, type Tallies, type Trials } from '../log/trials.ts';
import type { Kernel } from '../memory/kernel.ts';
import { FIRST_RIGHT, SLIPS } from './choose.ts';

/** One way in which a player's memory may fade. */
export interface Fading {
  /** Memory lasts this many times as long as FSRS says. */
  readonly factor: number;
  /** The part of forgetting that is exponential instead of a power of time, 0–1. */
  readonly tail: number;
  readonly chance: number;
}

/** A part, and the number of observations that it is worth. */
export interface Part {
  readonly part: number;
  readonly worth: number;
}

export interface Player {
  /** Their chances sum to 1. */
  readonly fadings: readonly Fading[];
  /** By kind and fading, the chances of each of CEILINGS. */
  readonly ceilings: Readonly<Record<Kind, readonly (readonly number[])[]>>;
  /** First answers that are right. */
  readonly first: Readonly<Record<Kind, Part>>;
  /** How well a pattern keeps, compared with all; 1 without answers. */
  readonly pattern: (pattern: string) => number;
  /** Days without practice. */
  readonly missed: Part;
  /** How far recall differs from every fading, as a root mean square over the answers, 0–1. */
  readonly misfit: number;
}

/** The part that is known of cards that memory says are known for certain. */
export const CEILINGS: readonly number[] = [1, 0.93, 0.85, 0.75, 0.62, 0.5, 0.35, 0.2, 0.08, 0];

/**
 * The part of answers that a player who knows nothing gets right by always giving the same one. On
 * the demo chart, 52 of 87 verdicts are "banks" and 35 of 87 windows are the same.
 */
const GUESSED: Readonly<Partial<Record<Kind, number>>> = { trust: 52 / 87, window: 35 / 87 };

/** Values of each number with their chances before any answer; ours, tried in the bench. */
const FACTORS = Array.from({ length: 17 }, (_, n) => {
  const log = 0.2 * n - 2;
  return [Math.exp(log), normalDensity(log, 0.2) + 0.02 * normalDensity(log, 0.8)] as const;
});
const TAILS = [
  [0, 0.9],
  [0.6, 0.1],
] as const;
const SOUND = 0.99;
const FIRST_WORTH = 8;
const KIND_WORTH = 6;
const PATTERN_WORTH = 40;
const MISSED: Part = { part: 0.15, worth: 8 };

const CEILING_PRIOR = CEILINGS.map((_, n) =>
  n === 0 ? SOUND : (1 - SOUND) / (CEILINGS.length - 1),
);

/** @param today days before it are over */
export function playerOf(trials: Trials, kernel: Kernel, today: number): Player {
  const fadings = TAILS.flatMap(([tail, a]) =>
    FACTORS.map(([factor, b]) => ({ factor, tail, prior: a * b })),
  );
  const logs = fadings.map(({ prior }) => Math.log(prior));
  const ceilings = recordOf((kind) => {
    const tried = trials.kinds.get(kind);
    return fadings.map((fading, n) => {
      const { chances, log } = ceilingsOf(tried, kind, fading, kernel);
      logs[n] = (logs[n] as number) + log;
      return chances;
    });
  });
  const chances = normalized(exponentials(logs).values);
  return {
    fadings: fadings.map((one, n) => ({ ...one, chance: chances[n] as number })),
    ceilings,
    first: firstRight(trials),
    pattern: patternsOf(trials),
    missed: missedPart(trials, today),
    misfit: misfitOf(trials, kernel, fadings, ceilings, chances),
  };
}

/**
 * Compares the answers with the likeliest fading and ceilings, bin by bin over all kinds. What chance
 * alone would make of the answers is taken off.
 */
function misfitOf(
  trials: Trials,
  kernel: Kernel,
  fadings: readonly Omit<Fading, 'chance'>[],
  ceilings: Player['ceilings'],
  chances: readonly number[],
): number {
  const best = indexOfMost(chances);
  const bins = new Map<
    number,
    { right: number; expected: number; variance: number; all: number }
  >();
  for (const [kind, tallies] of trials.kinds) {
    const ceiling = CEILINGS[indexOfMost(ceilings[kind][best] ?? [])] ?? 1;
    for (let bin = 1; bin < tallies.all.length; bin++) {
      const [right, all] = talliesIn(tallies, bin);
      const { stability, days } = middleOf(bin);
      const recall = fadedTo(kernel, fadings[best] as Fading, stability, days);
      const chance = rightChance(kind, ceiling * recall);
      const sums = bins.get(bin) ?? { right: 0, expected: 0, variance: 0, all: 0 };
      bins.set(bin, {
        right: sums.right + right,
        expected: sums.expected + all * chance,
        variance: sums.variance + all * chance * (1 - chance),
        all: sums.all + all,
      });
    }
  }
  const used = [...bins.values()].filter(({ all }) => all > 0);
  const beyond = used.map((one) => ((one.right - one.expected) ** 2 - one.variance) / one.all);
  const answers = sumOf(used.map(({ all }) => all));
  return answers === 0 ? 0 : Math.sqrt(Math.max(0, sumOf(beyond) / answers));
}

function indexOfMost(values: readonly number[]): number {
  return values.indexOf(Math.max(...values));
}

export function recordOf<T>(of: (kind: Kind) => T): Record<Kind, T> {
  return Object.fromEntries(KINDS.map((kind) => [kind, of(kind)])) as Record<Kind, T>;
}

/** Recall as it fades for this player: 0.9 after their own stability. */
export function fadedTo(
  { recall }: Kernel,
  { factor, tail }: Omit<Fading, 'chance'>,
  stability: number,
  days: number,
): number {
  const own = factor * stability;
  const power = (1 - tail) * recall(own, days);
  return tail === 0 ? power : power + tail * 0.9 ** (days / own);
}

/** The chance of a right answer to a card that is known with this chance: a slip is no gap. */
export function rightChance(kind: Kind, known: number): number {
  const guessed = GUESSED[kind] ?? 0;
  return guessed + (1 - guessed) * (1 - SLIPS) * known;
}

/** The chances of a kind's ceilings, and the logarithm of the evidence for the fading. */
function ceilingsOf(
  trials: Tallies | undefined,
  kind: Kind,
  fading: Omit<Fading, 'chance'>,
  kernel: Kernel,
) {
  const logs = CEILING_PRIOR.map(Math.log);
  for (let bin = 1; bin < (trials?.all.length ?? 0); bin++) {
    const [right, all] = talliesIn(trials, bin);
    if (all === 0) continue;
    const { stability, days } = middleOf(bin);
    const recall = fadedTo(kernel, fading, stability, days);
    for (const [n, ceiling] of CEILINGS.entries()) {
      const chance = Math.max(0.001, rightChance(kind, ceiling * recall));
      const found = right * Math.log(chance) + (all - right) * Math.log(1 - chance);
      logs[n] = (logs[n] as number) + found;
    }
  }
  const { values, most } = exponentials(logs);
  return { chances: normalized(values), log: most + Math.log(sumOf(values)) };
}

/** Each kind is shrunken to all kinds, and all kinds to the prior. */
function firstRight({ kinds }: Trials): Player['first'] {
  const all = [...kinds.values()].map((tallies) => talliesIn(tallies, 0));
  const right = sumOf(all.map(([one]) => one)) + FIRST_WORTH * FIRST_RIGHT;
  const overall = right / (sumOf(all.map(([, one]) => one)) + FIRST_WORTH);
  return recordOf((kind) => {
    const [own, asked] = talliesIn(kinds.get(kind), 0);
    const worth = asked + KIND_WORTH;
    return { part: (own + KIND_WORTH * overall) / worth, worth };
  });
}

/** Right answers and all answers of a bin. */
function talliesIn(tallies: Tallies | undefined, bin: number): readonly [number, number] {
  return [tallies?.right[bin] ?? 0, tallies?.all[bin] ?? 0];
}

/** Right answers over expected ones, compared with all patterns and shrunken to 1. */
function patternsOf({ patterns }: Trials): Player['pattern'] {
  const all = [...patterns.values()];
  const expected = sumOf(all.map((one) => one.expected)) + PATTERN_WORTH;
  const overall = (sumOf(all.map(({ right }) => right)) + PATTERN_WORTH) / expected;
  return (pattern) => {
    const own = patterns.get(pattern) ?? { right: 0, expected: 0 };
    return (own.right / overall + PATTERN_WORTH) / (own.expected + PATTERN_WORTH);
  };
}

/** Today is not over, so it counts neither way. */
function missedPart({ days }: Trials, today: number): Part {
  if (!days) return MISSED;
  const span = Math.max(0, today - days.first);
  const came = days.came - (days.last >= today ? 1 : 0);
  const worth = span + MISSED.worth;
  return { part: (Math.max(0, span - came) + MISSED.part * MISSED.worth) / worth, worth };
}

function normalDensity(value: number, spread: number): number {
  return Math.exp(-((value / spread) ** 2) / 2) / spread;
}

/** Exponentials of logarithms, divided by the largest so that none overflows. */
function exponentials(logs: readonly number[]) {
  const most = Math.max(...logs);
  return { values: logs.map((one) => Math.exp(one - most)), most };
}

function normalized(values: readonly number[]): readonly number[] {
  const total = sumOf(values);
  return values.map((one) => one / total);
}

export function sumOf(values: readonly number[]): number {
  return values.reduce((sum, one) => sum + one, 0);
}
