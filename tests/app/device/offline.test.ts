import { signal } from '@preact/signals';
import { describe, expect, it } from 'vitest';
import { type OfflineWorker, startOffline } from '../../../src/app/device/offline.ts';
import type { Screen } from '../../../src/app/router.ts';

const TODAY: Screen = { name: 'today' };
const QUIZ: Screen = { name: 'quiz', minutes: null };

describe('the app on the device', () => {
  it('is stored once its files are, or from the start if they were', async () => {
    const first = tab({ servesPage: false });
    expect(first.offline.kept.value).toBe('not yet');
    first.report('activated');
    expect(first.offline.kept.value).toBe('yes');
    expect(tab({ servesPage: true }).offline.kept.value).toBe('yes');
  });

  it('says if the browser does not store it', async () => {
    const { offline } = tab({
      servesPage: false,
      register: () => Promise.reject(new Error('private')),
    });
    await settled();
    expect(offline.kept.value).toBe('refused');
  });

  it('stays stored if only the search for a newer version fails', async () => {
    const { offline } = tab({
      servesPage: true,
      register: () => Promise.reject(new Error('no network')),
    });
    await settled();
    expect(offline.kept.value).toBe('yes');
  });
});

describe('a newer version', () => {
  it('is activated while nothing is under way', () => {
    const { offline, report, asked } = tab({ servesPage: true });
    expect(offline.isWaiting.value).toBe(false);
    report('waiting');
    expect(offline.isWaiting.value).toBe(true);
    void offline.activate();
    expect(asked()).toBe(1);
  });

  it.each(['quiz', 'drill', 'rehearsal', 'ear', 'placement', 'edit', 'receive', 'table-day'])(
    'is not activated while %s is open in another tab',
    async (name) => {
      const locks = lockManager();
      const other = tab({ servesPage: true }, { name } as Screen, locks);
      const { offline, asked } = tab({ servesPage: true }, TODAY, locks);
      expect(await offline.activate()).toBe(false);
      expect(asked()).toBe(0);
      other.screen.value = TODAY;
      await settled();
      void offline.activate();
      expect(asked()).toBe(1);
    },
  );

  it('is not activated while one of two sessions goes on', async () => {
    const locks = lockManager();
    const one = tab({ servesPage: true }, QUIZ, locks);
    tab({ servesPage: true }, QUIZ, locks);
    one.screen.value = TODAY;
    await settled();
    expect(await one.offline.activate()).toBe(false);
  });

  it('reloads the page, a session’s page only when the session is over', () => {
    const resting = tab({ servesPage: true });
    resting.report('new controller');
    expect(resting.reloads()).toBe(1);
    const asking = tab({ servesPage: true }, QUIZ);
    asking.report('new controller');
    expect(asking.reloads()).toBe(0);
    asking.screen.value = TODAY;
    expect(asking.reloads()).toBe(1);
  });

  it('differs from the very first one, which reloads nothing', () => {
    const { report, reloads } = tab({ servesPage: false });
    report('new controller');
    expect(reloads()).toBe(0);
    report('new controller');
    expect(reloads()).toBe(1);
  });
});

type Report = 'waiting' | 'activated' | 'new controller';

/** A tab whose service worker reports what the test tells it to. */
function tab(
  {
    servesPage,
    register,
  }: { readonly servesPage: boolean; readonly register?: OfflineWorker['register'] },
  at: Screen = TODAY,
  locks = lockManager(),
) {
  const listeners = new Map<Report, () => void>();
  const listen = (what: Report) => (then: () => void) => void listeners.set(what, then);
  let asked = 0;
  let reloads = 0;
  const screen = signal<Screen>(at);
  const offline = startOffline({
    worker: {
      servesPage,
      register: register ?? (async () => undefined),
      update: async () => undefined,
      activate: () => {
        asked += 1;
      },
      onWaiting: listen('waiting'),
      onActivated: listen('activated'),
      onNewController: listen('new controller'),
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
    report: (what: Report) => listeners.get(what)?.(),
    asked: () => asked,
    reloads: () => reloads,
  };
}

/** The part of the Web Locks API (W3C) in use: shared holders, and a request for a free lock. */
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
