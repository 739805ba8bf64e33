/** Gives offline.ts this browser's service worker, locks, and installation prompt. */

import { type ReadonlySignal, signal } from '@preact/signals';
import { Workbox } from 'workbox-window';
import type { Screen } from '../router.ts';
import { NewerVersion } from './newer-version.tsx';
import { type Offline, type OfflineWorker, startOffline } from './offline.ts';

const HOUR_MS = 3_600_000;

/** The installation prompt (Manifest Incubations, W3C Community Group). Not every browser has it. */
interface InstallOffer extends Event {
  readonly prompt: () => Promise<unknown>;
}

/** Returns null if there is no service worker or no locks, as on a page without https. */
export function browserOffline(screen: ReadonlySignal<Screen>): Offline | null {
  const { serviceWorker, locks } = navigator as Partial<Navigator>;
  if (!serviceWorker || !locks) return null;
  const offline = startOffline({
    Offer: NewerVersion,
    worker: workerOf(serviceWorker),
    locks,
    screen,
    reload: () => location.reload(),
    install: installOffer(),
  });
  // This finds newer versions even if the app is never closed.
  setInterval(() => {
    offline
      .checkForNewer()
      .catch((error: unknown) => console.error('Not looked for a newer one:', error));
  }, HOUR_MS);
  return offline;
}

function workerOf(container: ServiceWorkerContainer): OfflineWorker {
  const worker = new Workbox('./service-worker.js');
  return {
    servesPage: container.controller !== null,
    register: () => worker.register({ immediate: true }),
    update: () => worker.update(),
    activate: () => worker.messageSkipWaiting(),
    onWaiting: (then) => worker.addEventListener('waiting', then),
    onActivated: (then) => worker.addEventListener('activated', then),
    onNewController: (then) => container.addEventListener('controllerchange', then),
  };
}

function installOffer(): Offline['install'] {
  const install = signal<(() => Promise<void>) | null>(null);
  window.addEventListener('beforeinstallprompt', (event) => {
    const offer = event as InstallOffer;
    // The button in Settings uses this. The browser still shows its own prompt.
    install.value = async () => {
      await offer.prompt();
      install.value = null;
    };
  });
  return install;
}
