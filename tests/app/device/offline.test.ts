import { signal } from '@preact/signals';
import { describe, expect, it } from 'vitest';
import { type Keeper, keepOffline } from '../../../src/app/device/offline.ts';
import type { Screen } from '../../../src/app/router.ts';

const TODAY: Screen = { name: 'today' };
const QUIZ: Screen = { name: 'quiz', minutes: null };

describe('the app on the device', () => {
  it('is there once its files are, or from the start if they were', async () => {
    const first = tab({ serves: false });
    expect(first.offline.kept.value).toBe('not yet');
    first.say('activated');
    expect(first.offline.kept.value).toBe('yes');
    expect(tab({ serves: true }).offline.kept.value).toBe('yes');
  });

  it('says where a browser does not keep it', async () => {
    const { offline } = tab({
      serves: false,
      register: () => Promise.reject(new Error('private')),
    });
    await settled();
    expect(offline.kept.value).toBe('refused');
  });

  it('stays what it was if only looking for a newer one fails', async () => {
    const { offline } = tab({
      serves: true,
      register: () => Promise.reject(new Error('no network')),
    });
    await settled();
    expect(offline.kept.value).toBe('yes');
  });
});

describe('a newer version', () => {
  it('is asked to take over while nothing is under way', () => {
    const { offline, say, asked } = tab({ serves: true });
    expect(offline.waits.value).toBe(false);
    say('waiting');
    expect(offline.waits.value).toBe(true);
    void offline.takeOver();
    expect(asked()).toBe(1);
  });

  it.each(['quiz', 'drill', 'rehearsal', 'ear', 'placement', 'edit', 'receive', 'table-day'])(
    'is not asked while %s is open in another tab',
    async (name) => {
      const locks = lockManager();
      const other = tab({ serves: true }, { name } as Screen, locks);
      const { offline, asked } = tab({ serves: true }, TODAY, locks);
      expect(await offline.takeOver()).toBe(false);
      expect(asked()).toBe(0);
      other.screen.value = TODAY;
      await settled();
      void offline.takeOver();
      expect(asked()).toBe(1);
    },
  );

  it('is not asked while one of two sessions goes on', async () => {
    const locks = lockManager();
    const one = tab({ serves: true }, QUIZ, locks);
    tab({ serves: true }, QUIZ, locks);
    one.screen.value = TODAY;
    await settled();
    expect(await one.offline.takeOver()).toBe(false);
  });

  it('loads the page anew, and a session’s page only when the session is over', () => {
    const resting = tab({ serves: true });
    resting.say('change');
    expect(resting.reloads()).toBe(1);
    const asking = tab({ serves: true }, QUIZ);
    asking.say('change');
    expect(asking.reloads()).toBe(0);
    asking.screen.value = TODAY;
    expect(asking.reloads()).toBe(1);
  });

  it('is not what the very first one is: that one only begins to serve', () => {
    const { say, reloads } = tab({ serves: false });
    say('change');
    expect(reloads()).toBe(0);
    say('change');
    expect(reloads()).toBe(1);
  });
});

type Told = 'waiting' | 'activated' | 'change';

/** A tab whose service worker says what the test makes it say. */
function tab(
  { serves, register }: { readonly serves: boolean; readonly register?: Keeper['register'] },
  at: Screen = TODAY,
  locks = lockManager(),
) {
  const told = new Map<Told, () => void>();
  const listen = (what: Told) => (then: () => void) => void told.set(what, then);
  let asked = 0;
  let reloads = 0;
  const screen = signal<Screen>(at);
  const offline = keepOffline({
    keeper: {
      serves,
      register: register ?? (async () => undefined),
      update: async () => undefined,
      takeOver: () => {
        asked += 1;
      },
      onWaiting: listen('waiting'),
      onActivated: listen('activated'),
      onChange: listen('change'),
    },
    locks,
    screen,
    reload: () => {
      reloads += 1;
    },
    install: signal(null),
    Offer: () => null,
  });
  return {
    offline,
    screen,
    say: (what: Told) => told.get(what)?.(),
    asked: () => asked,
    reloads: () => reloads,
  };
}

/** Of the Web Locks API (W3C) what is needed: shared holders, and one that takes it only if it is free. */
function lockManager(): Pick<LockManager, 'request'> {
  let holders = 0;
  const request = async (_: string, options: LockOptions, then: (lock: unknown) => unknown) => {
    if (options.ifAvailable && holders > 0) return then(null);
    holders += 1;
    try {
      return await then({});
    } finally {
      holders -= 1;
    }
  };
  return { request } as unknown as Pick<LockManager, 'request'>;
}

const settled = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));
