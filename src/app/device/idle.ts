/** @param fallbackMs the delay in browsers that do not report idle time */
export function onIdle(run: () => void, fallbackMs: number): void {
  if ('requestIdleCallback' in window) requestIdleCallback(run);
  else setTimeout(run, fallbackMs);
}

const LOCK = 'throughline-idle';
/** The delay in browsers that do not report idle time: long after the first screen is painted. */
const FALLBACK_MS = 5000;

/**
 * Does work when the page is idle, in one tab at a time. Two tabs would do no harm, but the second
 * would do the work for nothing.
 */
export function whenIdle(work: () => Promise<void>): void {
  const start = (): void => {
    inOneTab(work).catch((error: unknown) => console.error('Left for another time:', error));
  };
  onIdle(start, FALLBACK_MS);
}

async function inOneTab(work: () => Promise<void>): Promise<void> {
  // `locks` is missing on a page without https.
  const locks = navigator.locks as LockManager | undefined;
  if (!locks) return work();
  await locks.request(LOCK, { ifAvailable: true }, (lock) => (lock ? work() : undefined));
}
