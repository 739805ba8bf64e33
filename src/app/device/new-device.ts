/** A device's first visit, and its name in the log. */

/** The mark in the local storage that the app was opened here. */
const MARK = 'throughline';

/**
 * Whether nothing was stored for this page before. A service worker proves the contrary; a reload that
 * bypasses it leaves the mark. Unknown, and so false, where storage is forbidden.
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

/** Ten random characters: one of 36¹⁰, about 3.7e15, names. */
export function newDeviceId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(10));
  return Array.from(bytes, (byte) => (byte % 36).toString(36)).join('');
}
