/**
 * Simulated players: what each truly remembers, after one of several models of memory, and how they
 * answer from it. A way to choose sees only the answers. All shares are our own; none comes from a
 * study.
 */

import { createDice, type Kind } from '../../src/cards/index.ts';
import type { Course } from '../../src/scheduler/choose/course.ts';
import {
  clippedWeights,
  DEFAULT_WEIGHTS,
  type Memory,
  memoryModel,
} from '../../src/scheduler/index.ts';

/** The models of memory, each with the source of its formula. */
export const TRUTHS = {
  fsrs: 'FSRS-6 with other weights (spread of 20 %)',
  activation: 'power-law activation, a logistic of it (Anderson & Schooler 1991)',
  'half-life': 'half-lives that double with each right answer, without a spacing effect',
  interference: 'FSRS-6, and each new line of a pattern disturbs its others for a time',
  spread: 'a remembered number whose spread grows with time; right within the tolerance',
  'weak between': 'FSRS-6, with in-between answers half as good',
  'always off': 'never a right answer',
} as const;
export type TruthName = keyof typeof TRUTHS;

export interface Truth {
  /** Days without practice, from day 0. */
  readonly missed: readonly boolean[];
  /** The chance that an item is recalled on a day. */
  readonly recall: (n: number, day: number) => number;
  /** Asks an item: whether the answer is right. What is remembered changes with it. */
  readonly ask: (n: number, day: number) => boolean;
  readonly dice: () => number;
}

/** The part of days without practice, and of known cards answered wrong all the same. */
const MISSED = 0.15;
const SLIPS = 0.03;
const SPREAD = 0.2;

/** A memory model by item: recall, and what an answer does. */
interface Head {
  readonly recall: (n: number, day: number) => number | null;
  readonly learn: (n: number, day: number, right: boolean) => void;
}

/** @param away days of a longer absence, from the first to before the last */
export function createTruth(
  name: TruthName,
  { items }: Course,
  seed: number,
  days: number,
  away: readonly [number, number] | null = null,
): Truth {
  const { next } = createDice(seed);
  const head = HEADS[name]?.(next, items) ?? createFsrs(next);
  const firstRight = 0.7 + 0.2 * next();
  const missed = Array.from(
    { length: days },
    (_, day) => next() < MISSED || (away !== null && day >= away[0] && day < away[1]),
  );
  const { next: dice } = createDice(seed ^ 0x5bd1e995);
  const part = (n: number): number => partOf(name, items[n]?.kind);
  return {
    missed,
    dice,
    recall: (n, day) => part(n) * (head.recall(n, day) ?? 0),
    ask: (n, day) => {
      const recall = head.recall(n, day);
      const chance = recall === null ? firstRight : recall * (1 - SLIPS);
      const right = dice() < part(n) * chance;
      head.learn(n, day, right);
      return right;
    },
  };
}

function partOf(name: TruthName, kind: Kind | undefined): number {
  if (name === 'always off') return 0;
  return name === 'weak between' && kind === 'in between' ? 0.5 : 1;
}

type HeadFor = (next: () => number, items: Course['items']) => Head;

const HEADS: Partial<Record<TruthName, HeadFor>> = {
  activation: createActivation,
  'half-life': createHalfLives,
  interference: createInterference,
  spread: createSpread,
};

function createFsrs(next: () => number): Head {
  const weights = [...DEFAULT_WEIGHTS];
  // First stabilities, stability after a miss, and the exponent of growth.
  for (const n of [0, 1, 2, 3, 11])
    weights[n] = (weights[n] as number) * Math.exp(SPREAD * normal(next));
  weights[8] = (weights[8] as number) + SPREAD * normal(next);
  const model = memoryModel(clippedWeights(weights));
  const known = new Map<number, { readonly memory: Memory; readonly day: number }>();
  return {
    recall: (n, day) => {
      const one = known.get(n);
      return one ? model.recall(one.memory, day - one.day) : null;
    },
    learn: (n, day, right) => {
      const one = known.get(n);
      const outcome = right ? 'pocketed' : 'off';
      const memory = model.remember(one?.memory ?? null, one ? day - one.day : 0, outcome);
      known.set(n, { memory, day });
    },
  };
}

/** Each new item of a pattern takes up to 15 % from the others, until they are asked again. */
function createInterference(next: () => number, items: Course['items']): Head {
  const fsrs = createFsrs(next);
  const disturbed = new Map<number, number>();
  return {
    recall: (n, day) => {
      const recall = fsrs.recall(n, day);
      return recall && recall * (1 - 0.15 * Math.min(1, (disturbed.get(n) ?? 0) / 4));
    },
    learn: (n, day, right) => {
      if (fsrs.recall(n, day) === null) {
        for (const [other, { pattern }] of items.entries())
          if (pattern === items[n]?.pattern) disturbed.set(other, (disturbed.get(other) ?? 0) + 1);
      }
      disturbed.set(n, 0);
      fsrs.learn(n, day, right);
    },
  };
}

function createActivation(next: () => number): Head {
  const decay = 0.35 + 0.15 * next();
  const threshold = -1.6 + 0.6 * next();
  const times = new Map<number, number[]>();
  return {
    recall: (n, day) => {
      const all = times.get(n);
      if (!all) return null;
      const sum = all.reduce((total, time) => total + Math.max(day - time, 0.3) ** -decay, 0);
      return 1 / (1 + Math.exp((threshold - Math.log(sum)) / 0.35));
    },
    learn: (n, day) => times.set(n, [...(times.get(n) ?? []), day]),
  };
}

function createHalfLives(next: () => number): Head {
  const growth = 1.6 + 0.8 * next();
  const first = 1.5 + 2.5 * next();
  const known = new Map<number, { readonly life: number; readonly day: number }>();
  return {
    recall: (n, day) => {
      const one = known.get(n);
      return one ? 2 ** (-Math.max(day - one.day, 0) / one.life) : null;
    },
    learn: (n, day, right) => {
      const one = known.get(n);
      if (!one) known.set(n, { life: right ? first : first / 2, day });
      else if (!right) known.set(n, { life: Math.max(1, one.life / 2), day });
      else known.set(n, { life: day > one.day ? one.life * growth : one.life, day });
    },
  };
}

/** Right within one tolerance: erf(1 / (s √2)), where the spread s grows as √(1 + t / h). */
function createSpread(next: () => number): Head {
  const least = 0.4 + 0.1 * next();
  const first = 1 + 2 * next();
  const known = new Map<number, { readonly time: number; readonly day: number }>();
  return {
    recall: (n, day) => {
      const one = known.get(n);
      if (!one) return null;
      const spread = least * Math.sqrt(1 + Math.max(0, day - one.day) / one.time);
      return within(1 / spread);
    },
    learn: (n, day, right) => {
      const one = known.get(n);
      const days = one ? Math.max(0, day - one.day) : 0;
      const grown = one ? one.time * (1.2 + 1.5 * (1 - Math.exp(-days / one.time))) : first;
      known.set(n, { time: right ? grown : Math.max(1, (one?.time ?? first) / 2), day });
    },
  };
}

/** The part of a normal distribution within z of its mean (Abramowitz & Stegun 1964, 7.1.26). */
function within(z: number): number {
  const x = z / Math.SQRT2;
  const t = 1 / (1 + 0.3275911 * x);
  const sum =
    t *
    (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429))));
  return 1 - sum * Math.exp(-x * x);
}

/** Box & Muller 1958. */
function normal(next: () => number): number {
  return Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next());
}
