/**
 * Syncs this device. Only this worker derives keys and contacts a different origin. The page's security
 * policy lets the page contact only its own origin.
 */

import { openSyncStore } from '../store/index.ts';
import { connect, disconnect, openRemote, type Ports, statusOf, sync } from '../sync/index.ts';
import { serve } from './serve.ts';
import type { SyncAsk, SyncRequest, SyncResult } from './syncer.ts';

const LOCK = 'throughline-sync';

serve(async ({ ask, store: name }: SyncRequest): Promise<SyncResult> => {
  const store = openSyncStore(name);
  const ports: Ports = {
    store,
    remote: (folder) => openRemote(folder, (address, request) => fetch(address, request)),
    now: () => Math.round(Date.now()),
  };
  try {
    return await answer(ask, ports);
  } finally {
    await store.close();
  }
});

async function answer(ask: SyncAsk, ports: Ports): Promise<SyncResult> {
  switch (ask.what) {
    case 'status':
      return { at: 'status', status: await statusOf(ports.store) };
    case 'connect':
      return alone({}, async () => ({ at: 'connected', joining: await connect(ports, ask.wish) }));
    case 'disconnect':
      return alone({}, async () => {
        await disconnect(ports.store);
        return { at: 'disconnected' };
      });
    case 'sync':
      return alone({ ifAvailable: true }, async () => ({ at: 'synced', done: await sync(ports) }));
  }
}

/** Does the work in one tab at a time. With `ifAvailable`, it does nothing if another tab is busy. */
async function alone(options: LockOptions, work: () => Promise<SyncResult>): Promise<SyncResult> {
  return navigator.locks.request(LOCK, options, (lock) =>
    lock ? work() : { at: 'synced', done: null },
  );
}
