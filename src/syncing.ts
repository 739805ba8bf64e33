/** The part of the composition root that syncs: the sync worker and this browser's events. */

import type { ReadonlySignal } from '@preact/signals';
import type { Model, Screen } from './app/index.ts';
import { beginSyncing, type Syncing } from './app/state/syncing.ts';
import { createSyncer } from './workers/syncer.ts';

const FLAG = 'throughline-sync';

export function syncing(
  store: string,
  model: Pick<Model, 'refresh'>,
  screen: ReadonlySignal<Screen>,
): Syncing {
  return beginSyncing({
    syncer: createSyncer(
      () => new Worker(new URL('./workers/sync-worker.ts', import.meta.url), { type: 'module' }),
      store,
    ),
    model,
    screen,
    flag: {
      get: () => flagged((storage) => storage.getItem(FLAG)) !== null,
      set: (isSet) => {
        flagged((storage) =>
          isSet ? storage.setItem(FLAG, 'connected') : storage.removeItem(FLAG),
        );
      },
    },
    listen: (onChance) => {
      window.addEventListener('online', onChance);
      document.addEventListener('visibilitychange', () => {
        if (document.hidden) onChance();
      });
    },
    after: (ms, work) => {
      setTimeout(work, ms);
    },
  });
}

/** Null where storage is forbidden; then a page asks the worker in Settings only. */
function flagged<T>(use: (storage: Storage) => T): T | null {
  try {
    return use(localStorage);
  } catch (error) {
    console.error('No local storage:', error);
    return null;
  }
}
