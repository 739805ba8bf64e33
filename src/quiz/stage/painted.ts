import { useLayoutEffect, useState } from 'preact/hooks';

/** Runs after the browser has painted: two frames on, the first has been on the screen. */
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

/** Runs when the browser has drawn the next frame, and as soon as it has. */
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
 * Is the frame drawn in which this came, so that what takes longer can follow; null waits for nothing.
 * @param already what is held to be drawn from the beginning
 */
export function useDrawn<T>(what: T | null, already: T | null = null): boolean {
  const [drawn, setDrawn] = useState(already);
  const waits = what !== null && drawn !== what;
  useLayoutEffect(() => {
    if (waits) return onDrawn(() => setDrawn(() => what));
  }, [waits, what]);
  return !waits;
}
