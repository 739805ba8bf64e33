/** This browser's service worker, locks and offer to install, as `offline.ts` needs them. */

import { type ReadonlySignal, signal } from '@preact/signals';
import { Workbox } from 'workbox-window';
import type { Screen } from '../router.ts';
import { NewerVersion } from './newer-version.tsx';
import { type Keeper, keepOffline, type Offline } from './offline.ts';

const HOUR_MS = 3_600_000;

/** The browser's offer (Manifest Incubations, W3C Community Group); not every browser makes one. */
interface InstallOffer extends Event {
  readonly prompt: () => Promise<unknown>;
}

/** Null where there is no service worker: on a page that came without encryption. */
export function browserOffline(screen: ReadonlySignal<Screen>): Offline | null {
  const { serviceWorker, locks } = navigator as Partial<Navigator>;
  if (!serviceWorker || !locks) return null;
  const offline = keepOffline({
    Offer: NewerVersion,
    keeper: keeperOf(serviceWorker),
    locks,
    screen,
    reload: () => location.reload(),
    install: installOffer(),
  });
  // An app that is never closed hears of a newer version, too.
  setInterval(() => {
    offline.look().catch((error: unknown) => console.error('Not looked for a newer one:', error));
  }, HOUR_MS);
  return offline;
}

function keeperOf(container: ServiceWorkerContainer): Keeper {
  const worker = new Workbox('./service-worker.js');
  return {
    serves: container.controller !== null,
    register: () => worker.register({ immediate: true }),
    update: () => worker.update(),
    takeOver: () => worker.messageSkipWaiting(),
    onWaiting: (then) => worker.addEventListener('waiting', then),
    onActivated: (then) => worker.addEventListener('activated', then),
    onChange: (then) => container.addEventListener('controllerchange', then),
  };
}

function installOffer(): Offline['install'] {
  const install = signal<(() => Promise<void>) | null>(null);
  window.addEventListener('beforeinstallprompt', (event) => {
    const offer = event as InstallOffer;
    // Kept for the button in Settings; the browser's own place for it stays.
    install.value = async () => {
      await offer.prompt();
      install.value = null;
    };
  });
  return install;
}
