/**
 * Syncs, beside the page: keys are made and other origins are spoken to here and nowhere else. The
 * page's own policy lets it speak to its own origin only.
 */

import { openSyncStore } from '../store/index.ts';
import { connect, disconnect, openRemote, type Ports, statusOf, sync } from '../sync/index.ts';
import type { SyncAnswer, SyncReply, SyncRequest } from './syncer.ts';

declare const self: DedicatedWorkerGlobalScope;

const LOCK = 'throughline-sync';

self.addEventListener('message', ({ data }: MessageEvent<SyncRequest>) => {
  void answered(data).then((answer) =>
    self.postMessage({ ...answer, id: data.id } satisfies SyncReply),
  );
});

async function answered(request: SyncRequest): Promise<SyncAnswer> {
  const store = openSyncStore(request.store);
  const ports: Ports = {
    store,
    remote: (folder) => openRemote(folder, (address, asked) => fetch(address, asked)),
    now: () => Math.round(Date.now()),
  };
  try {
    return await answerTo(request, ports);
  } catch (error) {
    return { at: 'refused', say: error instanceof Error ? error.message : String(error) };
  } finally {
    await store.close();
  }
}

async function answerTo(request: SyncRequest, ports: Ports): Promise<SyncAnswer> {
  switch (request.what) {
    case 'status':
      return { at: 'status', status: await statusOf(ports.store) };
    case 'connect':
      return alone({}, async () => ({
        at: 'connected',
        joining: await connect(ports, request.wish),
      }));
    case 'disconnect':
      return alone({}, async () => {
        await disconnect(ports.store);
        return { at: 'disconnected' };
      });
    case 'sync':
      return alone({ ifAvailable: true }, async () => ({ at: 'synced', done: await sync(ports) }));
  }
}

/** One tab at a time; with `ifAvailable` it is left to the one that is at it. */
async function alone(options: LockOptions, work: () => Promise<SyncAnswer>): Promise<SyncAnswer> {
  return navigator.locks.request(LOCK, options, (lock) =>
    lock ? work() : { at: 'synced', done: null },
  );
}
