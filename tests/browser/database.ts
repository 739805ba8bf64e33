/** The app's database past the app: the one place where tests open it, in a page or in Node. */

import type { Page } from 'playwright-core';

/** A file of the app's origin that is not the app: nothing is opened, mended or sealed by looking. */
export const BLANK = 'chart.schema.json';

/** The records of each object store with their keys. */
export type Records = Readonly<Record<string, readonly (readonly [key: IDBValidKey, unknown])[]>>;

interface Access {
  readonly name: string;
  /** Records as text; written first, in the same transaction as what is read. */
  readonly write?: string;
  readonly read?: boolean;
  /** What the database is made with if it is not there. */
  readonly make?: { readonly version: number; readonly stores: readonly string[] };
  /** The connection stays open, as a tab's does that is in the way of a newer version. */
  readonly stayOpen?: boolean;
}

const NAME = 'throughline';
const STORES = ['events', 'documents', 'sealed'];

/** All records, from a page of the app's origin; null if there is no database yet. */
export async function readDatabase(page: Page): Promise<Records | null> {
  const text = await page.evaluate(access, { name: NAME, read: true });
  return text === null ? null : parseRecords(text);
}

/** All records as one text: equal if nothing has changed. */
export async function databaseAsText(page: Page): Promise<string> {
  return (await page.evaluate(access, { name: NAME, read: true })) ?? '';
}

/** A document as it lies on the disk. */
export async function readDocument(page: Page, key: string): Promise<unknown> {
  const { documents = [] } = (await readDatabase(page)) ?? {};
  return documents.find(([name]) => name === key)?.[1];
}

/** Puts records beside those that are there, all or none; makes the database if there is none. */
export async function writeDatabase(page: Page, write: Records): Promise<void> {
  const make = { version: 2, stores: STORES };
  await page.evaluate(access, { name: NAME, write: formatRecords(write), make });
}

/** The database as version 1 of the app made it, which stays open. */
export async function writeVersion1(page: Page, write: Records): Promise<void> {
  const make = { version: 1, stores: ['events', 'documents'] };
  await page.evaluate(access, { name: NAME, write: formatRecords(write), make, stayOpen: true });
}

/** From a page of the app's origin where the app is not open: everything is gone. */
export async function deleteDatabase(page: Page): Promise<void> {
  await page.evaluate(
    (name) =>
      new Promise<void>((resolve, reject) => {
        const deleting = indexedDB.deleteDatabase(name);
        deleting.onsuccess = () => resolve();
        deleting.onerror = () => reject(deleting.error);
        deleting.onblocked = () => reject(new Error('the app is open'));
      }),
    NAME,
  );
}

/** The records of a database in this process (fake-indexeddb). */
export async function readHere(name: string): Promise<Records> {
  return parseRecords((await access({ name, read: true })) ?? '{}');
}

/** Puts records into a database in this process, which the store has to have made. */
export async function writeHere(name: string, write: Records): Promise<void> {
  await access({ name, write: formatRecords(write) });
}

function formatRecords(records: Records): string {
  return JSON.stringify(records, (_, value: unknown) => {
    if (value instanceof Map) return { $map: [...value] };
    if (value instanceof Set) return { $set: [...value] };
    return value;
  });
}

function parseRecords(text: string): Records {
  return JSON.parse(text, (_, value: unknown) => {
    const { $map, $set } = (value ?? {}) as { $map?: [unknown, unknown][]; $set?: unknown[] };
    if ($map) return new Map($map);
    if ($set) return new Set($set);
    return value;
  }) as Records;
}

/** Runs in the page or here, so it uses nothing from outside. JSON, with maps and sets spelled out. */
async function access({ name, write, read, make, stayOpen }: Access): Promise<string | null> {
  // Opening one that is not there would make an empty one, which the app could not use.
  const names = (await indexedDB.databases()).map((one) => one.name);
  if (!make && !names.includes(name)) return null;
  const db = await new Promise<IDBDatabase>((resolve, reject) => {
    const opening = indexedDB.open(name, names.includes(name) ? undefined : make?.version);
    opening.onupgradeneeded = () => {
      for (const store of make?.stores ?? [])
        opening.result.createObjectStore(store, { autoIncrement: store === 'sealed' });
    };
    opening.onerror = () => reject(opening.error);
    opening.onsuccess = () => resolve(opening.result);
  });
  const stores = [...db.objectStoreNames];
  const transaction = db.transaction(stores, write ? 'readwrite' : 'readonly');
  const revived = (_: string, value: unknown): unknown => {
    const { $map, $set } = (value ?? {}) as { $map?: [unknown, unknown][]; $set?: unknown[] };
    return $map ? new Map($map) : $set ? new Set($set) : value;
  };
  const records = JSON.parse(write ?? '{}', revived) as Records;
  for (const [store, list] of Object.entries(records)) {
    for (const [key, value] of list) transaction.objectStore(store).put(value, key);
  }
  const parts = (read ? stores : []).map((store) => {
    const objects = transaction.objectStore(store);
    return { store, keys: objects.getAllKeys(), values: objects.getAll() };
  });
  await new Promise<void>((resolve, reject) => {
    transaction.oncomplete = () => resolve();
    transaction.onabort = () => reject(transaction.error);
  });
  if (!stayOpen) db.close();
  const found = parts.map(({ store, keys, values }) => [
    store,
    keys.result.map((key, n) => [key, values.result[n]]),
  ]);
  return JSON.stringify(Object.fromEntries(found), (_, value: unknown) => {
    if (value instanceof Map) return { $map: [...value] };
    if (value instanceof Set) return { $set: [...value] };
    return value;
  });
}
