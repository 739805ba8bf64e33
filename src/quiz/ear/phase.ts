/** The states of practice by ear. */

import type { LineCard } from '../../cards/index.ts';
import type { EarWords } from './spoken.ts';

/** What is known about a voice on the device. */
export type Found = 'looking' | 'voice' | 'none';

export interface EarQuestion {
  readonly card: LineCard;
  readonly words: EarWords;
  /** How many times the card had been answered when it was chosen. */
  readonly turn: number;
}

export type EarPhase =
  | { readonly at: 'ready' }
  /** The caution is spoken. */
  | { readonly at: 'caution' }
  /** The question is spoken. */
  | { readonly at: 'asking'; readonly asked: EarQuestion }
  | { readonly at: 'thinking'; readonly asked: EarQuestion; readonly seconds: number }
  /** The number is spoken; the player may judge already. */
  | { readonly at: 'telling'; readonly asked: EarQuestion }
  | { readonly at: 'judging'; readonly asked: EarQuestion }
  /** The judgement is being written. */
  | { readonly at: 'saving'; readonly asked: EarQuestion }
  | {
      readonly at: 'paused';
      /** Null if the caution was cut off. */
      readonly asked: EarQuestion | null;
      /** The player did not ask for it: the voice was taken away, or the page was hidden. */
      readonly cut: boolean;
    }
  | { readonly at: 'done'; readonly why: 'none met' | 'all asked' };

/** The judgements of this session. */
export interface EarScore {
  readonly hadIt: number;
  readonly not: number;
}
