/** The hardware keyboard: the same actions as the number pad. */

import type { Session } from './session.ts';

/** Starts listening; returns what stops it. */
export function listenToKeys(session: Session): () => void {
  const onKey = (event: KeyboardEvent): void => {
    if (event.ctrlKey || event.metaKey || event.altKey || event.isComposing) return;
    const confirms = event.key === 'Enter' || event.key === ' ';
    // A key held down answers once: the result is there to be looked at.
    if (event.repeat && confirms) {
      event.preventDefault();
      return;
    }
    if (confirms && hasOwnAnswer(event.target)) return;
    if (press(session, event.key)) event.preventDefault();
  };
  window.addEventListener('keydown', onKey);
  return () => window.removeEventListener('keydown', onKey);
}

/** A focused button answers to Enter and space itself; an answer's box does so only by a click. */
function hasOwnAnswer(target: EventTarget | null): boolean {
  if (!(target instanceof HTMLElement)) return false;
  return target.closest('button:not(.answer-box), a, input, select') !== null;
}

/** Does what a key stands for; false if it stands for nothing here. */
export function press(session: Session, key: string): boolean {
  const phase = session.phase.value;
  if (key === 'Enter') {
    if (phase.at === 'asking') void session.submit();
    else if (phase.at === 'answered') session.next();
    else if (phase.at === 'meeting') void session.metIt();
    return phase.at !== 'done';
  }
  if (phase.at !== 'asking') return false;
  if (/^[0-9.,-]$/.test(key)) {
    if (key === '-') session.flipSign();
    else session.type(key);
    return true;
  }
  return pressAction(session, phase.field, key);
}

function pressAction(session: Session, field: number, key: string): boolean {
  switch (key) {
    case 'Backspace':
      session.erase();
      return true;
    case '?':
      void session.showMe();
      return true;
    case 'ArrowUp':
      session.goTo(Math.max(0, field - 1));
      return true;
    case 'ArrowDown': {
      const phase = session.phase.value;
      const last = phase.at === 'asking' ? phase.texts.length - 1 : 0;
      session.goTo(Math.min(last, field + 1));
      return true;
    }
    default:
      return false;
  }
}
