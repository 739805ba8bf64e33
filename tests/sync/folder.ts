/** A folder in memory that behaves as a WebDAV folder, and devices that share it. */

import { openSyncStore, type SyncStore } from '../../src/store/index.ts';
import type { Ports, Wish } from '../../src/sync/index.ts';
import type { Remote } from '../../src/sync/remote.ts';

export interface MemoryFolder {
  readonly files: Map<string, Uint8Array<ArrayBuffer>>;
  readonly remote: () => Remote;
  /** Requests, in order. */
  readonly asked: string[];
  /** Fails at the nth request from now, counted from 1, and at all later ones. */
  cutAt: number | null;
}

export function memoryFolder(): MemoryFolder {
  const files = new Map<string, Uint8Array<ArrayBuffer>>();
  const asked: string[] = [];
  const folder: MemoryFolder = { files, asked, cutAt: null, remote: () => remote };
  const ask = async (what: string): Promise<void> => {
    asked.push(what);
    if (folder.cutAt !== null && --folder.cutAt <= 0) throw new Error('the line was cut');
    // Lets other syncs take their turn.
    await new Promise((resolve) => setTimeout(resolve, 0));
  };
  const remote: Remote = {
    list: async () => {
      await ask('list');
      return [...files.keys()].sort();
    },
    makeFolder: () => ask('make'),
    read: async (name) => {
      await ask(`read ${name}`);
      return files.get(name)?.slice() ?? null;
    },
    write: async (name, bytes) => {
      await ask(`write ${name}`);
      if (files.has(name)) return false;
      files.set(name, bytes.slice());
      return true;
    },
    remove: async (name) => {
      await ask(`remove ${name}`);
      files.delete(name);
    },
  };
  return folder;
}

export const WISH: Wish = {
  address: 'https://cloud.example/dav/',
  user: '',
  password: '',
  passphrase: 'four words of chalk',
  create: true,
};

export function newDevice(folder: MemoryFolder): Ports & { readonly name: string } {
  // This file is read again for each file of tests, which share one IndexedDB: no counting here.
  const name = `sync-${crypto.randomUUID()}`;
  const store: SyncStore = openSyncStore(name);
  return { name, store, remote: folder.remote, now: () => Date.UTC(2026, 10, 30) };
}
