import { describe, expect, it } from 'vitest';
import { createSyncer } from '../../src/workers/index.ts';
import type { SyncRequest, SyncResult } from '../../src/workers/syncer.ts';
import { slowWorkers } from './slow-worker.ts';

function begin() {
  const slow = slowWorkers<SyncRequest, SyncResult>();
  return { ...slow, syncer: createSyncer(slow.start, 'a store') };
}

describe('the page’s side of the sync worker', () => {
  it('gives each question its own answer, and all of them a sentence if it stops', async () => {
    const { syncer, sent, reply, fail } = begin();
    const [one, two] = [syncer.ask({ what: 'status' }), syncer.ask({ what: 'sync' })];
    reply({ id: sent[1]?.id ?? 0, answer: { at: 'synced', done: null } });
    expect(await two).toEqual({ at: 'synced', done: null });
    fail('it could not be loaded');
    expect(await one).toEqual({
      at: 'refused',
      say: 'Syncing stopped: it could not be loaded. It is tried again later.',
    });
    expect(sent.map(({ request }) => request.store)).toEqual(['a store', 'a store']);
  });

  it('gives the worker’s own sentence if the sync was refused', async () => {
    const { syncer, sent, reply } = begin();
    const asked = syncer.ask({ what: 'sync' });
    reply({ id: sent[0]?.id ?? 0, failed: 'This address is not a WebDAV folder.' });
    expect(await asked).toEqual({ at: 'refused', say: 'This address is not a WebDAV folder.' });
  });
});
