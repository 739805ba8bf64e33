/** The states of a session. */

import type { Card, LineCard, Question } from '../../cards/index.ts';
import type { Mirror } from '../../table/index.ts';
import type { Changed } from '../words/changed.ts';
import type { Given } from '../words/given.ts';
import type { Entry } from './entry.ts';

/** A question on the screen, in one of the table's four pictures. */
export interface Shown {
  readonly question: Question;
  readonly mirror: Mirror;
}

export interface ShownCard extends Shown {
  readonly card: Card;
}

export interface Asking extends ShownCard, Entry {
  readonly at: 'asking';
  /** How many times the card had been answered when it was shown. */
  readonly turn: number;
}

/** What the feedback is about. */
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
      /** The first line of all: the panel also explains what a number means. */
      readonly first: boolean;
      /** Set if its number moved, so that the player meets it again. */
      readonly changed: Changed | null;
      readonly problem: string | null;
    }
  | Asking
  /** Being written: an answer whose result shows already, or (null) that one is taken back. */
  | (ShownCard & Entry & { readonly at: 'saving'; readonly result: Result | null })
  | (ShownCard &
      Result & {
        readonly at: 'answered';
        readonly eventId: string;
        readonly problem: string | null;
      })
  /** Nothing is left today, or the chosen minutes are over. */
  | {
      readonly at: 'done';
      readonly why: 'nothing left' | 'time is up';
      readonly problem: string | null;
    };

export interface Progress {
  readonly answered: number;
  /** Questions this session still has, as far as is known. */
  readonly left: number;
  /** All that is due today, if that is more. */
  readonly waiting?: number;
}
