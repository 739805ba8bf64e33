/**
 * Stores the app on the device with a service worker, and updates it. A newer version is fetched in the
 * background and waits. It becomes active when the player says so, but never during a session in any
 * tab.
 */

import { computed, effect, type ReadonlySignal, signal } from '@preact/signals';
import type { ComponentType } from 'preact';
import type { Screen } from '../router.ts';

/** Whether the whole app is on the device. 'refused' means that this browser does not store it. */
export type Kept = 'not yet' | 'yes' | 'refused';

export interface Offline {
  readonly kept: ReadonlySignal<Kept>;
  /** Whether a newer version has been fetched and is waiting. */
  readonly isWaiting: ReadonlySignal<boolean>;
  /**
   * Activates the newer version. Returns false and changes nothing if another tab has a session.
   */
  readonly activate: () => Promise<boolean>;
  /** Asks the host for a newer version. Rejects if the host cannot be reached. */
  readonly checkForNewer: () => Promise<void>;
  /** Installs the app like an app of the device; null if the browser does not offer that. */
  readonly install: ReadonlySignal<(() => Promise<void>) | null>;
  /**
   * The component that offers a newer version. It is here so that the first script does not need it.
   */
  readonly Offer: ComponentType<{ readonly offline: Offline }>;
}

/** The parts of a service worker that are needed here. Tests pass fakes. */
export interface OfflineWorker {
  /** Whether a worker already serves this page. */
  readonly servesPage: boolean;
  readonly register: () => Promise<unknown>;
  readonly update: () => Promise<void>;
  /** Makes the waiting worker the active one. */
  readonly activate: () => void;
  readonly onWaiting: (then: () => void) => void;
  readonly onActivated: (then: () => void) => void;
  /** Calls `then` when the first worker or a new one begins to serve this page. */
  readonly onNewController: (then: () => void) => void;
}

export interface OfflinePorts {
  readonly worker: OfflineWorker;
  readonly locks: Pick<LockManager, 'request'>;
  readonly screen: ReadonlySignal<Screen>;
  readonly reload: () => void;
  readonly install: Offline['install'];
  readonly Offer: Offline['Offer'];
}

const LOCK = 'throughline-under-way';
/**
 * How long to keep the lock for the page to reload, in milliseconds. It usually reloads much sooner.
 */
const RELOAD_MS = 10_000;

/**
 * The screens on which a reload would lose something, such as a question, a half-typed number, or a
 * received chart.
 */
const UNDER_WAY: readonly Screen['name'][] = [
  'quiz',
  'drill',
  'rehearsal',
  'ear',
  'placement',
  'edit',
  'new-chart',
  'levels',
  'receive',
  'table-day',
];

export function startOffline(ports: OfflinePorts): Offline {
  const { worker, locks, screen, reload, install, Offer } = ports;
  const kept = signal<Kept>(worker.servesPage ? 'yes' : 'not yet');
  const isWaiting = signal(false);
  const isUnderWay = computed(() => UNDER_WAY.includes(screen.value.name));
  const reloadBetweenSessions = (): void => {
    effect(() => {
      if (!isUnderWay.value) reload();
    });
  };
  whenReplaced(worker, reloadBetweenSessions);
  worker.onActivated(() => {
    kept.value = 'yes';
  });
  worker.onWaiting(() => {
    isWaiting.value = true;
  });
  effect(() => (isUnderWay.value ? holdLock(locks) : undefined));
  worker.register().catch((error: unknown) => {
    // In a private window or without https, the app works but needs the network.
    console.error('Not kept for use without a network:', error);
    if (kept.peek() === 'not yet') kept.value = 'refused';
  });
  const activate = () => activateAlone(worker, locks);
  return { kept, isWaiting, install, Offer, checkForNewer: worker.update, activate };
}

/** Calls `replaced` when a worker replaces the one that served the page, but not for the first one. */
function whenReplaced(worker: OfflineWorker, replaced: () => void): void {
  let isServed = worker.servesPage;
  worker.onNewController(() => {
    if (isServed) replaced();
    isServed = true;
  });
}

/** @returns false if a session in another tab has the lock */
async function activateAlone(
  worker: OfflineWorker,
  locks: OfflinePorts['locks'],
): Promise<boolean> {
  const isActivated = await locks.request(LOCK, { ifAvailable: true }, async (lock) => {
    if (!lock) return false;
    worker.activate();
    await new Promise((resolve) => setTimeout(resolve, RELOAD_MS));
    return true;
  });
  return isActivated as boolean;
}

/** Tells other tabs that a session is under way here. Returns a function that releases the lock. */
function holdLock(locks: OfflinePorts['locks']): () => void {
  const leave = new AbortController();
  const released = new Promise<void>((resolve) => {
    leave.signal.addEventListener('abort', () => resolve());
  });
  locks
    .request(LOCK, { mode: 'shared', signal: leave.signal }, () => released)
    .catch((error: unknown) => {
      if (!leave.signal.aborted) console.error('Other tabs do not know what is under way:', error);
    });
  return () => leave.abort();
}
