/** The browser's speech synthesis (Web Speech API, W3C Community Group), for practice by ear. */

import type { Said, Voice } from '../../quiz/index.ts';

/** The parts of the browser that a voice needs; tests pass fakes. */
export interface Speech {
  readonly synthesis: Pick<
    SpeechSynthesis,
    'getVoices' | 'speak' | 'cancel' | 'addEventListener' | 'removeEventListener'
  >;
  readonly utter: (text: string) => SpeechSynthesisUtterance;
  /** The player's languages (BCP 47), the preferred one first. */
  readonly languages: readonly string[];
  readonly now: () => number;
}

/** Longest wait for the voices, which browsers load after the page, ms. */
const LOADING = 1500;
/** Slower than any voice speaks, ms per character. */
const SLOWEST_MS = 250;
/** Longest wait until a voice begins, ms. */
const TO_BEGIN = 6000;

/** @param speech null where the browser has none */
export function createVoice(speech: Speech | null): Voice {
  if (!speech) return { available: async () => [], speak: async () => 'failed', hush: () => {} };
  /** What is being spoken. Holds the utterance, which browsers drop if nothing refers to it. */
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
    // Some browsers refuse by throwing, others by an event.
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

/** Ends an utterance whose end the browser never reports: practice must go on. */
function watchOver({ now }: Speech, length: number, end: (said: Said) => void) {
  const most = TO_BEGIN + length * SLOWEST_MS;
  const began = now();
  // If the timer itself is far too late, the page was suspended and the voice is not to blame.
  return setTimeout(() => end(now() - began > 2 * most ? 'cut off' : 'failed'), most);
}

/** The usable voices, once the browser has loaded them. */
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
 * English voices on the device, the player's own kind of English first. Other voices send the text to
 * a server; this app sends nothing.
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

/** Some platforms write en_GB. */
function plain(language: string): string {
  return language.toLowerCase().replace('_', '-');
}
