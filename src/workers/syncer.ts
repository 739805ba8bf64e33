/** The page's side of the sync worker. Each request gets its own answer. */

import type { Done, Joining, Status, Wish } from '../sync/index.ts';
import { Client, type Outcome, type Port } from './client.ts';

export type SyncAsk =
  | { readonly what: 'status' }
  | { readonly what: 'connect'; readonly wish: Wish }
  | { readonly what: 'sync' }
  | { readonly what: 'disconnect' };

export interface SyncRequest {
  readonly ask: SyncAsk;
  /** The name of the store to sync. */
  readonly store: string;
}

/** The worker's answer if nothing fails. */
export type SyncResult =
  | { readonly at: 'status'; readonly status: Status | null }
  | { readonly at: 'connected'; readonly joining: Joining }
  /** `done` is null if no folder is connected or if another tab is syncing. */
  | { readonly at: 'synced'; readonly done: Done | null }
  | { readonly at: 'disconnected' };

/** `say` is the message for the player. */
export type SyncAnswer = SyncResult | { readonly at: 'refused'; readonly say: string };

export interface Syncer {
  /** Sends a request to the worker. The promise never rejects. */
  readonly ask: (ask: SyncAsk) => Promise<SyncAnswer>;
}

/** @param store the name of the store to sync */
export function createSyncer(start: () => Port, store: string): Syncer {
  const client = new Client<SyncRequest, SyncResult>(start);
  return {
    ask: (ask) =>
      new Promise((resolve) => {
        const onOutcome = (outcome: Outcome<SyncResult>) => resolve(answerBy(outcome));
        client.send({ ask, store }, { onOutcome });
      }),
  };
}

function answerBy(outcome: Outcome<SyncResult>): SyncAnswer {
  if (outcome.at === 'answered') return outcome.answer;
  if (outcome.at === 'failed') return { at: 'refused', say: outcome.why };
  return { at: 'refused', say: `Syncing stopped: ${outcome.why}. It is tried again later.` };
}
