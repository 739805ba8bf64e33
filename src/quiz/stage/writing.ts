/** Writes what a player did, one thing at a time, and says what went wrong. */

import { notSaved } from './not-saved.ts';

export type Written<T> =
  | { readonly ok: true; readonly value: T }
  /** Why it could not be written, and what to do. */
  | { readonly ok: false; readonly problem: string };

export interface Writer {
  /** Is a write under way: a second press meanwhile does not count. */
  readonly isBusy: () => boolean;
  readonly write: <T>(work: () => Promise<T>) => Promise<Written<T>>;
}

export function createWriter(): Writer {
  let busy = false;
  return {
    isBusy: () => busy,
    write: async (work) => {
      if (busy) throw new Error('one write at a time');
      busy = true;
      try {
        return await written(work);
      } finally {
        busy = false;
      }
    },
  };
}

/** Never rejects: a failed write becomes a sentence for the player. */
export async function written<T>(work: () => Promise<T>): Promise<Written<T>> {
  try {
    return { ok: true, value: await work() };
  } catch (error) {
    return { ok: false, problem: notSaved(error) };
  }
}
