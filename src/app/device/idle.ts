/** Work that can wait, done by one tab at a time. */

import { onIdle } from '../../quiz/index.ts';

const LOCK = 'throughline-idle';
/** Where the browser does not say when it is idle: long after the first screen is painted. */
const LATER_MS = 5000;

/** Two tabs at once would do no harm, and the one that is late would have worked for nothing. */
export function whenIdle(work: () => Promise<void>): void {
  const start = (): void => {
    alone(work).catch((error: unknown) => console.error('Left for another time:', error));
  };
  onIdle(start, LATER_MS);
}

async function alone(work: () => Promise<void>): Promise<void> {
  // Not on a page that came without encryption.
  const locks = navigator.locks as LockManager | undefined;
  if (!locks) return work();
  await locks.request(LOCK, { ifAvailable: true }, (lock) => (lock ? work() : undefined));
}
