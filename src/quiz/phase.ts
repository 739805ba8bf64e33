/** What a session can be at: the states of its machine. */

import type { Card, Grade } from '../cards/index.ts';
import type { Decimal } from '../charts/index.ts';
import type { Mirror } from '../table/index.ts';

/** One card on the screen, in one of the table's pictures. */
export interface Shown {
  readonly card: Card;
  readonly mirror: Mirror;
}

export interface Asking extends Shown {
  readonly at: 'asking';
  /** What has been typed so far, one text per field. */
  readonly texts: readonly string[];
  readonly field: number;
  readonly problem: string | null;
  /** How often the card had been answered when it was shown. */
  readonly turn: number;
}

/** The answer as given: numbers and their grade, or null for "show me". */
export interface Given {
  readonly values: readonly Decimal[];
  readonly grade: Grade;
}

export type Phase =
  | (Shown & {
      readonly at: 'meeting';
      /** The first line of all: what a number means is explained with it. */
      readonly first: boolean;
      readonly problem: string | null;
    })
  | Asking
  /** Being written. */
  | (Shown & {
      readonly at: 'saving';
      readonly texts: readonly string[];
      readonly field: number;
    })
  | (Shown & {
      readonly at: 'answered';
      readonly eventId: string;
      readonly given: Given | null;
      readonly problem: string | null;
    })
  | { readonly at: 'done' };

export interface Progress {
  readonly answered: number;
  readonly left: number;
}
