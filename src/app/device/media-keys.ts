/** The keys of a headset or a lock screen (Media Session, W3C), for practice by ear. */

import type { MediaHandlers, MediaKeys } from '../../quiz/index.ts';
import { silentWav } from './silence.ts';

/** The parts of the browser that media keys need, so that tests can bring their own. */
export interface MediaPlatform {
  readonly session: Pick<MediaSession, 'setActionHandler' | 'metadata'>;
  /** What the lock screen shows. */
  readonly title: (title: string) => MediaMetadata;
  /** Plays over and over; returns what stops it. */
  readonly play: (sound: Blob) => () => void;
}

/** Sounds under 5 s get no media session in Chromium (from memory). */
const SECONDS = 10;

/** @param platform null where the browser has no media session */
export function createMediaKeys(platform: MediaPlatform | null): MediaKeys {
  if (!platform) return { listen: () => () => {} };
  return {
    listen: (handlers) => {
      // The keys go to the page that plays something: silence is enough.
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

/** Play and pause are one key on most headsets, and either may come. */
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
      // A browser that does not know an action throws; the others still serve.
    }
  };
  for (const [action, handler] of actions) set(action, handler);
  return () => {
    for (const [action] of actions) set(action, null);
  };
}

/** Plays a sound in a loop. That it may not be played costs the keys and nothing else. */
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
