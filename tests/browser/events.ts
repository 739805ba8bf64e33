import type { Page } from 'playwright-core';

/** The events that a page's browser keeps, in the order in which they were written. */
export async function storedEvents(page: Page): Promise<readonly Record<string, unknown>[]> {
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
  return (events as Record<string, unknown>[]).sort((a, b) => Number(a.seq) - Number(b.seq));
}

export async function eventCount(page: Page): Promise<number> {
  return (await storedEvents(page)).length;
}
