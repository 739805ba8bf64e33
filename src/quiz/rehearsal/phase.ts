/** The states of a rehearsal. */

import { questionOf } from '../../cards/index.ts';
import type { RehearsalDraft } from '../../scheduler/index.ts';
import { type Entry, emptyEntry } from '../stage/entry.ts';
import type { ShownCard } from '../stage/phase.ts';
import { mirrorFor } from '../stage/questions.ts';
import { type Stopped, seedAt } from './draft.ts';
import type { RehearsalSource } from './source.ts';

interface AtQuestion extends ShownCard, Entry {
  readonly draft: RehearsalDraft;
  /**
   * Set once the player has called or the clock has run out. The time stands still until the answer
   * is on the disk.
   */
  readonly stopped: Stopped | null;
}

export type RehearsalPhase =
  | (AtQuestion & { readonly at: 'asking' })
  /** The answer is being written. */
  | (AtQuestion & { readonly at: 'saving' })
  /**
   * Every question is answered. The rehearsal is being written into the log, or could not be
   * written.
   */
  | { readonly at: 'ending'; readonly draft: RehearsalDraft; readonly problem: string | null }
  /**
   * Every question that could be asked is answered, but some were left out. The player decides how
   * to end.
   */
  | { readonly at: 'short'; readonly draft: RehearsalDraft; readonly leftOut: number }
  /** Another tab has answered more questions of this rehearsal, or has finished or dropped it. */
  | { readonly at: 'elsewhere'; readonly why: Elsewhere };

export type Elsewhere = 'further on' | 'gone';

export type Asking = Extract<RehearsalPhase, { readonly at: 'asking' }>;

const LEFT_OUT = 'A question that is no longer on the chart was left out.';

/** Returns the phase for the next question that can be asked, or for the end. */
export function nextPhase(
  source: RehearsalSource,
  draft: RehearsalDraft,
  problem: string | null,
): RehearsalPhase {
  const n = draft.answers.length;
  const id = draft.cards[n];
  if (id === undefined) return lastPhase(draft);
  const card = source.cards.find((one) => one.id === id);
  const question = card && questionOf(source.asker, card, seedAt(draft.seed, n));
  if (!question) {
    const cards = draft.cards.filter((_, at) => at !== n);
    return nextPhase(source, { ...draft, cards }, LEFT_OUT);
  }
  const mirror = mirrorFor(draft, id, n);
  const entry = { ...emptyEntry(question), problem };
  return { at: 'asking', draft, card, question, mirror, ...entry, stopped: null };
}

/**
 * Returns the phase after the last question. The rehearsal ends by itself only if no question was
 * left out.
 */
function lastPhase(draft: RehearsalDraft): RehearsalPhase {
  const leftOut = draft.spec.count - draft.cards.length;
  return leftOut > 0 ? { at: 'short', draft, leftOut } : { at: 'ending', draft, problem: null };
}

/** Returns the phase to show. What another tab did to the rehearsal takes precedence. */
export function seenPhase(now: RehearsalPhase, stored: RehearsalDraft | null): RehearsalPhase {
  if (now.at !== 'asking' && now.at !== 'short') return now;
  const why = elsewhere(now.draft, stored);
  return why ? { at: 'elsewhere', why } : now;
}

/** Tells how another tab has overtaken this one; null if it has not. */
export function elsewhere(mine: RehearsalDraft, stored: RehearsalDraft | null): Elsewhere | null {
  if (stored?.id !== mine.id) return 'gone';
  return stored.answers.length > mine.answers.length ? 'further on' : null;
}
