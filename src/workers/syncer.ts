/** The page's side of the sync worker: what it is asked, one message out and one back. */

import type { Done, Joining, Status, Wish } from '../sync/index.ts';

export type SyncAsk =
  | { readonly what: 'status' }
  | { readonly what: 'connect'; readonly wish: Wish }
  | { readonly what: 'sync' }
  | { readonly what: 'disconnect' };

/** What the worker is sent: the name of the store that is synced as well. */
export type SyncRequest = SyncAsk & { readonly id: number; readonly store: string };

export type SyncAnswer =
  | { readonly at: 'status'; readonly status: Status | null }
  | { readonly at: 'connected'; readonly joining: Joining }
  /** Null if no folder is connected, or another tab is at it. */
  | { readonly at: 'synced'; readonly done: Done | null }
  | { readonly at: 'disconnected' }
  /** `say`: what the player is told. */
  | { readonly at: 'refused'; readonly say: string };

export type SyncReply = SyncAnswer & { readonly id: number };

/** What is needed of a Worker. */
export interface SyncPort {
  readonly postMessage: (request: SyncAsk & { readonly id: number }) => void;
  readonly listen: (onReply: (reply: SyncReply) => void, onError: (reason: string) => void) => void;
}

export interface Syncer {
  /** Never rejects. */
  readonly ask: (ask: SyncAsk) => Promise<SyncAnswer>;
}

export function createSyncer(port: SyncPort): Syncer {
  const waiting = new Map<number, (answer: SyncAnswer) => void>();
  let last = 0;
  const settle = (id: number, answer: SyncAnswer): void => {
    waiting.get(id)?.(answer);
    waiting.delete(id);
  };
  port.listen(
    ({ id, ...answer }) => settle(id, answer),
    (reason) => {
      const say = `Syncing stopped: ${reason}. It is tried again later.`;
      for (const id of [...waiting.keys()]) settle(id, { at: 'refused', say });
    },
  );
  return {
    ask: (ask) =>
      new Promise((resolve) => {
        last += 1;
        waiting.set(last, resolve);
        port.postMessage({ ...ask, id: last });
      }),
  };
}
