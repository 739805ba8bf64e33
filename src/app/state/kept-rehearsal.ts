/** The rehearsal under way as this tab knows it, and its changes. */

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
  /** The rehearsal under way, in whichever tab; null if there is none that can be read. */
  readonly rehearsal: ReadonlySignal<RehearsalDraft | null>;
  /** The set-up of the newest rehearsal this tab knew of, even if it is over; null at first. */
  readonly lastRehearsal: ReadonlySignal<RehearsalSpec | null>;
  /** Whether there is one that this version cannot read. */
  readonly rehearsalUnreadable: ReadonlySignal<boolean>;
  /** False, with nothing written, if there is another one or another tab is further on. */
  readonly saveRehearsal: (draft: RehearsalDraft) => Promise<boolean>;
  /** Removes the rehearsal of that id; without an id, any. */
  readonly dropRehearsal: (id?: string) => Promise<void>;
  /** Appends all of it to the log; null if another tab has finished or dropped it. */
  readonly finishRehearsal: (id: string, draft: RehearsedDraft) => Promise<LogEvent | null>;
}

export interface RehearsalPorts {
  readonly store: Store;
  /** Adds a stored event to the log in memory, here and in other tabs. */
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
  /** This tab's own changes, counted: what was read before one of them is out of date. */
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
  /** Counts a change of this tab and tells the others. */
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
      // Another tab may have begun one by now.
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
