import type { WakeLock } from '../../quiz/index.ts';

/**
 * Keeps the screen on (Screen Wake Lock API, W3C).
 * @param platform the browser's wake lock; undefined if it has none, as on a page without https
 */
export function createWakeLock(
  platform: Pick<globalThis.WakeLock, 'request'> | undefined,
): WakeLock {
  return {
    hold: async () => {
      try {
        const sentinel = await platform?.request('screen');
        return () => void sentinel?.release();
      } catch {
        // The browser refuses if the battery is low or the page is hidden. The screen may then go dark.
        return () => {};
      }
    },
  };
}
