/** Speaks with the browser's speech synthesis (Web Speech API, W3C Community Group). */

import type { Said, Voice } from '../../quiz/index.ts';

/** The parts of the browser that a voice needs. Tests pass fakes. */
export interface Speech {
  readonly synthesis: Pick<
    SpeechSynthesis,
    'getVoices' | 'speak' | 'cancel' | 'addEventListener' | 'removeEventListener'
  >;
  readonly utter: (text: string) => SpeechSynthesisUtterance;
  /** The player's languages (BCP 47), with the preferred one first. */
  readonly languages: readonly string[];
  readonly now: () => number;
}

/** The longest wait for voices, in milliseconds. Browsers load voices after the page. */
const LOADING = 1500;
/** The time per character, in milliseconds, of a voice that is slower than any real one. */
const SLOWEST_MS = 250;
/** The longest wait until a voice begins, in milliseconds. */
const TO_BEGIN = 6000;

/** @param speech the browser's speech synthesis; null if it has none */
export function createVoice(speech: Speech | null): Voice {
  if (!speech) return { available: async () => [], speak: async () => 'failed', hush: () => {} };
  /** What is being spoken. This keeps the utterance, which browsers drop if nothing refers to it. */
  let current: Speaking | null = null;
  const hush = (): void => {
    current?.end('cut off');
    speech.synthesis.cancel();
  };
  const speak = (text: string, rate: number, voice: SpeechSynthesisVoice): Promise<Said> =>
    new Promise((resolve) => {
      const end = (said: Said): void => {
        if (current?.end !== end) return;
        current = null;
        clearTimeout(watch);
        resolve(said);
      };
      const watch = watchOver(speech, text.length, end);
      const utterance = utter(speech, text, voice, end);
      utterance.rate = rate;
      current = { utterance, end };
      start(speech, current);
    });
  return {
    available: () => loaded(speech),
    hush,
    speak: (text, rate) => {
      if (current) hush();
      const [voice] = usable(speech);
      return voice ? speak(text, rate, voice) : Promise.resolve('failed');
    },
  };
}

function start({ synthesis }: Speech, { utterance, end }: Speaking): void {
  try {
    synthesis.speak(utterance);
  } catch {
    // Some browsers refuse by throwing an error, others with an event.
    end('failed');
  }
}

interface Speaking {
  readonly utterance: SpeechSynthesisUtterance;
  readonly end: (said: Said) => void;
}

function utter(
  speech: Speech,
  text: string,
  voice: SpeechSynthesisVoice,
  end: (said: Said) => void,
): SpeechSynthesisUtterance {
  const utterance = speech.utter(text);
  utterance.voice = voice;
  utterance.lang = voice.lang;
  utterance.onend = () => end('spoken');
  utterance.onerror = ({ error }) =>
    end(error === 'interrupted' || error === 'canceled' ? 'cut off' : 'failed');
  return utterance;
}

/** Ends an utterance if the browser never reports its end, because practice must go on. */
function watchOver({ now }: Speech, length: number, end: (said: Said) => void) {
  const most = TO_BEGIN + length * SLOWEST_MS;
  const began = now();
  // If this timer fires far too late, the page was suspended, and the voice did not fail.
  return setTimeout(() => end(now() - began > 2 * most ? 'cut off' : 'failed'), most);
}

/** Returns the usable voices when the browser has loaded them. */
function loaded(speech: Speech): Promise<readonly SpeechSynthesisVoice[]> {
  const { synthesis } = speech;
  const here = usable(speech);
  if (here.length > 0) return Promise.resolve(here);
  return new Promise((resolve) => {
    const done = (): void => {
      clearTimeout(timer);
      synthesis.removeEventListener('voiceschanged', changed);
      resolve(usable(speech));
    };
    const changed = (): void => {
      if (usable(speech).length > 0) done();
    };
    const timer = setTimeout(done, LOADING);
    synthesis.addEventListener('voiceschanged', changed);
  });
}

/**
 * Returns the English voices on the device, with the player's own kind of English first. Other voices
 * send the text to a server, and this app sends nothing.
 */
function usable({ synthesis, languages }: Speech): readonly SpeechSynthesisVoice[] {
  const wish = languages.map(plain).find((language) => language.startsWith('en-')) ?? '';
  const rank = (voice: SpeechSynthesisVoice) =>
    (plain(voice.lang) === wish ? 0 : 2) + (voice.default ? 0 : 1);
  return synthesis
    .getVoices()
    .filter((voice) => voice.localService && /^en(-|$)/.test(plain(voice.lang)))
    .sort((a, b) => rank(a) - rank(b));
}

/** Returns a language in a uniform spelling. Some platforms write en_GB instead of en-GB. */
function plain(language: string): string {
  return language.toLowerCase().replace('_', '-');
}
