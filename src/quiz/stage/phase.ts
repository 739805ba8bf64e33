/** What a session can be at: the states of its machine. */

import type { Card, LineCard, Question } from '../../cards/index.ts';
import type { Mirror } from '../../table/index.ts';
import type { Changed } from '../words/changed.ts';
import type { Given } from '../words/given.ts';
import type { Entry } from './entry.ts';

/** One question on the screen, in one of the table's pictures. */
export interface Shown {
  readonly question: Question;
  readonly mirror: Mirror;
}

/** A question of a card. */
export interface ShownCard extends Shown {
  readonly card: Card;
}

export interface Asking extends ShownCard, Entry {
  readonly at: 'asking';
  /** How often the card had been answered when it was shown. */
  readonly turn: number;
}

/** What the feedback is about. */
export interface Told {
  readonly given: Given | null;
  /** What a revision made of its number, if the player had not been shown it. */
  readonly changed: Changed | null;
}

export type Phase =
  | {
      readonly at: 'meeting';
      readonly card: LineCard;
      readonly mirror: Mirror;
      /** The first line of all: what a number means is explained with it. */
      readonly first: boolean;
      /** Its number moved: it is met anew. */
      readonly changed: Changed | null;
      readonly problem: string | null;
    }
  | Asking
  /** Being written: an answer that is told of already, or that one is taken back. */
  | (ShownCard & Entry & { readonly at: 'saving'; readonly told: Told | null })
  | (ShownCard &
      Told & {
        readonly at: 'answered';
        readonly eventId: string;
        readonly problem: string | null;
      })
  /** Nothing is left today, or the minutes chosen are over. */
  | {
      readonly at: 'done';
      readonly why: 'nothing left' | 'time is up';
      readonly problem: string | null;
    };

export interface Progress {
  readonly answered: number;
  /** To be asked in this session, as far as can be told. */
  readonly left: number;
  /** Due today altogether, if that is more. */
  readonly waiting?: number;
}
