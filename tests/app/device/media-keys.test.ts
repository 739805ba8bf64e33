import { describe, expect, it } from 'vitest';
import { createMediaKeys, type MediaPlatform } from '../../../src/app/device/media-keys.ts';
import { silentWav } from '../../../src/app/device/silence.ts';
import { createWakeLock } from '../../../src/app/device/wake-lock.ts';

const nothing = { hadIt: () => {}, not: () => {}, pause: () => {} };

function createPlatform(unknown: string | null = null) {
  const handlers = new Map<string, () => void>();
  const state = { playing: 0, sounds: [] as Blob[] };
  const platform: MediaPlatform = {
    session: {
      metadata: null,
      setActionHandler: (action, handler) => {
        // Media Session, W3C: an action that the browser does not know is a TypeError (WebIDL enum).
        if (action === unknown) throw new TypeError('not a valid enum value');
        if (handler) handlers.set(action, () => handler({ action }));
        else handlers.delete(action);
      },
    },
    title: (title) => ({ title }) as MediaMetadata,
    play: (sound) => {
      state.playing += 1;
      state.sounds.push(sound);
      return () => {
        state.playing -= 1;
      };
    },
  };
  return { platform, handlers, state };
}

describe('media keys', () => {
  it('map next to "had it", previous to "not", and play and pause to one handler', () => {
    const { platform, handlers } = createPlatform();
    const pressed: string[] = [];
    createMediaKeys(platform).listen({
      hadIt: () => pressed.push('had it'),
      not: () => pressed.push('not'),
      pause: () => pressed.push('pause'),
    });
    for (const action of ['nexttrack', 'previoustrack', 'pause', 'play']) handlers.get(action)?.();
    expect(pressed).toEqual(['had it', 'not', 'pause', 'pause']);
    expect(platform.session.metadata).toMatchObject({ title: 'By ear' });
  });

  it('listen to, show and play nothing once stopped', () => {
    const { platform, handlers, state } = createPlatform();
    const stop = createMediaKeys(platform).listen(nothing);
    expect(state.playing).toBe(1);
    expect(state.sounds[0]?.type).toBe('audio/wav');
    stop();
    expect(handlers.size).toBe(0);
    expect(state.playing).toBe(0);
    expect(platform.session.metadata).toBe(null);
  });

  it('lose only the key of an action that the browser does not know', () => {
    const { platform, handlers } = createPlatform('previoustrack');
    const stop = createMediaKeys(platform).listen(nothing);
    expect([...handlers.keys()].sort()).toEqual(['nexttrack', 'pause', 'play']);
    stop();
    expect(handlers.size).toBe(0);
  });

  it('do nothing where the browser has no media session', () => {
    expect(createMediaKeys(null).listen(nothing)()).toBe(undefined);
  });
});

describe('silence', () => {
  it('is a WAV whose chunks fill the file, with all samples at the middle', () => {
    // RIFF: a chunk is four letters, a length (little-endian) and its bytes; WAVE format 1 is
    // PCM, 8-bit samples are unsigned with 128 at rest (IBM and Microsoft, 1991; from memory).
    const bytes = silentWav(10);
    const view = new DataView(bytes.buffer);
    const name = (at: number) => String.fromCharCode(...bytes.slice(at, at + 4));
    expect([name(0), name(8)]).toEqual(['RIFF', 'WAVE']);
    expect(view.getUint32(4, true)).toBe(bytes.length - 8);
    const chunks = new Map<string, { at: number; length: number }>();
    for (let at = 12; at < bytes.length; ) {
      const length = view.getUint32(at + 4, true);
      chunks.set(name(at), { at: at + 8, length });
      at += 8 + length;
    }
    const { at: format } = chunks.get('fmt ') as { at: number };
    expect([0, 2, 14].map((n) => view.getUint16(format + n, true))).toEqual([1, 1, 8]);
    const [rate, byteRate] = [4, 8].map((n) => view.getUint32(format + n, true)) as [
      number,
      number,
    ];
    expect(byteRate).toBe(rate);
    const data = chunks.get('data') as { at: number; length: number };
    expect(data.at + data.length).toBe(bytes.length);
    expect(data.length / rate).toBe(10);
    expect(bytes.slice(data.at).every((sample) => sample === 128)).toBe(true);
  });
});

describe('a wake lock', () => {
  it('is held and released', async () => {
    let held = 0;
    const platform = {
      request: async () => {
        held += 1;
        const release = async () => {
          held -= 1;
        };
        return { release } as unknown as WakeLockSentinel;
      },
    };
    const release = await createWakeLock(platform).hold();
    expect(held).toBe(1);
    release();
    expect(held).toBe(0);
  });

  it('does nothing if it is refused or absent', async () => {
    const refusing = {
      request: () => Promise.reject(new DOMException('low battery', 'NotAllowedError')),
    };
    for (const platform of [refusing, undefined]) {
      const release = await createWakeLock(platform).hold();
      expect(release()).toBe(undefined);
    }
  });
});
