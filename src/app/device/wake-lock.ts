import type { WakeLock } from '../../quiz/index.ts';

/**
 * Keeps the screen on (Screen Wake Lock API, W3C).
 * @param platform undefined where the browser has no wake lock, as without https
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
        // Refused on a low battery or a hidden page: then the screen may go dark.
        return () => {};
      }
    },
  };
}
