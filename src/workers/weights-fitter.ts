/** The page's side of the weights worker: a fit is begun, tells how far it is, and can be stopped. */

import type { PersonalWeights } from '../scheduler/index.ts';

/** What the worker is sent. */
export interface WeightsRequest {
  /** Name of the store whose log is read. */
  readonly store: string;
  readonly weights: readonly number[];
}

export type WeightsReply =
  /** @param done part of the work, 0–1. @param loss mean log loss so far, nats */
  | { readonly at: 'under way'; readonly done: number; readonly loss: number }
  | { readonly at: 'done'; readonly result: PersonalWeights }
  | { readonly at: 'failed'; readonly why: string };

/** What is needed of a Worker. A new one for each fit: stopping one ends it. */
export interface WeightsPort {
  /** @param weights those in use, against which fitted ones are tried */
  readonly begin: (weights: readonly number[]) => void;
  readonly listen: (
    onReply: (reply: WeightsReply) => void,
    onError: (reason: string) => void,
  ) => void;
  readonly terminate: () => void;
}

export type FitEnd =
  | { readonly at: 'done'; readonly result: PersonalWeights }
  | { readonly at: 'cancelled' }
  | { readonly at: 'failed'; readonly say: string };

export interface Fitting {
  /** Never rejects. */
  readonly done: Promise<FitEnd>;
  readonly cancel: () => void;
}

export interface WeightsFitter {
  /** @param onProgress part of the work, 0–1, never less than before */
  readonly fit: (weights: readonly number[], onProgress: (done: number) => void) => Fitting;
}

/** @param start starts a worker */
export function createWeightsFitter(start: () => WeightsPort): WeightsFitter {
  return { fit: (weights, onProgress) => begun(start(), weights, onProgress) };
}

function begun(
  port: WeightsPort,
  weights: readonly number[],
  onProgress: (done: number) => void,
): Fitting {
  let end: (how: FitEnd) => void = () => undefined;
  let isOver = false;
  let furthest = 0;
  const done = new Promise<FitEnd>((resolve) => {
    end = (how) => {
      isOver = true;
      port.terminate();
      resolve(how);
    };
  });
  const progress = (part: number): void => {
    if (isOver) return;
    furthest = Math.max(furthest, part);
    onProgress(furthest);
  };
  port.listen(
    (reply) => {
      if (reply.at === 'done') end(reply);
      else if (reply.at === 'under way') progress(reply.done);
      else end({ at: 'failed', say: `The weights could not be fitted: ${reply.why}` });
    },
    (reason) => end({ at: 'failed', say: `The fit stopped: ${reason}. Try it again.` }),
  );
  port.begin(weights);
  return { done, cancel: () => end({ at: 'cancelled' }) };
}
