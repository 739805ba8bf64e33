/** The states of practice by ear. */

import type { LineCard } from '../../cards/index.ts';
import type { EarWords } from './spoken.ts';

/** Whether a voice was found on the device, or is still being looked for. */
export type Found = 'looking' | 'voice' | 'none';

export interface EarQuestion {
  readonly card: LineCard;
  readonly words: EarWords;
  /** How many times the card had been answered when it was chosen. */
  readonly turn: number;
}

export type EarPhase =
  | { readonly at: 'ready' }
  /** The caution is being spoken. */
  | { readonly at: 'caution' }
  /** The question is being spoken. */
  | { readonly at: 'asking'; readonly asked: EarQuestion }
  | { readonly at: 'thinking'; readonly asked: EarQuestion; readonly seconds: number }
  /** The number is being spoken. The player may already judge. */
  | { readonly at: 'telling'; readonly asked: EarQuestion }
  | { readonly at: 'judging'; readonly asked: EarQuestion }
  /** The player's judgment is being written. */
  | { readonly at: 'saving'; readonly asked: EarQuestion }
  | {
      readonly at: 'paused';
      /** The question that was paused; null if the caution was cut off. */
      readonly asked: EarQuestion | null;
      /**
       * Whether the pause was not the player's choice: the voice was taken away, or the page was
       * hidden.
       */
      readonly cut: boolean;
    }
  | { readonly at: 'done'; readonly why: 'none met' | 'all asked' };

/** How often the player judged "had it" and "not" in this session. */
export interface EarScore {
  readonly hadIt: number;
  readonly not: number;
}
