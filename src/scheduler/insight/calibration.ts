/** Calibration: compares the predicted recall of cards with how often their answers were right. */

import type { Step } from '../log/fold.ts';
import type { MemoryModel } from '../memory/memory.ts';

/** The answers with a predicted recall between two edges. */
export interface CalibrationBin {
  /** The mean predicted recall, from 0 to 1. */
  readonly predicted: number;
  /** The share that was right, from 0 to 1. `low` and `high` are the ends of its 90 % interval. */
  readonly right: number;
  readonly low: number;
  readonly high: number;
  readonly count: number;
}

/** The calibration of a set of answers. If it is empty, all numbers except `answers` are null. */
export interface Calibration {
  /** The nonempty bins, in order of rising recall. */
  readonly bins: readonly CalibrationBin[];
  readonly answers: number;
  /** The mean predicted recall. `right` is the share that was right. */
  readonly predicted: number | null;
  readonly right: number | null;
  /** The mean of (predicted − right)² (Brier 1950). 0 is perfect; always predicting ½ gives 0.25. */
  readonly brier: number | null;
  /** The mean of −ln of the probability that was predicted for what happened, in nats. */
  readonly logLoss: number | null;
  /** The root mean square of predicted − right over the bins, weighted by their counts. */
  readonly binError: number | null;
}

/** Adds up answers one by one, so that a long log does not have to be in memory. */
export interface CalibrationSum {
  readonly add: (predicted: number, right: boolean) => void;
  readonly total: () => Calibration;
}

/**
 * The lower edges of the bins. They are fixed, so that two sets of weights can be compared. They are
 * finer near 1, where nearly all predictions are: with a target of 0.9, cards are asked at about 0.9.
 */
const EDGES = [0, 0.5, 0.6, 0.7, 0.8, 0.85, 0.9, 0.95] as const;

/** The 95th percentile of the standard normal distribution, for both ends of a 90 % interval. */
const Z = 1.6448536269514722;

/** The least probability that is used, because a failed prediction with certainty has infinite loss. */
const SUREST = 1e-7;

/**
 * Returns the calibration of a log's answers, with the weights that the memories in the steps were
 * computed with. An answer counts only if the card was asked, and on a later study day than its last
 * answer: minutes after an answer, memory is not tested. Answers that players judge themselves do not
 * count, because nobody saw them. Placement does not count, because it predicts nothing.
 */
export function calibrationOf(
  steps: Iterable<Step>,
  model: Pick<MemoryModel, 'recall'>,
): Calibration {
  const sum = sumCalibration();
  for (const step of steps) addStep(sum, step, model);
  return sum.total();
}

/** Adds a step to a sum if it tests a prediction. */
export function addStep(
  sum: CalibrationSum,
  { how, before, days, outcome }: Step,
  { recall }: Pick<MemoryModel, 'recall'>,
): void {
  if (how !== 'asked' || before === null || days < 1) return;
  sum.add(recall(before, days), outcome !== 'off');
}

export function sumCalibration(): CalibrationSum {
  const counts = EDGES.map(() => 0);
  const predictions = EDGES.map(() => 0);
  const rights = EDGES.map(() => 0);
  let squares = 0;
  let loss = 0;
  return {
    add: (predicted, right) => {
      const bin = binOf(predicted);
      counts[bin] = (counts[bin] ?? 0) + 1;
      predictions[bin] = (predictions[bin] ?? 0) + predicted;
      if (right) rights[bin] = (rights[bin] ?? 0) + 1;
      squares += (predicted - (right ? 1 : 0)) ** 2;
      loss += logLossOf(predicted, right);
    },
    total: () => {
      const bins = EDGES.flatMap((_, n) => binFrom(counts[n], predictions[n], rights[n]));
      const answers = total(counts);
      if (answers === 0) return NOTHING;
      return {
        bins,
        answers,
        predicted: total(predictions) / answers,
        right: total(rights) / answers,
        brier: squares / answers,
        logLoss: loss / answers,
        binError: binErrorOf(bins, answers),
      };
    },
  };
}

const NOTHING: Calibration = {
  bins: [],
  answers: 0,
  predicted: null,
  right: null,
  brier: null,
  logLoss: null,
  binError: null,
};

/** Returns −ln of the probability that was predicted for what happened, in nats. */
export function logLossOf(predicted: number, right: boolean): number {
  const chance = right ? predicted : 1 - predicted;
  return -Math.log(Math.max(SUREST, chance));
}

/** Returns an interval that stays within 0–1 and is valid even for few answers (Wilson 1927). */
export function wilson(right: number, count: number, z = Z): readonly [low: number, high: number] {
  const part = right / count;
  const z2 = (z * z) / count;
  const middle = (part + z2 / 2) / (1 + z2);
  const half = (z * Math.sqrt((part * (1 - part)) / count + z2 / (4 * count))) / (1 + z2);
  return [Math.max(0, middle - half), Math.min(1, middle + half)];
}

function binOf(predicted: number): number {
  let bin = EDGES.length - 1;
  while (bin > 0 && predicted < (EDGES[bin] ?? 0)) bin -= 1;
  return bin;
}

function binFrom(count = 0, predictions = 0, rights = 0): readonly CalibrationBin[] {
  if (count === 0) return [];
  const [low, high] = wilson(rights, count);
  return [{ predicted: predictions / count, right: rights / count, low, high, count }];
}

function binErrorOf(bins: readonly CalibrationBin[], answers: number): number {
  const squares = bins.map(({ predicted, right, count }) => count * (predicted - right) ** 2);
  return Math.sqrt(total(squares) / answers);
}

function total(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0);
}
