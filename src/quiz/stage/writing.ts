/** Writes what a player did, one event at a time, and says what went wrong if writing fails. */

import { notSaved } from './not-saved.ts';

export type Written<T> =
  | { readonly ok: true; readonly value: T }
  /** Says why it could not be written, and what the player can do. */
  | { readonly ok: false; readonly problem: string };

export interface Writer {
  /** Tells whether a write is under way. Until it ends, further presses are ignored. */
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

/** Never rejects. If a write fails, the result has a sentence for the player. */
export async function written<T>(work: () => Promise<T>): Promise<Written<T>> {
  try {
    return { ok: true, value: await work() };
  } catch (error) {
    return { ok: false, problem: notSaved(error) };
  }
}
