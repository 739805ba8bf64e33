/** Holds the unfinished rehearsal as this tab knows it, and the functions that change it. */

import { computed, type ReadonlySignal, signal } from '@preact/signals';
import type {
  LogEvent,
  RehearsalDraft,
  RehearsalSpec,
  RehearsedDraft,
} from '../../scheduler/index.ts';
import type { Store, StoredRehearsal } from '../../store/index.ts';
import type { TabMessage } from './tabs.ts';

export interface DeviceRehearsal {
  /** The rehearsal under way in any tab; null if there is none or it cannot be read. */
  readonly rehearsal: ReadonlySignal<RehearsalDraft | null>;
  /** The setup of the newest rehearsal that this tab has seen, even if it is over; null at first. */
  readonly lastRehearsal: ReadonlySignal<RehearsalSpec | null>;
  /** Whether a rehearsal is stored that this version cannot read. */
  readonly rehearsalUnreadable: ReadonlySignal<boolean>;
  /**
   * Saves the rehearsal. Returns false and writes nothing if a different one is stored or another tab
   * is ahead.
   */
  readonly saveRehearsal: (draft: RehearsalDraft) => Promise<boolean>;
  /** Removes the rehearsal with this id; without an id, removes any rehearsal. */
  readonly dropRehearsal: (id?: string) => Promise<void>;
  /** Appends the rehearsal to the log. Returns null if another tab has finished or dropped it. */
  readonly finishRehearsal: (id: string, draft: RehearsedDraft) => Promise<LogEvent | null>;
}

export interface RehearsalPorts {
  readonly store: Store;
  /** Adds a stored event to the log in memory, in this tab and in other tabs. */
  readonly shareEvent: (event: LogEvent) => void;
  readonly tell: (message: TabMessage) => void;
}

export interface ReadableRehearsal extends DeviceRehearsal {
  readonly readRehearsal: () => Promise<void>;
}

export function keepRehearsal(ports: RehearsalPorts): ReadableRehearsal {
  const { store, tell } = ports;
  const stored = signal<StoredRehearsal>(null);
  const lastRehearsal = signal<RehearsalSpec | null>(null);
  /** How many changes this tab has made. Anything read before a change is out of date. */
  let changes = 0;
  const show = (rehearsal: StoredRehearsal): void => {
    stored.value = rehearsal;
    if (rehearsal !== null && rehearsal !== 'unreadable') lastRehearsal.value = rehearsal.spec;
  };
  const readRehearsal = async (): Promise<void> => {
    const before = changes;
    const rehearsal = await store.loadRehearsal();
    if (before === changes) show(rehearsal);
  };
  const tellChange = (): void => {
    changes += 1;
    tell({ type: 'rehearsal' });
  };
  return {
    rehearsal: computed(() => (stored.value === 'unreadable' ? null : stored.value)),
    lastRehearsal,
    rehearsalUnreadable: computed(() => stored.value === 'unreadable'),
    readRehearsal,
    ...changesTo(ports, { show, readRehearsal, tellChange }),
  };
}

interface Shown {
  readonly show: (rehearsal: RehearsalDraft | null) => void;
  readonly readRehearsal: () => Promise<void>;
  /** Counts a change by this tab and tells the other tabs. */
  readonly tellChange: () => void;
}

function changesTo(
  { store, shareEvent }: RehearsalPorts,
  { show, readRehearsal, tellChange }: Shown,
): Pick<DeviceRehearsal, 'saveRehearsal' | 'dropRehearsal' | 'finishRehearsal'> {
  const changeTo = (draft: RehearsalDraft | null): void => {
    show(draft);
    tellChange();
  };
  return {
    saveRehearsal: async (draft) => {
      const saved = await store.saveRehearsal(draft);
      if (saved) changeTo(draft);
      else await readRehearsal();
      return saved;
    },
    dropRehearsal: async (id) => {
      await store.dropRehearsal(id);
      tellChange();
      // Another tab may have begun a new rehearsal by now.
      await readRehearsal();
    },
    finishRehearsal: async (id, draft) => {
      const event = await store.finishRehearsal(id, draft);
      if (event) {
        shareEvent(event);
        changeTo(null);
      } else {
        await readRehearsal();
      }
      return event;
    },
  };
}
