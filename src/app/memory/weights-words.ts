/** Puts personal weights into words, for the Memory page. */

import type { Calibration, PersonalWeights } from '../../scheduler/index.ts';

/** Describes the result of a fit in a sentence or two. */
export function fitWords(result: PersonalWeights): string {
  if (result.verdict === 'too little') {
    const { answers, needed } = result;
    return `Too little to fit to: ${answersWords(answers)} so far that tell how long you remember, each on a later day than its card’s last. About ${needed} more are needed.`;
  }
  const { verdict, answers, before, after, fittedTo } = result;
  const change = `${lossWords(before)} → ${lossWords(after)}`;
  return verdict === 'better'
    ? `Fitted to ${answersWords(fittedTo)}. Better on ${answers} later ones it had not seen: ${change}.`
    : `Fitted to ${answersWords(fittedTo)}. Not better beyond chance on ${answers} later ones it had not seen: ${change}. What you use stays.`;
}

/** Says what the numbers in `fitWords` mean. */
export const LOSS_MEANS =
  'The numbers are the mean log loss of the forecasts: how much what you did surprised them. Less is better.';

/** Returns words such as "said 0.87, was 0.84". */
export function calibrationWords({ predicted, right }: Calibration): string {
  return predicted === null || right === null
    ? 'nothing was forecast'
    : `said ${predicted.toFixed(2)}, was ${right.toFixed(2)}`;
}

function lossWords({ logLoss }: Calibration): string {
  return logLoss === null ? '–' : logLoss.toFixed(3);
}

function answersWords(count: number): string {
  return count === 1 ? '1 answer' : `${count.toLocaleString('en-GB')} answers`;
}
