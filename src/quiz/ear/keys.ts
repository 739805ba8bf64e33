/** The hardware keyboard by ear. */

import type { EarSession } from './session.ts';

/** Starts listening; returns what stops it. */
export function listenByEar(session: EarSession): () => void {
  const onKey = (event: KeyboardEvent): void => {
    if (event.ctrlKey || event.metaKey || event.altKey || event.defaultPrevented) return;
    const confirms = event.key === 'Enter' || event.key === ' ';
    // A key held down judges once, and so does a button that it presses.
    if (event.repeat && confirms) event.preventDefault();
    if (event.repeat) return;
    // A button reached with Tab answers to its own keys.
    if (confirms && isButton(event.target)) return;
    if (pressByEar(session, event.key)) event.preventDefault();
  };
  window.addEventListener('keydown', onKey);
  return () => window.removeEventListener('keydown', onKey);
}

function isButton(target: EventTarget | null): boolean {
  return target instanceof HTMLElement && target.closest('button, a') !== null;
}

/** Does what a key stands for; false if it stands for nothing here. */
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

/** "Had it", or on to where that can be said. */
function forward(session: EarSession): void {
  const { at } = session.phase.peek();
  if (at === 'telling' || at === 'judging') void session.judge(true);
  else session.skip();
}
