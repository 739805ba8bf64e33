import type { Page } from 'playwright-core';

export interface StoredEvent {
  readonly id: string;
  readonly device: string;
  readonly type: string;
  readonly seq: number;
  readonly [field: string]: unknown;
}

/** The log as it lies on the page's disk, in the order in which it was written. */
export async function readEvents(page: Page): Promise<StoredEvent[]> {
  const events = await page.evaluate(
    () =>
      new Promise<unknown>((resolve, reject) => {
        const request = indexedDB.open('throughline');
        request.onerror = () => reject(request.error);
        request.onsuccess = () => {
          const all = request.result.transaction('events').objectStore('events').getAll();
          all.onerror = () => reject(all.error);
          all.onsuccess = () => {
            request.result.close();
            resolve(all.result);
          };
        };
      }),
  );
  return (events as StoredEvent[]).sort((a, b) => a.seq - b.seq);
}

/** Those of one type. */
export async function readType(page: Page, type: string): Promise<StoredEvent[]> {
  return (await readEvents(page)).filter((event) => event.type === type);
}
