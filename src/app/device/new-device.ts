/** Detects a device's first visit, and makes its name for the log. */

/** The key in the local storage that marks that the app was opened on this device. */
const MARK = 'throughline';

/**
 * Returns whether the app was never opened on this device. A service worker proves that it was. A
 * reload may bypass the service worker, but the mark stays. Returns false if storage is forbidden,
 * because the answer is then unknown.
 */
export function isNewDevice(): boolean {
  if (navigator.serviceWorker?.controller) return false;
  try {
    const isNew = localStorage.getItem(MARK) === null;
    localStorage.setItem(MARK, 'opened');
    return isNew;
  } catch {
    return false;
  }
}

/** Returns a name of ten random characters. There are 36¹⁰ (about 3.7e15) such names. */
export function newDeviceId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(10));
  return Array.from(bytes, (byte) => (byte % 36).toString(36)).join('');
}
