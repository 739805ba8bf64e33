/**
 * The app kept on the device by a service worker, and newer versions of it. A newer one is fetched
 * beside the one in use and waits; it takes over when the player says so, and never while something
 * is under way in any tab.
 */

import { computed, effect, type ReadonlySignal, signal } from '@preact/signals';
import type { ComponentType } from 'preact';
import type { Screen } from '../router.ts';

/** Is the whole app on the device: not yet, yes, or not to be had in this browser. */
export type Kept = 'not yet' | 'yes' | 'refused';

export interface Offline {
  readonly kept: ReadonlySignal<Kept>;
  /** A newer version is here and waits. */
  readonly waits: ReadonlySignal<boolean>;
  /** False, with nothing changed, while something is under way in another tab. */
  readonly takeOver: () => Promise<boolean>;
  /** Asks the host for a newer version; rejects when it cannot be reached. */
  readonly look: () => Promise<void>;
  /** Puts the app among the device's own; null where the browser does not offer it. */
  readonly install: ReadonlySignal<(() => Promise<void>) | null>;
  /** Comes with the rest, so that the first screen need not carry it. */
  readonly Offer: ComponentType<{ readonly offline: Offline }>;
}

/** The service worker, as far as it is needed. */
export interface Keeper {
  /** One serves this page already. */
  readonly serves: boolean;
  readonly register: () => Promise<unknown>;
  readonly update: () => Promise<void>;
  /** Asks the one that waits to take over. */
  readonly takeOver: () => void;
  readonly onWaiting: (then: () => void) => void;
  readonly onActivated: (then: () => void) => void;
  /** Another one than before serves this page, or the first one. */
  readonly onChange: (then: () => void) => void;
}

export interface OfflinePorts {
  readonly keeper: Keeper;
  readonly locks: Pick<LockManager, 'request'>;
  readonly screen: ReadonlySignal<Screen>;
  readonly reload: () => void;
  readonly install: Offline['install'];
  readonly Offer: Offline['Offer'];
}

const LOCK = 'throughline-under-way';
/** A page reloads long before; if it does not, the lock is not kept for ever. */
const PATIENCE_MS = 10_000;

/** On these a reload would take something away: a question, a half-typed number, a chart looked at. */
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

export function keepOffline(ports: OfflinePorts): Offline {
  const { keeper, locks, screen, reload, install, Offer } = ports;
  const kept = signal<Kept>(keeper.serves ? 'yes' : 'not yet');
  const waits = signal(false);
  const underWay = computed(() => UNDER_WAY.includes(screen.value.name));

  let served = keeper.serves;
  keeper.onChange(() => {
    // The first one serves the files that this page came with.
    if (served) {
      effect(() => {
        if (!underWay.value) reload();
      });
    }
    served = true;
  });
  keeper.onActivated(() => {
    kept.value = 'yes';
  });
  keeper.onWaiting(() => {
    waits.value = true;
  });
  effect(() => (underWay.value ? hold(locks) : undefined));

  keeper.register().catch((error: unknown) => {
    // A private window, or a page without encryption: the app works, and needs the network.
    console.error('Not kept for use without a network:', error);
    if (kept.peek() === 'not yet') kept.value = 'refused';
  });

  return {
    kept,
    waits,
    install,
    Offer,
    look: keeper.update,
    takeOver: async () =>
      (await locks.request(LOCK, { ifAvailable: true }, async (lock) => {
        if (!lock) return false;
        keeper.takeOver();
        await new Promise((resolve) => setTimeout(resolve, PATIENCE_MS));
        return true;
      })) as boolean,
  };
}

/** Tells other tabs that something is under way here. Returns how to let go. */
function hold(locks: OfflinePorts['locks']): () => void {
  const leave = new AbortController();
  const until = new Promise<void>((resolve) => {
    leave.signal.addEventListener('abort', () => resolve());
  });
  locks
    .request(LOCK, { mode: 'shared', signal: leave.signal }, () => until)
    .catch((error: unknown) => {
      if (!leave.signal.aborted) console.error('Other tabs do not know what is under way:', error);
    });
  return () => leave.abort();
}
