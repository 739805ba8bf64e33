/** The browser's speech (Web Speech API, W3C Community Group) as a voice for practice by ear. */

import type { Said, Voice } from '../../quiz/index.ts';

/** The parts of the browser that a voice needs, so that tests can bring their own. */
export interface Speech {
  readonly synthesis: Pick<
    SpeechSynthesis,
    'getVoices' | 'speak' | 'cancel' | 'addEventListener' | 'removeEventListener'
  >;
  readonly utter: (text: string) => SpeechSynthesisUtterance;
  /** Languages that the player prefers, the first most: BCP 47. */
  readonly languages: readonly string[];
  readonly now: () => number;
}

/** Browsers load their voices after the page, ms. */
const LOADING = 1500;
/** Slower than any voice speaks, ms a character; and for it to begin, ms. */
const A_CHARACTER = 250;
const TO_BEGIN = 6000;

/** @param speech null where the browser has none */
export function createVoice(speech: Speech | null): Voice {
  if (!speech) return { available: async () => [], speak: async () => 'failed', hush: () => {} };
  /** What is being spoken. The utterance is kept: browsers lose one that nobody holds. */
  let current: Speaking | null = null;
  const hush = (): void => {
    current?.end('cut off');
    speech.synthesis.cancel();
  };
  return {
    available: () => loaded(speech),
    hush,
    speak: (text, rate) => {
      if (current) hush();
      return new Promise((resolve) => {
        const [voice] = usable(speech);
        if (!voice) return resolve('failed');
        const watch = watchOver(speech, text.length, (said) => end(said));
        const end = (said: Said): void => {
          if (current?.end !== end) return;
          current = null;
          clearTimeout(watch);
          resolve(said);
        };
        const utterance = utter(speech, text, voice, end);
        utterance.rate = rate;
        current = { utterance, end };
        try {
          speech.synthesis.speak(utterance);
        } catch {
          // A browser that refuses by throwing has failed like one that refuses by an event.
          end('failed');
        }
      });
    },
  };
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

/** A voice that never tells its end must not end the practice. */
function watchOver({ now }: Speech, length: number, end: (said: Said) => void) {
  const most = TO_BEGIN + length * A_CHARACTER;
  const began = now();
  // Far too late, the page itself was stopped: that is no fault of the voice.
  return setTimeout(() => end(now() - began > 2 * most ? 'cut off' : 'failed'), most);
}

/** Waits until the browser has its voices, if it has any. */
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
 * English voices that are on the device, the player's own kind of English first. Others send what
 * they speak to a server, and nothing is sent from here.
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
