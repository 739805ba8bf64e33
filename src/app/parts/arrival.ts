/** Where the focus goes when the screen changes. */

import { useEffect, useRef } from 'preact/hooks';

/**
 * The new screen's heading takes the focus, so that the keyboard goes on from there and a screen
 * reader says where one is; unless the screen has put it somewhere itself.
 * @param title of the screen; nothing is done for the first one, where the browser says what it is
 */
export function useArrival(title: string): void {
  const before = useRef<string | null>(null);
  useEffect(() => {
    const first = before.current === null;
    before.current = title;
    return first ? undefined : whenThere(focusHeading);
  }, [title]);
}

/** Its code may still be on its way. */
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
