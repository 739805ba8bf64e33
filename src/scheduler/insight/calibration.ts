/** Calibration: how often cards were right for which a given recall had been predicted. */

import type { Step } from '../log/fold.ts';
import type { MemoryModel } from '../memory/memory.ts';

/** Answers whose predicted recall lay between two edges. */
export interface CalibrationBin {
  /** Mean predicted recall, 0–1. */
  readonly predicted: number;
  /** The part that was right, and its 90 % interval. */
  readonly right: number;
  readonly low: number;
  readonly high: number;
  readonly count: number;
}

/** Without answers, all numbers but `answers` are null. */
export interface Calibration {
  /** By rising recall; none is empty. */
  readonly bins: readonly CalibrationBin[];
  readonly answers: number;
  /** Mean predicted recall, and the part that was right. */
  readonly predicted: number | null;
  readonly right: number | null;
  /** Mean of (predicted − right)²: Brier 1950. 0 is perfect; always saying ½ has 0.25. */
  readonly brier: number | null;
  /** Mean −ln of the probability predicted for what happened, nats. */
  readonly logLoss: number | null;
  /** Root mean square of predicted − right over the bins, by their counts. */
  readonly binError: number | null;
}

/** Sums up answers one by one, so that a long log need not be held in memory. */
export interface CalibrationSum {
  readonly add: (predicted: number, right: boolean) => void;
  readonly total: () => Calibration;
}

/**
 * Lower edges of the bins. Fixed, so that two sets of weights can be compared, and finer near 1,
 * where nearly all predictions are: a target of 0.9 asks cards at about 0.9.
 */
const EDGES = [0, 0.5, 0.6, 0.7, 0.8, 0.85, 0.9, 0.95] as const;

/** 95th percentile of the standard normal distribution: both ends of a 90 % interval. */
const Z = 1.6448536269514722;

/** Predictions are limited to this certainty: a full certainty that fails has an infinite loss. */
const SUREST = 1e-7;

/**
 * The predictions of a log's answers, by the weights that counted the memories in the steps. Only
 * cards asked on a later study-day than their last answer count: minutes after an answer memory is
 * not tested, nobody saw what players judge themselves, and placement predicts nothing.
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

/** −ln of the probability predicted for what happened, nats. */
export function logLossOf(predicted: number, right: boolean): number {
  const chance = right ? predicted : 1 - predicted;
  return -Math.log(Math.max(SUREST, chance));
}

/** Wilson 1927: an interval that stays within 0–1 and holds for few answers, too. */
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
