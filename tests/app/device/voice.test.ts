import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { createVoice, type Speech } from '../../../src/app/device/voice.ts';

// Events and error codes: Web Speech API, W3C Community Group draft, "SpeechSynthesisUtterance".

type Utterance = Partial<Omit<SpeechSynthesisUtterance, 'onend' | 'onerror'>> & {
  readonly text: string;
  onend?: () => void;
  onerror?: (event: { readonly error: string }) => void;
};

const LOCAL = { name: 'Here', lang: 'en-GB', localService: true, default: false };
const OTHERS = [
  { name: 'Far away', lang: 'en-GB', localService: false, default: true },
  { name: 'Ici', lang: 'fr-FR', localService: true, default: true },
];

let voices: object[];
let spoken: Utterance[];
let cancelled: number;
let clock: number;
let target: EventTarget;
let speech: Speech;

beforeEach(() => {
  vi.useFakeTimers();
  voices = [LOCAL];
  spoken = [];
  cancelled = 0;
  clock = 0;
  target = new EventTarget();
  speech = {
    synthesis: {
      getVoices: () => voices as SpeechSynthesisVoice[],
      speak: (utterance) => void spoken.push(utterance as never),
      cancel: () => {
        cancelled += 1;
      },
      addEventListener: target.addEventListener.bind(target) as never,
      removeEventListener: target.removeEventListener.bind(target) as never,
    },
    utter: (text) => ({ text }) as never,
    languages: ['en-GB', 'en'],
    now: () => clock,
  };
});

afterEach(() => {
  vi.useRealTimers();
});

async function pass(ms: number): Promise<void> {
  for (let passed = 0; passed < ms; passed += 100) {
    const step = Math.min(100, ms - passed);
    clock += step;
    await vi.advanceTimersByTimeAsync(step);
  }
}

describe('the voices of a browser', () => {
  it('are the English ones on the device, the player’s own English first', async () => {
    const american = { ...LOCAL, name: 'American', lang: 'en_US', default: true };
    voices = [...OTHERS, american, LOCAL];
    const available = await createVoice(speech).available();
    expect(available.map(({ name }) => name)).toEqual(['Here', 'American']);
  });

  it('are none on a server: nothing is sent', async () => {
    voices = OTHERS;
    const available = createVoice(speech).available();
    await pass(1500);
    expect(await available).toEqual([]);
    expect(await createVoice(speech).speak('Two.', 1)).toBe('failed');
    expect(spoken).toEqual([]);
  });

  it('are waited for 1.5 s and no longer', async () => {
    voices = [];
    const late = createVoice(speech).available();
    const never = createVoice({ ...speech, synthesis: { ...speech.synthesis } }).available();
    await pass(1000);
    voices = [LOCAL];
    target.dispatchEvent(new Event('voiceschanged'));
    expect(await late).toEqual([LOCAL]);
    expect(await never).toEqual([LOCAL]);
    voices = [];
    let answered = false;
    void createVoice(speech)
      .available()
      .then(() => {
        answered = true;
      });
    await pass(1499);
    expect(answered).toBe(false);
    await pass(1);
    expect(answered).toBe(true);
  });

  it('are none where the browser has no speech', async () => {
    const voice = createVoice(null);
    expect(await voice.available()).toEqual([]);
    expect(await voice.speak('Two.', 1)).toBe('failed');
    voice.hush();
  });
});

describe('speaking', () => {
  it('ends with the utterance', async () => {
    const said = createVoice(speech).speak('One point four.', 0.8);
    expect(spoken[0]).toMatchObject({ text: 'One point four.', rate: 0.8, lang: 'en-GB' });
    spoken[0]?.onend?.();
    expect(await said).toBe('spoken');
  });

  it.each([
    ['interrupted', 'cut off'],
    ['canceled', 'cut off'],
    ['synthesis-failed', 'failed'],
    ['audio-busy', 'failed'],
    ['not-allowed', 'failed'],
  ])('with the error %s is %s', async (error, how) => {
    const said = createVoice(speech).speak('Two.', 1);
    spoken[0]?.onerror?.({ error });
    expect(await said).toBe(how);
  });

  it('fails if the browser throws, and can be tried again', async () => {
    const { speak } = speech.synthesis;
    let throws = true;
    const synthesis: Speech['synthesis'] = {
      ...speech.synthesis,
      speak: (utterance) => {
        if (throws) throw new Error('no engine');
        speak(utterance);
      },
    };
    const voice = createVoice({ ...speech, synthesis });
    expect(await voice.speak('Two.', 1)).toBe('failed');
    expect(vi.getTimerCount()).toBe(0);
    throws = false;
    const second = voice.speak('Three.', 1);
    expect(cancelled).toBe(0);
    spoken[0]?.onend?.();
    expect(await second).toBe('spoken');
  });

  it('is cut off at once when hushed, and its late events change nothing', async () => {
    const voice = createVoice(speech);
    const first = voice.speak('Two.', 1);
    voice.hush();
    expect(await first).toBe('cut off');
    expect(cancelled).toBe(1);
    const second = voice.speak('Three.', 1);
    spoken[0]?.onerror?.({ error: 'interrupted' });
    spoken[1]?.onend?.();
    expect(await second).toBe('spoken');
  });

  it('cuts off what was being said', async () => {
    const voice = createVoice(speech);
    const first = voice.speak('Two.', 1);
    const second = voice.speak('Three.', 1);
    expect(await first).toBe('cut off');
    spoken[1]?.onend?.();
    expect(await second).toBe('spoken');
  });

  it('fails if it never ends', async () => {
    const said = createVoice(speech).speak('Two.', 1);
    await pass(60_000);
    expect(await said).toBe('failed');
  });

  it('is cut off if it never ends because the page was suspended', async () => {
    const said = createVoice(speech).speak('Two.', 1);
    clock += 3_600_000;
    await pass(60_000);
    expect(await said).toBe('cut off');
  });
});
