/**
 * The IndexedDB database. It has three object stores: recent events of the log, chunks of older events,
 * and documents. This is the only file that imports idb-keyval, which gets the stores that are opened
 * here. Their transactions have strict durability (a promise resolves when the data is on disk) and
 * abort when the callback throws. Their connection closes when a newer version of the app opens in
 * another tab.
 */

import { get, promisifyRequest, type UseStore, update } from 'idb-keyval';

export { get, promisifyRequest, type UseStore, update };

/** Version 1 had events and documents. Version 2 added sealed chunks. */
const VERSION = 2;
const EVENTS = 'events';
const SEALED = 'sealed';
const DOCUMENTS = 'documents';
/**
 * How long to wait for another tab to close its connection, in milliseconds. A tab finishes its work
 * in less time.
 */
const PATIENCE = 2000;

/**
 * Thrown when another tab has an older or a newer version of the app open. The player sees the message.
 */
export class OtherVersion extends Error {}

export interface Database {
  /** Recent events. `documentsOf` gives the documents in the same transaction. */
  readonly events: UseStore;
  readonly documents: UseStore;
  /** Recent events. `sealedOf` and `documentsOf` give chunks and documents in the same transaction. */
  readonly log: UseStore;
  /** Chunks only. */
  readonly sealed: UseStore;
  readonly documentsOf: (events: IDBObjectStore) => IDBObjectStore;
  readonly sealedOf: (log: IDBObjectStore) => IDBObjectStore;
  readonly close: () => Promise<void>;
}

/** Opens at most one connection: when it is needed, and again if it is lost. */
interface Connection {
  readonly connect: () => Promise<IDBDatabase>;
  readonly forget: () => void;
}

/** @throws (by rejecting) if the browser does not let this page store data */
export function openDatabase(name: string): Database {
  let open: Promise<IDBDatabase> | null = null;
  const forget = (): void => {
    open = null;
  };
  const connect = (): Promise<IDBDatabase> => {
    open ??= connectTo(name, forget).catch((error: unknown) => {
      forget();
      throw error;
    });
    return open;
  };
  const connection = { connect, forget };
  return {
    events: storeIn(connection, [EVENTS, DOCUMENTS], EVENTS),
    documents: storeIn(connection, [DOCUMENTS], DOCUMENTS),
    log: storeIn(connection, [EVENTS, SEALED, DOCUMENTS], EVENTS),
    sealed: storeIn(connection, [SEALED], SEALED),
    documentsOf: (events) => events.transaction.objectStore(DOCUMENTS),
    sealedOf: (log) => log.transaction.objectStore(SEALED),
    close: async () => {
      const db = await open;
      db?.close();
      forget();
    },
  };
}

async function connectTo(name: string, onLost: () => void): Promise<IDBDatabase> {
  const db = await requestDatabase(name);
  db.onversionchange = () => {
    db.close();
    onLost();
  };
  db.onclose = onLost;
  return db;
}

function requestDatabase(name: string): Promise<IDBDatabase> {
  const request = indexedDB.open(name, VERSION);
  request.onupgradeneeded = ({ oldVersion }) => {
    if (oldVersion < 1) {
      request.result.createObjectStore(EVENTS);
      request.result.createObjectStore(DOCUMENTS);
    }
    request.result.createObjectStore(SEALED, { autoIncrement: true });
  };
  return new Promise((resolve, reject) => {
    let isAbandoned = false;
    const giveUp = (): void => {
      isAbandoned = true;
      reject(new OtherVersion(`${OLDER} Close that tab, then load this page again.`));
    };
    request.onblocked = () => setTimeout(giveUp, PATIENCE);
    request.onsuccess = () => {
      // Nobody is waiting for this connection anymore, and an open connection would block others.
      if (isAbandoned) request.result.close();
      else resolve(request.result);
    };
    request.onerror = () => {
      reject(request.error?.name === 'VersionError' ? new OtherVersion(NEWER) : request.error);
    };
  });
}

const OLDER = 'Another tab still has an older Throughline open.';
const NEWER = 'A newer Throughline was opened on this device. Load this page again.';

function storeIn(connection: Connection, names: readonly string[], main: string): UseStore {
  return async (mode, callback) => {
    const transaction = await begin(connection, names, mode);
    const done = completionOf(transaction);
    try {
      const result = await callback(transaction.objectStore(main));
      await done;
      return result;
    } catch (error) {
      abort(transaction);
      await done.catch(() => undefined);
      throw error;
    }
  };
}

/** Begins a transaction. Connects again first if the browser has closed the connection. */
async function begin(
  { connect, forget }: Connection,
  names: readonly string[],
  mode: IDBTransactionMode,
): Promise<IDBTransaction> {
  const db = await connect();
  try {
    return db.transaction(names, mode, { durability: 'strict' });
  } catch (error) {
    if (!(error instanceof DOMException && error.name === 'InvalidStateError')) throw error;
    forget();
    return (await connect()).transaction(names, mode, { durability: 'strict' });
  }
}

/**
 * Returns a promise that resolves when the transaction completes. It rejects with the reason when this
 * code or a full disk aborts the transaction.
 */
function completionOf(transaction: IDBTransaction): Promise<void> {
  const done = new Promise<void>((resolve, reject) => {
    // These are listeners because idb-keyval sets `oncomplete` and `onabort` itself.
    transaction.addEventListener('complete', () => resolve());
    transaction.addEventListener('abort', () => {
      reject(transaction.error ?? new Error('the write was aborted'));
    });
  });
  // If the callback fails first, the caller reports the callback's error instead of this one.
  done.catch(() => undefined);
  return done;
}

function abort(transaction: IDBTransaction): void {
  try {
    transaction.abort();
  } catch (error) {
    // The transaction has already finished, so there is nothing to abort.
    if (!(error instanceof DOMException && error.name === 'InvalidStateError')) throw error;
  }
}
