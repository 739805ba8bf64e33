/** What practice by ear asks of the device: a voice, keys away from the screen, a screen that stays on. */

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
  /** Voices that can be used, the best first; none if the device has none. */
  readonly available: () => Promise<readonly VoiceInfo[]>;
  /** @param rate of the voice's own speed; resolves when it is over, and never rejects */
  readonly speak: (text: string, rate: number) => Promise<Said>;
  /** Silence at once: what was being spoken is cut off. */
  readonly hush: () => void;
}

export interface MediaHandlers {
  readonly hadIt: () => void;
  readonly not: () => void;
  /** Pauses, or goes on. */
  readonly pause: () => void;
}

/** The keys of a headset or a lock screen. */
export interface MediaKeys {
  /** Returns what stops it. */
  readonly listen: (handlers: MediaHandlers) => () => void;
}

export interface WakeLock {
  /** Keeps the screen on until released; never rejects, and does nothing where it cannot. */
  readonly hold: () => Promise<() => void>;
}

export interface Visibility {
  readonly hidden: () => boolean;
  /** Tells each change; returns what stops it. */
  readonly watch: (changed: (hidden: boolean) => void) => () => void;
}

/** The device, as far as practice by ear needs it. */
export interface EarDevice {
  readonly voice: Voice;
  readonly mediaKeys: MediaKeys;
  readonly wakeLock: WakeLock;
  readonly visibility: Visibility;
  /** Does something once, after so many milliseconds; returns what calls it off. */
  readonly after: (ms: number, then: () => void) => () => void;
}

export interface EarPorts extends EarDevice, Omit<PlannedPorts, 'stopwatch'> {
  readonly cards: readonly Card[];
}
