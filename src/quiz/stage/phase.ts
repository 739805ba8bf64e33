/** The states of a session. */

import type { Card, LineCard, Question } from '../../cards/index.ts';
import type { Mirror } from '../../table/index.ts';
import type { Changed } from '../words/changed.ts';
import type { Given } from '../words/given.ts';
import type { Entry } from './entry.ts';

/** A question on the screen, in one of the four mirrored pictures of the table. */
export interface Shown {
  readonly question: Question;
  readonly mirror: Mirror;
}

export interface ShownCard extends Shown {
  readonly card: Card;
}

export interface Asking extends ShownCard, Entry {
  readonly at: 'asking';
  /** How many times the card had been answered when this question was shown. */
  readonly turn: number;
}

/** The answer that the feedback is about. */
export interface Result {
  /** Null for "show me". */
  readonly given: Given | null;
  /** How a revision changed the number, if the player had not been shown that yet. */
  readonly changed: Changed | null;
}

export type Phase =
  | {
      readonly at: 'meeting';
      readonly card: LineCard;
      readonly mirror: Mirror;
      /** Whether this is the very first line. The panel then also explains what a number means. */
      readonly first: boolean;
      /** Set if the line's number was revised, which is why the player meets the line again. */
      readonly changed: Changed | null;
      readonly problem: string | null;
    }
  | Asking
  /**
   * An answer is being written, and its result already shows. If the result is null, an earlier
   * answer is being taken back.
   */
  | (ShownCard & Entry & { readonly at: 'saving'; readonly result: Result | null })
  | (ShownCard &
      Result & {
        readonly at: 'answered';
        readonly eventId: string;
        readonly problem: string | null;
      })
  /** Nothing is left to ask today, or the chosen minutes are over. */
  | {
      readonly at: 'done';
      readonly why: 'nothing left' | 'time is up';
      readonly problem: string | null;
    };

export interface Progress {
  readonly answered: number;
  /** How many questions this session still has, as currently known. */
  readonly left: number;
  /** How many questions are still due today, including those this session has no time for. */
  readonly waiting?: number;
}
