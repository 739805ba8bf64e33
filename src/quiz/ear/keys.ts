/** Handles the hardware keyboard in practice by ear. */

import type { EarSession } from './session.ts';

/** Starts listening to the keyboard; returns a function that stops it. */
export function listenByEar(session: EarSession): () => void {
  const onKey = (event: KeyboardEvent): void => {
    if (event.ctrlKey || event.metaKey || event.altKey || event.defaultPrevented) return;
    const confirms = event.key === 'Enter' || event.key === ' ';
    // A key that is held down judges only once. The same goes for a button that the key presses.
    if (event.repeat && confirms) event.preventDefault();
    if (event.repeat) return;
    // A button that has the focus handles Enter and space itself.
    if (confirms && isButton(event.target)) return;
    if (pressByEar(session, event.key)) event.preventDefault();
  };
  window.addEventListener('keydown', onKey);
  return () => window.removeEventListener('keydown', onKey);
}

function isButton(target: EventTarget | null): boolean {
  return target instanceof HTMLElement && target.closest('button, a') !== null;
}

/** Performs the action of a key; returns false if the key has none here. */
export function pressByEar(session: EarSession, key: string): boolean {
  const { at } = session.phase.peek();
  if (at === 'ready' || at === 'done') return false;
  if (key === ' ' || (key === 'Enter' && at === 'paused')) session.pause();
  else if (key.toLowerCase() === 'r') session.again();
  else if (key === 'Enter' || key === 'ArrowRight') forward(session);
  else if (key === 'Backspace' || key === 'ArrowLeft') void session.judge(false);
  else return false;
  return true;
}

/** Judges "had it" or, if it is too early for that, skips ahead. */
function forward(session: EarSession): void {
  const { at } = session.phase.peek();
  if (at === 'telling' || at === 'judging') void session.judge(true);
  else session.skip();
}
