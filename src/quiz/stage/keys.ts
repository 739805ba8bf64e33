/** Handles the hardware keyboard. It has the same actions as the number pad and the rail. */

import type { ReadonlySignal } from '@preact/signals';
import { fieldsOf, type Question } from '../../cards/index.ts';
import { type Chart, toDecimal, toNumber, VERDICTS } from '../../charts/index.ts';
import { type Answering, type Entry, numberIn } from './entry.ts';

const NONE = toDecimal(0);

/** What the keyboard can do on a screen. */
export interface KeyActions {
  /** Returns the question on the screen with its entry; null while no question is asked. */
  readonly asking: () => { readonly question: Question; readonly entry: Entry } | null;
  readonly answering: Answering;
  /** Performs what Enter does while no question is asked. Returns false if it does nothing. */
  readonly onEnter: () => boolean;
  /** How far an arrow key moves a number, in diamonds. */
  readonly step: number;
}

/** Returns the keyboard's actions for a session. */
export function keysFor(
  session: Answering & { readonly phase: ReadonlySignal<Keyable> },
  { document }: Chart,
  onEnter: () => boolean,
): KeyActions {
  return {
    asking: () => {
      const phase = session.phase.value;
      if (phase.at !== 'asking' || !('question' in phase) || !('texts' in phase)) return null;
      return { question: phase.question, entry: phase };
    },
    answering: session,
    onEnter,
    step: toNumber(document.printStep),
  };
}

/** Any phase of a session. A phase that asks has a question and an entry. */
type Keyable =
  | { readonly at: string }
  | (Entry & { readonly at: string; readonly question: Question });

/**
 * Starts listening to the keyboard; returns a function that stops it. Call it in a layout effect,
 * so that keys work as soon as the question is visible.
 */
export function listenToKeys(actions: KeyActions): () => void {
  const onKey = (event: KeyboardEvent): void => {
    if (event.ctrlKey || event.metaKey || event.altKey || event.isComposing) return;
    if (event.defaultPrevented || isTyping(event.target)) return;
    const confirms = event.key === 'Enter' || event.key === ' ';
    // A key that is held down answers only once. Otherwise its repeats would press Next, and the
    // result would be gone at once.
    if (event.repeat && confirms) {
      event.preventDefault();
      return;
    }
    // Likewise, a digit that is held down must not answer several trust questions in a row.
    if (event.repeat && actions.asking()?.question.kind === 'trust') return;
    if (confirms && handlesKey(event.target)) return;
    if (press(actions, event.key)) event.preventDefault();
  };
  window.addEventListener('keydown', onKey);
  return () => window.removeEventListener('keydown', onKey);
}

/** Tells whether the player is typing into some other text field, which is not an answer. */
function isTyping(target: EventTarget | null): boolean {
  return target instanceof HTMLElement && target.closest('input, textarea, select') !== null;
}

/**
 * Tells whether the focused element handles Enter and space itself. An answer box handles only
 * clicks.
 */
function handlesKey(target: EventTarget | null): boolean {
  if (!(target instanceof HTMLElement)) return false;
  return target.closest('button:not(.answer-box), a, summary') !== null;
}

/** Performs the action of a key; returns false if the key has none here. */
export function press(actions: KeyActions, key: string): boolean {
  const now = actions.asking();
  if (!now) return key === 'Enter' && actions.onEnter();
  const { answering } = actions;
  if (key === 'Enter') {
    void answering.submit();
    return true;
  }
  if (key === '?' && answering.showMe) {
    void answering.showMe();
    return true;
  }
  if (now.question.kind === 'trust') return pressVerdict(answering, key);
  if (key === '-') answering.flipSign();
  else if (/^[0-9.,]$/.test(key)) answering.type(key);
  else if (key === 'Backspace') answering.erase();
  else return pressArrow(actions, now.question, now.entry, key);
  return true;
}

/** Chooses the verdict that belongs to the digit 1, 2 or 3, and submits it. */
function pressVerdict(answering: Answering, key: string): boolean {
  const verdict = VERDICTS[Number(key) - 1];
  if (!verdict) return false;
  answering.choose(verdict);
  void answering.submit();
  return true;
}

function pressArrow(actions: KeyActions, question: Question, entry: Entry, key: string): boolean {
  const last = entry.texts.length - 1;
  switch (key) {
    case 'ArrowUp':
      actions.answering.goTo(Math.max(0, entry.field - 1));
      return true;
    case 'ArrowDown':
      actions.answering.goTo(Math.min(last, entry.field + 1));
      return true;
    case 'ArrowLeft':
    case 'ArrowRight': {
      const by = key === 'ArrowRight' ? actions.step : -actions.step;
      actions.answering.point(entry.field, stepped(question, entry, by));
      return true;
    }
    default:
      return false;
  }
}

/**
 * Returns the next multiple of the step. If the field has no number yet, returns the middle of its
 * range.
 */
function stepped(question: Question, entry: Entry, by: number): number {
  const field = fieldsOf(question)[entry.field];
  const [least, most] = [toNumber(field?.least ?? NONE), toNumber(field?.most ?? NONE)];
  const value = numberIn(question, entry, entry.field);
  if (value === null) return (least + most) / 2;
  // The small tolerance absorbs rounding errors, so that the next multiple is never the current
  // number.
  const next = (Math.floor(value / by + 1e-6) + 1) * by;
  return toNumber(toDecimal(Math.min(most, Math.max(least, next))));
}
