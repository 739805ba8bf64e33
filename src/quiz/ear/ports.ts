/**
 * What practice by ear needs from the device: a voice, headset keys, and a screen that stays on.
 */

import type { Card } from '../../cards/index.ts';
import type { SessionPorts } from '../stage/ports.ts';

/**
 * `cut off`: something else interrupted the voice. `failed`: the voice cannot speak the text at
 * all.
 */
export type Said = 'spoken' | 'cut off' | 'failed';

export interface VoiceInfo {
  readonly name: string;
  /** The BCP 47 language tag, such as en-GB. */
  readonly lang: string;
}

export interface Voice {
  /** Resolves to the usable voices, best first; empty if the device has none. */
  readonly available: () => Promise<readonly VoiceInfo[]>;
  /**
   * Speaks a text. Resolves at the end and never rejects.
   * @param rate a multiple of the voice's normal speed
   */
  readonly speak: (text: string, rate: number) => Promise<Said>;
  /** Silences the voice at once. What it was speaking ends as `cut off`. */
  readonly hush: () => void;
}

export interface MediaHandlers {
  readonly hadIt: () => void;
  readonly not: () => void;
  /** Pauses or resumes. */
  readonly pause: () => void;
}

/** The media keys of a headset or a lock screen. */
export interface MediaKeys {
  /** Starts listening to the keys; returns a function that stops it. */
  readonly listen: (handlers: MediaHandlers) => () => void;
}

export interface WakeLock {
  /**
   * Keeps the screen on until the returned function is called. Never rejects. Does nothing if the
   * device offers no way to keep the screen on.
   */
  readonly hold: () => Promise<() => void>;
}

export interface Visibility {
  readonly hidden: () => boolean;
  /** Reports each change of visibility; returns a function that stops this. */
  readonly watch: (changed: (hidden: boolean) => void) => () => void;
}

export interface EarDevice {
  readonly voice: Voice;
  readonly mediaKeys: MediaKeys;
  readonly wakeLock: WakeLock;
  readonly visibility: Visibility;
  /**
   * Calls a function once, after the given number of milliseconds. Returns a function that cancels
   * it.
   */
  readonly after: (ms: number, then: () => void) => () => void;
}

export interface EarPorts extends EarDevice, Omit<SessionPorts, 'stopwatch'> {
  readonly cards: readonly Card[];
}
