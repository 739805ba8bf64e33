/** The parts of this browser that practice by ear uses. */

import type { EarDevice, Visibility } from '../../quiz/index.ts';
import { createMediaKeys, type MediaPlatform, playLooped } from './media-keys.ts';
import { createVoice, type Speech } from './voice.ts';
import { createWakeLock } from './wake-lock.ts';

export function browserEar(): EarDevice {
  return {
    voice: createVoice(speech()),
    mediaKeys: createMediaKeys(media()),
    wakeLock: createWakeLock('wakeLock' in navigator ? navigator.wakeLock : undefined),
    visibility,
    after: (ms, then) => {
      const timer = setTimeout(then, ms);
      return () => clearTimeout(timer);
    },
  };
}

function speech(): Speech | null {
  if (!('speechSynthesis' in window && 'SpeechSynthesisUtterance' in window)) return null;
  return {
    synthesis: window.speechSynthesis,
    utter: (text) => new SpeechSynthesisUtterance(text),
    languages: navigator.languages,
    now: () => performance.now(),
  };
}

function media(): MediaPlatform | null {
  if (!('mediaSession' in navigator && 'MediaMetadata' in window)) return null;
  return {
    session: navigator.mediaSession,
    title: (title) => new MediaMetadata({ title, artist: 'Throughline' }),
    play: playLooped,
  };
}

const visibility: Visibility = {
  hidden: () => document.hidden,
  watch: (changed) => {
    const listener = (): void => changed(document.hidden);
    document.addEventListener('visibilitychange', listener);
    return () => document.removeEventListener('visibilitychange', listener);
  },
};
