import { useLayoutEffect, useState } from 'preact/hooks';

/** Runs something after the browser has painted: by the second frame, the first was on the screen. */
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

/** Runs something as soon as the browser has drawn the next frame. */
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
 * Has the frame been drawn in which `what` first appeared, so that slower work can follow. Null waits
 * for nothing.
 * @param already counts as drawn from the beginning
 */
export function useDrawn<T>(what: T | null, already: T | null = null): boolean {
  const [drawn, setDrawn] = useState(already);
  const waits = what !== null && drawn !== what;
  useLayoutEffect(() => {
    if (waits) return onDrawn(() => setDrawn(() => what));
  }, [waits, what]);
  return !waits;
}
