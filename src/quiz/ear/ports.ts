/** What practice by ear needs of the device: a voice, remote keys, and a screen that stays on. */

import type { Card } from '../../cards/index.ts';
import type { PlannedPorts } from '../stage/ports.ts';

/** `cut off`: something else took the voice away; `failed`: it cannot be spoken at all. */
export type Said = 'spoken' | 'cut off' | 'failed';

export interface VoiceInfo {
  readonly name: string;
  /** As in BCP 47: en-GB. */
  readonly lang: string;
}

export interface Voice {
  /** Usable voices, the best first; empty if the device has none. */
  readonly available: () => Promise<readonly VoiceInfo[]>;
  /** @param rate a multiple of the voice's own speed; resolves at the end and never rejects */
  readonly speak: (text: string, rate: number) => Promise<Said>;
  /** Silences the voice at once; what it was speaking ends as `cut off`. */
  readonly hush: () => void;
}

export interface MediaHandlers {
  readonly hadIt: () => void;
  readonly not: () => void;
  /** Pauses or resumes. */
  readonly pause: () => void;
}

/** The keys of a headset or a lock screen. */
export interface MediaKeys {
  /** Returns a function that stops it. */
  readonly listen: (handlers: MediaHandlers) => () => void;
}

export interface WakeLock {
  /** Keeps the screen on until released; never rejects, and does nothing where it has no way to. */
  readonly hold: () => Promise<() => void>;
}

export interface Visibility {
  readonly hidden: () => boolean;
  /** Reports each change; returns a function that stops it. */
  readonly watch: (changed: (hidden: boolean) => void) => () => void;
}

export interface EarDevice {
  readonly voice: Voice;
  readonly mediaKeys: MediaKeys;
  readonly wakeLock: WakeLock;
  readonly visibility: Visibility;
  /** Runs something once, after so many milliseconds; returns a function that cancels it. */
  readonly after: (ms: number, then: () => void) => () => void;
}

export interface EarPorts extends EarDevice, Omit<PlannedPorts, 'stopwatch'> {
  readonly cards: readonly Card[];
}
