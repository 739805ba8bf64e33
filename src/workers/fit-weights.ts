/** The page's side of the weights worker. A fit reports its progress and can be canceled. */

import type { PersonalWeights } from '../scheduler/index.ts';
import { Client, type Outcome, type Port } from './client.ts';

export interface FitRequest {
  /** The name of the store from which the log is read. */
  readonly store: string;
  /** The weights now in use. The fitted weights have to beat them. */
  readonly weights: readonly number[];
}

/** How much of the work is done, from 0 to 1. */
export type FitProgress = number;

export type FitEnd =
  | { readonly at: 'done'; readonly result: PersonalWeights }
  | { readonly at: 'cancelled' }
  /** `say` is the message for the player. */
  | { readonly at: 'failed'; readonly say: string };

export interface Fitting {
  /** Resolves when the fit ends. Never rejects. */
  readonly done: Promise<FitEnd>;
  readonly cancel: () => void;
}

/** Starts the weights worker (weights-worker.ts). Each fit has its own worker; canceling ends it. */
export interface WeightsWorker {
  readonly start: () => Port;
  /** The name of the store from which the worker reads the log. */
  readonly store: string;
}

/**
 * Fits weights to the whole log.
 * @param weights the weights now in use
 * @param onProgress receives the progress, which never goes down
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
