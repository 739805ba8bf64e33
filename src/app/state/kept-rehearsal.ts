/** The rehearsal under way as this tab knows it: what the store holds, as a signal, and its changes. */

import { computed, type ReadonlySignal, signal } from '@preact/signals';
import type {
  LogEvent,
  RehearsalDraft,
  RehearsalSpec,
  RehearsedDraft,
} from '../../scheduler/index.ts';
import type { Store, StoredRehearsal } from '../../store/index.ts';

export interface KeptRehearsal {
  /** The rehearsal under way, whichever tab it is in; null if there is none that can be read. */
  readonly rehearsal: ReadonlySignal<RehearsalDraft | null>;
  /** What the last one that this tab knew of was set up with, though it may be over; null at first. */
  readonly lastRehearsal: ReadonlySignal<RehearsalSpec | null>;
  /** Is one there that this version cannot read. */
  readonly rehearsalUnreadable: ReadonlySignal<boolean>;
  /** False, with nothing written, if another one is there or another tab is further on. */
  readonly saveRehearsal: (draft: RehearsalDraft) => Promise<boolean>;
  /** Removes the rehearsal of that id; without an id, whatever is there. */
  readonly dropRehearsal: (id?: string) => Promise<void>;
  /** Writes the whole of it into the log; null if another tab has finished or dropped it. */
  readonly finishRehearsal: (id: string, draft: RehearsedDraft) => Promise<LogEvent | null>;
}

export interface KeptPorts {
  readonly store: Store;
  /** Puts an event into the log that this tab shows, and tells the other tabs. */
  readonly takeIn: (event: LogEvent) => void;
  /** Tells the other tabs. */
  readonly tell: (message: unknown) => void;
}

export interface ReadableRehearsal extends KeptRehearsal {
  readonly readRehearsal: () => Promise<void>;
}

export function keepRehearsal({ store, takeIn, tell }: KeptPorts): ReadableRehearsal {
  const kept = signal<StoredRehearsal>(null);
  const lastRehearsal = signal<RehearsalSpec | null>(null);
  const rehearsalUnreadable = computed(() => kept.value === 'unreadable');
  const rehearsal = computed(() => (kept.value === 'unreadable' ? null : kept.value));
  /** Counts this tab's own changes: what was read before one of them is old. */
  let changes = 0;

  const keep = (stored: StoredRehearsal): void => {
    kept.value = stored;
    if (stored !== null && stored !== 'unreadable') lastRehearsal.value = stored.spec;
  };

  const readRehearsal = async (): Promise<void> => {
    const before = changes;
    const stored = await store.loadRehearsal();
    if (before === changes) keep(stored);
  };

  const changeTo = (draft: RehearsalDraft | null): void => {
    changes += 1;
    keep(draft);
    tell({ type: 'rehearsal' });
  };

  return {
    rehearsal,
    lastRehearsal,
    rehearsalUnreadable,
    readRehearsal,
    saveRehearsal: async (draft) => {
      const saved = await store.saveRehearsal(draft);
      if (saved) changeTo(draft);
      else await readRehearsal();
      return saved;
    },
    dropRehearsal: async (id) => {
      await store.dropRehearsal(id);
      tell({ type: 'rehearsal' });
      // Another one may be there by now, begun in another tab.
      changes += 1;
      await readRehearsal();
    },
    finishRehearsal: async (id, draft) => {
      const event = await store.finishRehearsal(id, draft);
      if (event) {
        takeIn(event);
        changeTo(null);
      } else {
        await readRehearsal();
      }
      return event;
    },
  };
}
