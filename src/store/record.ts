/** A stored value by its fields; no fields if it is not an object. */
export function recordOf(stored: unknown): Readonly<Record<string, unknown>> {
  return typeof stored === 'object' && stored !== null ? { ...stored } : {};
}
