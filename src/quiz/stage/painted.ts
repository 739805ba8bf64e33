import { useLayoutEffect, useState } from 'preact/hooks';

/**
 * Calls a function once the browser has painted. When the second frame begins, the first one has
 * been on the screen.
 */
export function onPainted(run: () => void): () => void {
  let second = 0;
  const first = requestAnimationFrame(() => {
    second = requestAnimationFrame(run);
  });
  return () => {
    cancelAnimationFrame(first);
    cancelAnimationFrame(second);
  };
}

/** Calls a function as soon as the browser has drawn the next frame. */
export function onDrawn(run: () => void): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const frame = requestAnimationFrame(() => {
    timer = setTimeout(run);
  });
  return () => {
    cancelAnimationFrame(frame);
    clearTimeout(timer);
  };
}

/**
 * Tells whether the frame in which `what` first appeared has been drawn, so that slower work can
 * follow. If `what` is null, the result is true at once.
 * @param already a value that counts as drawn from the beginning
 */
export function useDrawn<T>(what: T | null, already: T | null = null): boolean {
  const [drawn, setDrawn] = useState(already);
  const waits = what !== null && drawn !== what;
  useLayoutEffect(() => {
    if (waits) return onDrawn(() => setDrawn(() => what));
  }, [waits, what]);
  return !waits;
}
