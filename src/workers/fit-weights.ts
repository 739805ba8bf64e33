/** The page's side of the weights worker: a fit reports its progress and can be canceled. */

import type { PersonalWeights } from '../scheduler/index.ts';
import { Client, type Outcome, type Port } from './client.ts';

export interface FitRequest {
  /** Name of the store whose log is read. */
  readonly store: string;
  /** The weights in use, which fitted ones have to beat. */
  readonly weights: readonly number[];
}

/** Part of the work that is done, 0–1. */
export type FitProgress = number;

export type FitEnd =
  | { readonly at: 'done'; readonly result: PersonalWeights }
  | { readonly at: 'cancelled' }
  /** `say`: what the player reads. */
  | { readonly at: 'failed'; readonly say: string };

export interface Fitting {
  /** Never rejects. */
  readonly done: Promise<FitEnd>;
  readonly cancel: () => void;
}

/** The weights worker (weights-worker.ts), started anew for each fit: canceling a fit ends it. */
export interface WeightsWorker {
  readonly start: () => Port;
  /** Name of the store whose log it reads. */
  readonly store: string;
}

/**
 * Fits weights to the whole log.
 * @param weights those in use
 * @param onProgress never gets less than before
 */
export function fitWeights(
  { start, store }: WeightsWorker,
  weights: readonly number[],
  onProgress: (done: FitProgress) => void,
): Fitting {
  const client = new Client<FitRequest, PersonalWeights, FitProgress>(start);
  let end: (end: FitEnd) => void = () => undefined;
  const done = new Promise<FitEnd>((resolve) => {
    end = resolve;
  });
  const stop = (how: FitEnd): void => {
    client.stop();
    end(how);
  };
  let furthest = 0;
  client.send(
    { store, weights },
    {
      onOutcome: (outcome) => stop(endBy(outcome)),
      onProgress: (part) => {
        furthest = Math.max(furthest, part);
        onProgress(furthest);
      },
    },
  );
  return { done, cancel: () => stop({ at: 'cancelled' }) };
}

function endBy(outcome: Outcome<PersonalWeights>): FitEnd {
  switch (outcome.at) {
    case 'answered':
      return { at: 'done', result: outcome.answer };
    case 'failed':
      return { at: 'failed', say: `The weights could not be fitted: ${outcome.why}` };
    case 'stopped':
      return { at: 'failed', say: `The fit stopped: ${outcome.why}. Try it again.` };
  }
}
