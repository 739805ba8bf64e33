/** The app's state: the contents of the store as signals, and the actions that change them. */

import { computed, type ReadonlySignal, type Signal, signal } from '@preact/signals';
import type { Solved } from '../../charts/index.ts';
import type { EventDraft, LogEvent, LogState } from '../../scheduler/index.ts';
import {
  DEFAULT_SETTINGS,
  type Imported,
  type Settings,
  type SettingsChange,
  type Store,
} from '../../store/index.ts';
import type { Forecaster } from '../../workers/index.ts';
import type { DeviceCharts, ReadableCharts } from './chart-ports.ts';
import { createDisk, type Disk } from './disk.ts';
import { type Forecasting, keepForecast } from './forecasting.ts';
import { keepCharts } from './kept-charts.ts';
import { type DeviceRehearsal, keepRehearsal } from './kept-rehearsal.ts';
import { createPageLog, type PageLog } from './page-log.ts';
import { type Clock, createStudyDays, type StudyDays } from './study-day.ts';
import { type Channel, parseTabMessage, type TabMessage, tellTabs } from './tabs.ts';

export interface Model
  extends DeviceRehearsal,
    DeviceCharts,
    Forecasting,
    StudyDays,
    Pick<Disk, 'opening' | 'open'> {
  readonly log: ReadonlySignal<LogState>;
  readonly settings: ReadonlySignal<Settings>;
  /** How many stored records this version cannot read. */
  readonly unreadable: ReadonlySignal<number>;
  readonly append: (draft: EventDraft) => Promise<LogEvent>;
  readonly changeSettings: (change: SettingsChange) => Promise<void>;
  readonly exportBackup: () => Promise<Blob>;
  readonly importBackup: (text: string) => Promise<Imported>;
  /**
   * Reads the disk again, in this tab and in others, after something other than the model wrote to
   * it.
   */
  readonly refresh: () => Promise<void>;
  /** Loads the store that remembers which charts came from files hosted with the app. */
  readonly sources: Store['sources'];
  /** Handles a message from another tab. */
  readonly receive: (message: unknown) => void;
}

export interface ModelPorts {
  readonly store: Store;
  readonly forecaster: Forecaster;
  readonly clock: Clock;
  readonly channel: Channel;
  /** Runs work while the page is idle, in one tab at a time. If it is absent, the work is not done. */
  readonly whenIdle?: (work: () => Promise<void>) => void;
  /** Numbers that are already solved. */
  readonly solved?: Solved;
}

export function createModel(ports: ModelPorts): Model {
  const settings = signal<Settings>(DEFAULT_SETTINGS);
  const days = createStudyDays(ports.clock, settings);
  const log = createPageLog(() => readAgain(() => disk.reload()));
  const core: Core = { ...ports, ...days, ...log, settings, tell: tellTabs(ports.channel) };
  const { shareEvent, append, changeSettings } = createWriting(core);
  const { readCharts, catchUp, ...charts } = keepCharts({ ...core, shareEvent, changeSettings });
  const { readRehearsal, ...rehearsal } = keepRehearsal({ ...core, shareEvent });
  const disk = createDisk({ ...core, readCharts, readRehearsal });
  const { opening, open, reload, unread } = disk;
  return {
    ...days,
    ...charts,
    ...keepForecast({ ...core, ...charts }),
    ...rehearsal,
    opening,
    open,
    log: log.log,
    settings,
    unreadable: computed(() => unread.value + (rehearsal.rehearsalUnreadable.value ? 1 : 0)),
    append,
    changeSettings,
    ...createBackups(core, reload, catchUp),
    sources: ports.store.sources,
    receive: (data) => {
      const message = parseTabMessage(data);
      if (message.type === 'event') log.addEvent(message.event);
      else readAgain(message.type === 'rehearsal' ? readRehearsal : reload);
    },
  };
}

/** The values that all parts of the model share. */
interface Core extends ModelPorts, StudyDays, PageLog {
  readonly settings: Signal<Settings>;
  readonly tell: (message: TabMessage) => void;
}

interface Writing extends Pick<Model, 'append' | 'changeSettings'> {
  /** Adds a stored event to the log in memory, in this tab and in other tabs. */
  readonly shareEvent: (event: LogEvent) => void;
}

function createWriting({ store, settings, addEvent, lookAtClock, tell }: Core): Writing {
  const shareEvent = (event: LogEvent): void => {
    addEvent(event);
    tell({ type: 'event', event });
  };
  return {
    shareEvent,
    append: async (draft) => {
      const event = await store.append(draft);
      shareEvent(event);
      return event;
    },
    changeSettings: async (change) => {
      settings.value = await store.saveSettings(change);
      // The day may begin at a different hour now.
      lookAtClock();
      tell({ type: 'reload' });
    },
  };
}

function createBackups(
  { store, now, tell }: Core,
  reload: Disk['reload'],
  catchUp: ReadableCharts['catchUp'],
): Pick<Model, 'exportBackup' | 'importBackup' | 'refresh'> {
  const refresh = async (): Promise<void> => {
    await reload();
    tell({ type: 'reload' });
    // Nothing is lost if this fails, because the next refresh does it again.
    await catchUp().catch((error: unknown) => console.error('Not caught up:', error));
  };
  return {
    refresh,
    exportBackup: () => store.exportBackup(new Date(now()).toISOString()),
    importBackup: async (text) => {
      const result = await store.importBackup(text);
      if (result.ok) await refresh();
      return result;
    },
  };
}

/** Reads the disk again. If that fails, nothing changes, and the next page reads it. */
function readAgain(read: () => Promise<void>): void {
  read().catch((error: unknown) => console.error('Not read again:', error));
}

/** Returns the parts of the model that sessions need. */
export function sessionPorts(model: Pick<Model, 'log' | 'settings' | 'append' | 'now' | 'today'>) {
  const { log, settings, append, now, today } = model;
  return { log, settings, append, now, today };
}
