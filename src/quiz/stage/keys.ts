/** The hardware keyboard: the same actions as the number pad and the rail. */

import type { ReadonlySignal } from '@preact/signals';
import { fieldsOf, type Question } from '../../cards/index.ts';
import { type Chart, toDecimal, toNumber, VERDICTS } from '../../charts/index.ts';
import { type Answering, type Entry, numberIn } from './entry.ts';

const NONE = toDecimal(0);

/** What the keyboard can do on a screen. */
export interface Keyed {
  /** The question that is asked, with what has been entered; null while none is. */
  readonly asking: () => { readonly question: Question; readonly entry: Entry } | null;
  readonly answering: Answering;
  /** What Enter does while nothing is asked; false if nothing. */
  readonly goOn: () => boolean;
  /** What an arrow key moves a number by, diamonds. */
  readonly step: number;
}

/** A session as the keyboard sees it. */
export function keyedTo(
  session: Answering & { readonly phase: ReadonlySignal<Keyable> },
  { document }: Chart,
  goOn: () => boolean,
): Keyed {
  return {
    asking: () => {
      const phase = session.phase.value;
      if (phase.at !== 'asking' || !('question' in phase) || !('texts' in phase)) return null;
      return { question: phase.question, entry: phase };
    },
    answering: session,
    goOn,
    step: toNumber(document.printStep),
  };
}

/** Any phase; one that asks has a question and an entry. */
type Keyable =
  | { readonly at: string }
  | (Entry & { readonly at: string; readonly question: Question });

/**
 * Starts listening; returns what stops it. In a layout effect, so that a key counts that is pressed
 * as soon as the question is seen.
 */
export function listenToKeys(keyed: Keyed): () => void {
  const onKey = (event: KeyboardEvent): void => {
    if (event.ctrlKey || event.metaKey || event.altKey || event.isComposing) return;
    if (event.defaultPrevented || isTyping(event.target)) return;
    const confirms = event.key === 'Enter' || event.key === ' ';
    // A key held down answers once: the result is there to be looked at.
    if (event.repeat && confirms) {
      event.preventDefault();
      return;
    }
    // Nor does a held digit answer one verdict after the other.
    if (event.repeat && keyed.asking()?.question.kind === 'trust') return;
    if (confirms && hasOwnAnswer(event.target)) return;
    if (press(keyed, event.key)) event.preventDefault();
  };
  window.addEventListener('keydown', onKey);
  return () => window.removeEventListener('keydown', onKey);
}

/** A note or a number being written elsewhere on the screen is not an answer. */
function isTyping(target: EventTarget | null): boolean {
  return target instanceof HTMLElement && target.closest('input, textarea, select') !== null;
}

/** A focused button answers to Enter and space itself; an answer's box does so only by a click. */
function hasOwnAnswer(target: EventTarget | null): boolean {
  if (!(target instanceof HTMLElement)) return false;
  return target.closest('button:not(.answer-box), a, summary') !== null;
}

/** Does what a key stands for; false if it stands for nothing here. */
export function press(keyed: Keyed, key: string): boolean {
  const now = keyed.asking();
  if (!now) return key === 'Enter' && keyed.goOn();
  const { answering } = keyed;
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
  else return pressArrow(keyed, now.question, now.entry, key);
  return true;
}

/** The verdicts by their places: 1, 2, 3. */
function pressVerdict(answering: Answering, key: string): boolean {
  const verdict = VERDICTS[Number(key) - 1];
  if (!verdict) return false;
  answering.choose(verdict);
  void answering.submit();
  return true;
}

function pressArrow(keyed: Keyed, question: Question, entry: Entry, key: string): boolean {
  const last = entry.texts.length - 1;
  switch (key) {
    case 'ArrowUp':
      keyed.answering.goTo(Math.max(0, entry.field - 1));
      return true;
    case 'ArrowDown':
      keyed.answering.goTo(Math.min(last, entry.field + 1));
      return true;
    case 'ArrowLeft':
    case 'ArrowRight': {
      const by = key === 'ArrowRight' ? keyed.step : -keyed.step;
      keyed.answering.point(entry.field, stepped(question, entry, by));
      return true;
    }
    default:
      return false;
  }
}

/** The next multiple of the step on; from nothing, the middle of what the field allows. */
function stepped(question: Question, entry: Entry, by: number): number {
  const field = fieldsOf(question)[entry.field];
  const [least, most] = [toNumber(field?.least ?? NONE), toNumber(field?.most ?? NONE)];
  const value = numberIn(question, entry, entry.field);
  if (value === null) return (least + most) / 2;
  // A hair back, so that a multiple itself is not its own next one.
  const next = (Math.floor(value / by + 1e-6) + 1) * by;
  return toNumber(toDecimal(Math.min(most, Math.max(least, next))));
}
