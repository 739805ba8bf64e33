/** Moves the focus when the screen changes. */

import { useEffect, useRef } from 'preact/hooks';

/**
 * Focuses the heading of a new screen, so that the keyboard continues there and a screen reader
 * announces it. Does nothing if the screen has set the focus itself.
 * @param title the screen's title; the first one is skipped, because the browser announces the page
 */
export function useArrival(title: string): void {
  const before = useRef<string | null>(null);
  useEffect(() => {
    const first = before.current === null;
    before.current = title;
    return first ? undefined : whenThere(focusHeading);
  }, [title]);
}

/**
 * Waits for the heading, because the code of the screen may still be loading. Returns a function
 * that stops waiting.
 */
function whenThere(arrive: (heading: HTMLElement) => void): () => void {
  const observer = new MutationObserver(look);
  observer.observe(document.body, { childList: true, subtree: true });
  function look(): void {
    const heading = document.querySelector<HTMLElement>('main h1');
    if (!heading) return;
    observer.disconnect();
    arrive(heading);
  }
  look();
  return () => observer.disconnect();
}

function focusHeading(heading: HTMLElement): void {
  const at = document.activeElement;
  const isFree = at === null || at === document.body || at.closest('nav') !== null;
  if (!isFree) return;
  heading.tabIndex = -1;
  heading.focus({ preventScroll: true });
}
