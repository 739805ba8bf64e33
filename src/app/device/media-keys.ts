/** Listens to the keys of a headset or a lock screen (Media Session, W3C), for practice by ear. */

import type { MediaHandlers, MediaKeys } from '../../quiz/index.ts';
import { silentWav } from './silence.ts';

/** The parts of the browser that media keys need. Tests pass fakes. */
export interface MediaPlatform {
  readonly session: Pick<MediaSession, 'setActionHandler' | 'metadata'>;
  /** Returns the text for the lock screen. */
  readonly title: (title: string) => MediaMetadata;
  /** Plays a sound in a loop; returns a function that stops it. */
  readonly play: (sound: Blob) => () => void;
}

/**
 * The length of the silent sound, in seconds. Chromium starts no media session for sounds under 5 s
 * (cited from memory, not from its documentation).
 */
const SECONDS = 10;

/** @param platform the parts of the browser; null if it has no media session */
export function createMediaKeys(platform: MediaPlatform | null): MediaKeys {
  if (!platform) return { listen: () => () => {} };
  return {
    listen: (handlers) => {
      // The browser sends the keys to the page that plays something. Silence is enough.
      const stop = platform.play(new Blob([silentWav(SECONDS)], { type: 'audio/wav' }));
      const unset = setAll(platform.session, actionsFor(handlers));
      platform.session.metadata = platform.title('By ear');
      return () => {
        unset();
        platform.session.metadata = null;
        stop();
      };
    },
  };
}

type Actions = readonly (readonly [MediaSessionAction, () => void])[];

/** Returns the actions. Play and pause are one key on most headsets; the browser may report either. */
function actionsFor({ hadIt, not, pause }: MediaHandlers): Actions {
  return [
    ['nexttrack', hadIt],
    ['previoustrack', not],
    ['play', pause],
    ['pause', pause],
  ];
}

function setAll(session: MediaPlatform['session'], actions: Actions): () => void {
  const set = (action: MediaSessionAction, handler: (() => void) | null): void => {
    try {
      session.setActionHandler(action, handler);
    } catch {
      // A browser throws for an action that it does not know. The other actions still work.
    }
  };
  for (const [action, handler] of actions) set(action, handler);
  return () => {
    for (const [action] of actions) set(action, null);
  };
}

/** Plays a sound in a loop. If the browser refuses, only the keys are lost. */
export function playLooped(sound: Blob): () => void {
  const url = URL.createObjectURL(sound);
  const audio = new Audio(url);
  audio.loop = true;
  audio.play().catch(() => undefined);
  return () => {
    audio.pause();
    audio.removeAttribute('src');
    URL.revokeObjectURL(url);
  };
}
