/** Returns the fields of a stored value; no fields if it is not an object. */
export function recordOf(stored: unknown): Readonly<Record<string, unknown>> {
  return typeof stored === 'object' && stored !== null ? { ...stored } : {};
}
