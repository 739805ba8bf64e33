/** The part of the composition root that syncs: the sync worker and what this browser tells of. */

import type { ReadonlySignal } from '@preact/signals';
import type { Model, Screen } from './app/index.ts';
import { beginSyncing, type Syncing } from './app/state/syncing.ts';
import { createSyncer } from './workers/syncer.ts';

const FLAG = 'throughline-sync';

export function syncing(store: string, model: Model, screen: ReadonlySignal<Screen>): Syncing {
  return beginSyncing({
    syncer: createSyncer(
      () => new Worker(new URL('./workers/sync-worker.ts', import.meta.url), { type: 'module' }),
      store,
    ),
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
