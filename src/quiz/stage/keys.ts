/** The hardware keyboard: the same actions as the number pad and the rail. */

import type { ReadonlySignal } from '@preact/signals';
import { fieldsOf, type Question } from '../../cards/index.ts';
import { type Chart, toDecimal, toNumber, VERDICTS } from '../../charts/index.ts';
import { type Answering, type Entry, numberIn } from './entry.ts';

const NONE = toDecimal(0);

/** What the keyboard can do on a screen. */
export interface KeyActions {
  /** The question on the screen with its entry; null while none is asked. */
  readonly asking: () => { readonly question: Question; readonly entry: Entry } | null;
  readonly answering: Answering;
  /** What Enter does while nothing is asked; false if nothing. */
  readonly onEnter: () => boolean;
  /** How far an arrow key moves a number, diamonds. */
  readonly step: number;
}

/** The keyboard's actions on a session. */
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

/** Any phase; one that asks has a question and an entry. */
type Keyable =
  | { readonly at: string }
  | (Entry & { readonly at: string; readonly question: Question });

/**
 * Starts listening; returns a function that stops it. Belongs in a layout effect, so that a key counts
 * as soon as the question is visible.
 */
export function listenToKeys(actions: KeyActions): () => void {
  const onKey = (event: KeyboardEvent): void => {
    if (event.ctrlKey || event.metaKey || event.altKey || event.isComposing) return;
    if (event.defaultPrevented || isTyping(event.target)) return;
    const confirms = event.key === 'Enter' || event.key === ' ';
    // A key that is held down answers only once, or the result would be gone at once.
    if (event.repeat && confirms) {
      event.preventDefault();
      return;
    }
    // Nor does a held digit answer one trust question after another.
    if (event.repeat && actions.asking()?.question.kind === 'trust') return;
    if (confirms && handlesKey(event.target)) return;
    if (press(actions, event.key)) event.preventDefault();
  };
  window.addEventListener('keydown', onKey);
  return () => window.removeEventListener('keydown', onKey);
}

/** Is the player typing elsewhere on the screen, which is not an answer. */
function isTyping(target: EventTarget | null): boolean {
  return target instanceof HTMLElement && target.closest('input, textarea, select') !== null;
}

/** Does the focused element handle Enter and space itself; an answer box only handles clicks. */
function handlesKey(target: EventTarget | null): boolean {
  if (!(target instanceof HTMLElement)) return false;
  return target.closest('button:not(.answer-box), a, summary') !== null;
}

/** Performs a key's action; false if the key has none here. */
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

/** The digits 1, 2 and 3 choose a verdict. */
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

/** The next multiple of the step; from nothing, the middle of the field's range. */
function stepped(question: Question, entry: Entry, by: number): number {
  const field = fieldsOf(question)[entry.field];
  const [least, most] = [toNumber(field?.least ?? NONE), toNumber(field?.most ?? NONE)];
  const value = numberIn(question, entry, entry.field);
  if (value === null) return (least + most) / 2;
  // The tolerance keeps a multiple from being its own successor.
  const next = (Math.floor(value / by + 1e-6) + 1) * by;
  return toNumber(toDecimal(Math.min(most, Math.max(least, next))));
}
