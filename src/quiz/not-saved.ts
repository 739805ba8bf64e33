/** Why something could not be written, and what to do. */
export function notSaved(error: unknown): string {
  const full = error instanceof DOMException && error.name === 'QuotaExceededError';
  const [why, remedy] = full
    ? ['the device has no room left', 'make room and press again']
    : ['the browser refused to write it', 'press again, or open the page anew'];
  return `Not saved: ${why}. Nothing is lost here; ${remedy}.`;
}
