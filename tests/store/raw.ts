/** Reads and writes the database without the store, as an older or newer app would. */

/** The store has to have opened the database before. */
export async function rawPut(
  name: string,
  storeName: string,
  value: unknown,
  key: IDBValidKey,
): Promise<void> {
  await within(name, storeName, 'readwrite', (objects) => objects.put(value, key));
}

export function rawGet(name: string, storeName: string, key: string): Promise<unknown> {
  return within(name, storeName, 'readonly', (objects) => objects.get(key));
}

/** All values of a store by their keys, in the keys' order. */
export async function rawAll(
  name: string,
  storeName: string,
): Promise<readonly (readonly [key: IDBValidKey, value: unknown])[]> {
  const keys = await within(name, storeName, 'readonly', (objects) => objects.getAllKeys());
  const values = await within<unknown[]>(name, storeName, 'readonly', (objects) =>
    objects.getAll(),
  );
  return keys.map((key, n) => [key, values[n]]);
}

function within<T>(
  name: string,
  storeName: string,
  mode: IDBTransactionMode,
  ask: (objects: IDBObjectStore) => IDBRequest<T>,
): Promise<T> {
  return new Promise((resolve, reject) => {
    const opening = indexedDB.open(name);
    opening.onerror = () => reject(opening.error);
    opening.onsuccess = () => {
      const transaction = opening.result.transaction(storeName, mode);
      const asked = ask(transaction.objectStore(storeName));
      transaction.onabort = () => reject(transaction.error);
      transaction.oncomplete = () => {
        opening.result.close();
        resolve(asked.result);
      };
    };
  });
}

export async function rawClear(name: string, storeName: string): Promise<void> {
  await within(name, storeName, 'readwrite', (objects) => objects.clear());
}
