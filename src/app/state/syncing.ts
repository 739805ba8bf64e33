/**
 * Decides when this page syncs, and keeps the status that Settings shows. This code loads long after
 * the first screen.
 */

import { effect, type ReadonlySignal, signal } from '@preact/signals';
import type { SyncAnswer, SyncAsk, Syncer } from '../../workers/index.ts';
import type { Screen } from '../router.ts';
import type { Model } from './model.ts';

export type SyncStatus = Extract<SyncAnswer, { readonly at: 'status' }>['status'];
type Wish = Extract<SyncAsk, { readonly what: 'connect' }>['wish'];

export interface Syncing {
  /** The status of syncing; undefined until it is known, null if no folder is connected. */
  readonly status: ReadonlySignal<SyncStatus | undefined>;
  readonly busy: ReadonlySignal<boolean>;
  /** Asks the worker for the status. */
  readonly look: () => Promise<void>;
  /**
   * Connects a folder. Returns null if that worked, 'empty' if the folder is not set up, or why it
   * failed.
   */
  readonly connect: (wish: Wish) => Promise<null | 'empty' | { readonly say: string }>;
  readonly sync: () => Promise<void>;
  readonly disconnect: () => Promise<void>;
}

export interface SyncPorts {
  readonly syncer: Syncer;
  readonly model: Pick<Model, 'refresh'>;
  readonly screen: ReadonlySignal<Screen>;
  /** Stores whether a folder is connected, so that a page need not start a worker to find out. */
  readonly flag: { readonly get: () => boolean; readonly set: (isSet: boolean) => void };
  /** Calls `onChance` when the device comes online or the page is hidden. */
  readonly listen: (onChance: () => void) => void;
  readonly after: (ms: number, work: () => void) => void;
}

/**
 * The screens on which no sync starts and no synced data is read, because it would change what is
 * asked.
 */
const SESSIONS: readonly Screen['name'][] = [
  ...(['quiz', 'ear', 'drill', 'rehearsal', 'placement', 'table-day'] as const),
  // This screen is writing a draft.
  'edit',
];

/**
 * How long to wait after each failure in a row, in seconds. The last wait repeats. The first is short,
 * because a device may claim to be online too early.
 */
const RETRIES = [10, 60, 120, 300, 900, 3600] as const;

export function beginSyncing(ports: SyncPorts): Syncing {
  const { syncer, flag } = ports;
  const status = signal<SyncStatus | undefined>(flag.get() ? undefined : null);
  const look = async (): Promise<void> => {
    const answer = await syncer.ask({ what: 'status' });
    if (answer.at !== 'status') return;
    status.value = answer.status;
    flag.set(answer.status !== null);
  };
  const reading = createReading(ports);
  const { busy, sync, syncIfConnected } = createSyncs(ports, reading, {
    look,
    waiting: () => status.peek()?.waiting ?? 0,
  });
  whenSessionsEnd(ports.screen, () => {
    reading.readMissed();
    syncIfConnected();
  });
  syncIfConnected();
  ports.listen(syncIfConnected);
  return { status, busy, look, sync, ...connection({ syncer, flag, look, sync }) };
}

function isSession({ name }: Screen): boolean {
  return SESSIONS.includes(name);
}

function whenSessionsEnd(screen: ReadonlySignal<Screen>, ended: () => void): void {
  let wasSession = false;
  effect(() => {
    const isEnd = wasSession && !isSession(screen.value);
    wasSession = isSession(screen.value);
    if (isEnd) ended();
  });
}

interface Reading {
  /** Reads what a sync received. During a session, `readMissed` does this when the session ends. */
  readonly read: () => Promise<void>;
  /** Reads the disk again if a sync brought something during a session, when it was not read. */
  readonly readMissed: () => void;
}

function createReading({ model, screen }: SyncPorts): Reading {
  let missed = false;
  const read = async (): Promise<void> => {
    missed = isSession(screen.peek());
    if (!missed) await model.refresh();
  };
  return {
    read,
    readMissed: () => {
      if (missed) void read().catch(reportUnread);
    },
  };
}

/** Reports that synced data could not be read. It is on the disk, and the next page shows it. */
function reportUnread(error: unknown): void {
  console.error('Not read again after syncing:', error);
}

interface Syncs {
  readonly busy: ReadonlySignal<boolean>;
  readonly sync: () => Promise<void>;
  /** Syncs if a folder is connected, but not during a session. */
  readonly syncIfConnected: () => void;
}

interface StatusPorts {
  readonly look: () => Promise<void>;
  /** Returns how many events were not sent yet at the last status. */
  readonly waiting: () => number;
}

function createSyncs(ports: SyncPorts, reading: Reading, status: StatusPorts): Syncs {
  const { screen, flag } = ports;
  const busy = signal(false);
  const retry = createRetry(ports);
  /** Whether a sync was wanted while another was running, which may have begun too early for it. */
  let missed = false;
  const inSession = () => isSession(screen.peek());
  const syncIfConnected = (): void => {
    if (flag.get() && !inSession()) void sync();
  };
  const sync = async (): Promise<void> => {
    if (busy.peek()) {
      missed = true;
      return;
    }
    busy.value = true;
    missed = false;
    try {
      const answer = await syncTwice(ports.syncer, reading, status, inSession);
      if (answer.at === 'refused') retry.schedule(syncIfConnected);
      else retry.reset();
    } catch (error) {
      reportUnread(error);
    } finally {
      busy.value = false;
    }
    if (missed) syncIfConnected();
  };
  return { busy, sync, syncIfConnected };
}

/** Syncs, and syncs again if that made new events, such as for lines that a received chart moved. */
async function syncTwice(
  syncer: Syncer,
  { read }: Reading,
  { look, waiting }: StatusPorts,
  inSession: () => boolean,
): Promise<SyncAnswer> {
  const syncOnce = async (): Promise<SyncAnswer> => {
    const answer = await syncer.ask({ what: 'sync' });
    const done = answer.at === 'synced' ? answer.done : null;
    if (done && (done.received > 0 || done.charts.length > 0)) await read();
    await look();
    return answer;
  };
  const first = await syncOnce();
  const isDone = first.at === 'synced' && first.done !== null;
  return isDone && waiting() > 0 && !inSession() ? syncOnce() : first;
}

function createRetry({ after }: SyncPorts) {
  let failures = 0;
  return {
    reset: () => {
      failures = 0;
    },
    schedule: (work: () => void) => {
      const seconds = RETRIES[Math.min(failures, RETRIES.length - 1)] ?? 3600;
      failures += 1;
      after(seconds * 1000, work);
    },
  };
}

function connection(ports: {
  readonly syncer: Syncer;
  readonly flag: SyncPorts['flag'];
  readonly look: () => Promise<void>;
  readonly sync: () => Promise<void>;
}): Pick<Syncing, 'connect' | 'disconnect'> {
  const { syncer, flag, look, sync } = ports;
  return {
    connect: async (wish) => {
      const answer = await syncer.ask({ what: 'connect', wish });
      if (answer.at === 'refused') return { say: answer.say };
      if (answer.at !== 'connected') return { say: 'Another tab is at it. Try again.' };
      if (answer.joining === 'empty') return 'empty';
      flag.set(true);
      await look();
      void sync();
      return null;
    },
    disconnect: async () => {
      await syncer.ask({ what: 'disconnect' });
      await look();
    },
  };
}
