/** The part of the composition root that syncs: the sync worker and what this browser tells of. */

import type { ReadonlySignal } from '@preact/signals';
import type { Model, Screen } from './app/index.ts';
import { beginSyncing, type Syncing } from './app/state/syncing.ts';
import { createSyncer, type SyncReply, type SyncRequest } from './workers/syncer.ts';

const FLAG = 'throughline-sync';

export function syncing(store: string, model: Model, screen: ReadonlySignal<Screen>): Syncing {
  return beginSyncing({
    syncer: createSyncer(portFor(store)),
    model,
    screen,
    flag: {
      get: () => flagged((kept) => kept.getItem(FLAG)) !== null,
      set: (isSet) => {
        flagged((kept) => (isSet ? kept.setItem(FLAG, 'connected') : kept.removeItem(FLAG)));
      },
    },
    listen: (onChance) => {
      window.addEventListener('online', onChance);
      document.addEventListener('visibilitychange', () => {
        if (document.hidden) onChance();
      });
    },
    later: (work, ms) => {
      setTimeout(work, ms);
    },
  });
}

/** Without it a page asks the worker only in Settings. */
function flagged<T>(use: (kept: Storage) => T): T | null {
  try {
    return use(localStorage);
  } catch (error) {
    console.error('Not to be had here:', error);
    return null;
  }
}

/** The worker is begun with the first question to it. */
function portFor(store: string): Parameters<typeof createSyncer>[0] {
  let begun: Worker | null = null;
  let hear: (reply: SyncReply) => void = () => undefined;
  let fail: (reason: string) => void = () => undefined;
  const worker = (): Worker => {
    if (begun) return begun;
    begun = new Worker(new URL('./workers/sync-worker.ts', import.meta.url), { type: 'module' });
    begun.addEventListener('message', ({ data }: MessageEvent<SyncReply>) => hear(data));
    begun.addEventListener('error', ({ message }) => {
      begun = null;
      fail(message || 'it could not be loaded');
    });
    return begun;
  };
  return {
    postMessage: (ask) => worker().postMessage({ ...ask, store } satisfies SyncRequest),
    listen: (onReply, onError) => {
      hear = onReply;
      fail = onError;
    },
  };
}
