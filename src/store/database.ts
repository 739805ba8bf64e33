/**
 * The IndexedDB database: an object store for the log's recent events, one for chunks of older ones,
 * one for documents. The only file that imports idb-keyval, whose functions run on the stores opened
 * here: strict durability (a promise resolves when the data is on disk), abort when the callback
 * throws, and a connection that gives way to a newer version of the app in another tab.
 */

import { get, promisifyRequest, type UseStore, update } from 'idb-keyval';

export { get, promisifyRequest, type UseStore, update };

/** 1: events and documents. 2: sealed chunks as well. */
const VERSION = 2;
const EVENTS = 'events';
const SEALED = 'sealed';
const DOCUMENTS = 'documents';
/** What is under way in another tab when it is asked to give way takes less, milliseconds. */
const PATIENCE = 2000;

/** Another tab has an older or a newer version of the app open; the message is for the player. */
export class OtherVersion extends Error {}

export interface Database {
  /** Events, with the documents in the same transaction (`store.transaction.objectStore`). */
  readonly events: UseStore;
  readonly documents: UseStore;
  /** Recent events, with the chunks and the documents in the same transaction. */
  readonly log: UseStore;
  /** The chunks alone. */
  readonly sealed: UseStore;
  readonly documentsOf: (events: IDBObjectStore) => IDBObjectStore;
  readonly sealedOf: (log: IDBObjectStore) => IDBObjectStore;
  readonly close: () => Promise<void>;
}

/** One connection at a time; forgotten when it is lost, and opened anew when it is wanted. */
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

async function connectTo(name: string, lost: () => void): Promise<IDBDatabase> {
  const db = await opened(name);
  db.onversionchange = () => {
    db.close();
    lost();
  };
  db.onclose = lost;
  return db;
}

function opened(name: string): Promise<IDBDatabase> {
  const request = indexedDB.open(name, VERSION);
  request.onupgradeneeded = ({ oldVersion }) => {
    if (oldVersion < 1) {
      request.result.createObjectStore(EVENTS);
      request.result.createObjectStore(DOCUMENTS);
    }
    request.result.createObjectStore(SEALED, { autoIncrement: true });
  };
  return new Promise((resolve, reject) => {
    let late = false;
    const giveUp = (): void => {
      late = true;
      reject(new OtherVersion(`${OLDER} Close that tab, then load this page again.`));
    };
    request.onblocked = () => setTimeout(giveUp, PATIENCE);
    request.onsuccess = () => {
      // Nobody waits for it any more, and an open connection would be in another one's way.
      if (late) request.result.close();
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
    const done = finished(transaction);
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

/** A transaction; on a fresh connection if the browser has closed the one that was open. */
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

/** Rejects with the reason when the transaction is aborted, by us or by a full disk. */
function finished(transaction: IDBTransaction): Promise<void> {
  const done = new Promise<void>((resolve, reject) => {
    // Listeners, not handlers: idb-keyval sets the transaction's handlers to its own.
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
    // Already finished: there is nothing left to abort.
    if (!(error instanceof DOMException && error.name === 'InvalidStateError')) throw error;
  }
}
