/** When this page syncs, and what is shown of it. Fetched when the first screen is long there. */

import { effect, type ReadonlySignal, signal } from '@preact/signals';
import type { SyncAnswer, SyncAsk, Syncer } from '../../workers/index.ts';
import type { Screen } from '../router.ts';
import type { Model } from './model.ts';

export type SyncStatus = Extract<SyncAnswer, { readonly at: 'status' }>['status'];
type Wish = Extract<SyncAsk, { readonly what: 'connect' }>['wish'];

export interface Syncing {
  /** Undefined while it is not known; null if no folder is connected. */
  readonly status: ReadonlySignal<SyncStatus | undefined>;
  readonly busy: ReadonlySignal<boolean>;
  /** Asks how it stands. */
  readonly look: () => Promise<void>;
  /** Null if it is connected, 'empty' if there is nothing yet to connect with; else why not. */
  readonly connect: (wish: Wish) => Promise<null | 'empty' | { readonly say: string }>;
  readonly sync: () => Promise<void>;
  readonly disconnect: () => Promise<void>;
}

export interface SyncPorts {
  readonly syncer: Syncer;
  readonly model: Pick<Model, 'cameIn'>;
  readonly screen: ReadonlySignal<Screen>;
  /** Whether a folder is connected, so that a page need not begin a worker to ask. */
  readonly flag: { readonly get: () => boolean; readonly set: (isSet: boolean) => void };
  /** Calls back whenever the device comes online or the page is put aside. */
  readonly listen: (onChance: () => void) => void;
  readonly later: (work: () => void, ms: number) => void;
}

/** Where questions are asked: nothing comes in between them. */
const SESSIONS: readonly Screen['name'][] = [
  ...(['quiz', 'ear', 'drill', 'rehearsal', 'placement', 'table-day'] as const),
  // A draft is written there.
  'edit',
];

/** After a failure, seconds; the last goes on. A device that says it is online may not yet be. */
const AGAIN = [10, 60, 120, 300, 900, 3600] as const;

export function beginSyncing(ports: SyncPorts): Syncing {
  const { syncer, model, screen, flag } = ports;
  const status = signal<SyncStatus | undefined>(flag.get() ? undefined : null);
  const busy = signal(false);
  let failures = 0;
  let missed = false;
  let unread = false;
  const inSession = (): boolean => SESSIONS.includes(screen.peek().name);

  const look = async (): Promise<void> => {
    const answer = await syncer.ask({ what: 'status' });
    if (answer.at !== 'status') return;
    status.value = answer.status;
    flag.set(answer.status !== null);
  };

  const once = async (): Promise<SyncAnswer> => {
    const answer = await syncer.ask({ what: 'sync' });
    if (answer.at === 'synced' && answer.done) {
      const { taken, charts } = answer.done;
      if (taken > 0 || charts.length > 0) await readIn();
    }
    return answer;
  };

  /** A sync that a session overtook has to wait with what it brought: it would change what is asked. */
  const readIn = async (): Promise<void> => {
    unread = inSession();
    if (!unread) await model.cameIn();
  };

  const sync = async (): Promise<void> => {
    if (busy.peek()) {
      missed = true;
      return;
    }
    busy.value = true;
    missed = false;
    try {
      const answer = await once();
      await look();
      // What came in may have moved lines, and that they did is written here.
      const isDone = answer.at === 'synced' && answer.done !== null;
      const more = isDone && (status.peek()?.waiting ?? 0) > 0 && !inSession();
      const last = more ? await once() : answer;
      if (more) await look();
      if (last.at === 'refused') retry();
      else failures = 0;
    } catch (error) {
      notRead(error);
    } finally {
      busy.value = false;
    }
    // Something was to be synced while it was at it: what it did may have been too early.
    if (missed) chance();
  };

  /** It is on the disk, and shown when the page is next opened. */
  const notRead = (error: unknown): void => console.error('Not read again after syncing:', error);

  const retry = (): void => {
    const seconds = AGAIN[Math.min(failures, AGAIN.length - 1)] ?? 3600;
    failures += 1;
    ports.later(chance, seconds * 1000);
  };

  /** Now would be a good time. */
  const chance = (): void => {
    if (flag.get() && !inSession()) void sync();
  };

  let before: Screen['name'] | null = null;
  effect(() => {
    const { name } = screen.value;
    const isOver = before !== null && SESSIONS.includes(before) && !SESSIONS.includes(name);
    const isFirst = before === null;
    before = name;
    if (isOver && unread) void readIn().catch(notRead);
    if (isOver || isFirst) chance();
  });
  ports.listen(chance);

  return {
    status,
    busy,
    look,
    sync,
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
