/**
 * Does something when the browser has time for it; the result calls it off.
 * @param later milliseconds until then where the browser does not say when it is idle
 */
export function onIdle(run: () => void, later: number): () => void {
  if ('requestIdleCallback' in window) {
    const wait = requestIdleCallback(run);
    return () => cancelIdleCallback(wait);
  }
  const timer = setTimeout(run, later);
  return () => clearTimeout(timer);
}
