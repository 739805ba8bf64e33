/**
 * The IndexedDB database: an object store for the log's recent events, one for chunks of older ones,
 * one for documents. The only file that imports idb-keyval, whose functions run on the stores opened
 * here. They have strict durability (a promise resolves when the data is on disk), abort when the
 * callback throws, and close their connection for a newer version of the app in another tab.
 */

import { get, promisifyRequest, type UseStore, update } from 'idb-keyval';

export { get, promisifyRequest, type UseStore, update };

/** 1: events and documents. 2: sealed chunks, too. */
const VERSION = 2;
const EVENTS = 'events';
const SEALED = 'sealed';
const DOCUMENTS = 'documents';
/** Milliseconds; another tab that is asked to close its connection finishes its work in less. */
const PATIENCE = 2000;

/** Another tab has an older or a newer version of the app open. The message is for the player. */
export class OtherVersion extends Error {}

export interface Database {
  /** Recent events, with the documents in the same transaction (`documentsOf`). */
  readonly events: UseStore;
  readonly documents: UseStore;
  /** Recent events, with chunks (`sealedOf`) and documents in the same transaction. */
  readonly log: UseStore;
  /** Chunks alone. */
  readonly sealed: UseStore;
  readonly documentsOf: (events: IDBObjectStore) => IDBObjectStore;
  readonly sealedOf: (log: IDBObjectStore) => IDBObjectStore;
  readonly close: () => Promise<void>;
}

/** At most one connection, opened when it is needed and opened again if it is lost. */
interface Connection {
  readonly connect: () => Promise<IDBDatabase>;
  readonly forget: () => void;
}

/** @throws (rejects) when the browser does not let this page keep data */
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
      // Nobody waits for this connection any more, and an open one would block others.
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

/** Begins a transaction, on a new connection if the browser has closed the open one. */
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

/** Rejects with the reason when the transaction is aborted, by this code or by a full disk. */
function completionOf(transaction: IDBTransaction): Promise<void> {
  const done = new Promise<void>((resolve, reject) => {
    // Listeners, because idb-keyval sets the transaction's handlers to its own.
    transaction.addEventListener('complete', () => resolve());
    transaction.addEventListener('abort', () => {
      reject(transaction.error ?? new Error('the write was aborted'));
    });
  });
  // The callback may fail first; its error is the one to report.
  done.catch(() => undefined);
  return done;
}

function abort(transaction: IDBTransaction): void {
  try {
    transaction.abort();
  } catch (error) {
    // Already finished, so there is nothing to abort.
    if (!(error instanceof DOMException && error.name === 'InvalidStateError')) throw error;
  }
}
