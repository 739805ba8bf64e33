/** The app's state: what the store holds, as signals, and the actions that change it. */

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
import type { Planner } from '../../workers/index.ts';
import type { ChartPorts, DeviceCharts, ReadableCharts } from './chart-ports.ts';
import { createDisk, type Disk } from './disk.ts';
import { keepCharts } from './kept-charts.ts';
import { type DeviceRehearsal, keepRehearsal, type ReadableRehearsal } from './kept-rehearsal.ts';
import { createPageLog, type PageLog } from './page-log.ts';
import { keepPlanning, type Planning } from './planning.ts';
import { type Clock, createStudyDays, type StudyDays } from './study-day.ts';
import { type Channel, parseTabMessage, type TabMessage, tellTabs } from './tabs.ts';

export interface Model
  extends DeviceRehearsal,
    DeviceCharts,
    Planning,
    StudyDays,
    Pick<Disk, 'opening' | 'open'> {
  readonly log: ReadonlySignal<LogState>;
  readonly settings: ReadonlySignal<Settings>;
  /** Stored records that this version cannot read. */
  readonly unreadable: ReadonlySignal<number>;
  readonly append: (draft: EventDraft) => Promise<LogEvent>;
  readonly changeSettings: (change: SettingsChange) => Promise<void>;
  readonly exportBackup: () => Promise<Blob>;
  readonly importBackup: (text: string) => Promise<Imported>;
  /** Reads the disk again, here and in other tabs, after something else than the model wrote to it. */
  readonly refresh: () => Promise<void>;
  /** The addresses of charts that are files beside the app. */
  readonly sources: Store['sources'];
  /** Handles a message from another tab. */
  readonly receive: (message: unknown) => void;
}

export interface ModelPorts {
  readonly store: Store;
  readonly planner: Planner;
  readonly clock: Clock;
  readonly channel: Channel;
  /** Runs work while the page is idle, in one tab at a time; without it, the work is not done. */
  readonly whenIdle?: (work: () => Promise<void>) => void;
  /** Numbers that need not be solved again. */
  readonly solved?: Solved;
}

export function createModel(ports: ModelPorts): Model {
  const { store, clock, planner } = ports;
  const settings = signal<Settings>(DEFAULT_SETTINGS);
  const days = createStudyDays(clock, settings);
  const tell = tellTabs(ports.channel);
  const log = createPageLog(() => readAgain(() => disk.reload()));
  const writing = createWriting({ store, settings, log, days, tell });
  const { readCharts, catchUp, ...charts } = keepCharts({
    ...{ store, settings, log: log.state, solved: ports.solved ?? null },
    ...chartPorts(writing, days, tell),
  });
  const { readPlan, ...planning } = keepPlanning({
    ...{ store, planner, settings, log: log.state, day: days.day },
    ...charts,
  });
  const { readRehearsal, ...rehearsal } = keepRehearsal({
    store,
    shareEvent: writing.shareEvent,
    tellOthers: () => tell({ type: 'rehearsal' }),
  });
  const disk = createDisk({
    ...ports,
    ...days,
    settings,
    log,
    readCharts,
    readRehearsal,
    readPlan,
  });
  const { opening, open, reload, unread } = disk;
  const { append, changeSettings } = writing;
  return {
    ...days,
    ...charts,
    ...planning,
    ...rehearsal,
    ...{ opening, open, append, changeSettings, settings },
    log: log.state,
    unreadable: computed(() => unread.value + (rehearsal.rehearsalUnreadable.value ? 1 : 0)),
    ...createBackups({ store, clock, reload, catchUp, tell }),
    sources: store.sources,
    receive: receiver({ log, reload, readRehearsal }),
  };
}

interface Writing {
  /** Adds a stored event to the log in memory, here and in other tabs. */
  readonly shareEvent: (event: LogEvent) => void;
  readonly append: Model['append'];
  readonly changeSettings: Model['changeSettings'];
}

type Tell = (message: TabMessage) => void;

function createWriting(ports: {
  readonly store: Store;
  readonly settings: Signal<Settings>;
  readonly log: PageLog;
  readonly days: StudyDays;
  readonly tell: Tell;
}): Writing {
  const { store, settings, log, days, tell } = ports;
  const shareEvent = (event: LogEvent): void => {
    log.add(event);
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
      // The day may begin at another hour now.
      days.lookAtClock();
      tell({ type: 'reload' });
    },
  };
}

function chartPorts(
  { shareEvent, changeSettings }: Writing,
  { today, now }: StudyDays,
  tell: Tell,
): Pick<ChartPorts, 'changeSettings' | 'when' | 'shareEvents' | 'tellReload'> {
  return {
    changeSettings,
    when: () => ({ day: today(), at: now() }),
    shareEvents: (events) => events.forEach(shareEvent),
    tellReload: () => tell({ type: 'reload' }),
  };
}

function createBackups(ports: {
  readonly store: Store;
  readonly clock: Clock;
  readonly reload: Disk['reload'];
  readonly catchUp: ReadableCharts['catchUp'];
  readonly tell: Tell;
}): Pick<Model, 'exportBackup' | 'importBackup' | 'refresh'> {
  const { store, clock, reload, catchUp, tell } = ports;
  const refresh = async (): Promise<void> => {
    await reload();
    tell({ type: 'reload' });
    // Nothing is lost if this fails: it is done with the next refresh.
    await catchUp().catch((error: unknown) => console.error('Not caught up:', error));
  };
  return {
    refresh,
    exportBackup: () => store.exportBackup(new Date(clock.now()).toISOString()),
    importBackup: async (text) => {
      const result = await store.importBackup(text);
      if (result.ok) await refresh();
      return result;
    },
  };
}

function receiver(ports: {
  readonly log: PageLog;
  readonly reload: Disk['reload'];
  readonly readRehearsal: ReadableRehearsal['readRehearsal'];
}): Model['receive'] {
  return (data) => {
    const message = parseTabMessage(data);
    if (message.type === 'event') ports.log.add(message.event);
    else readAgain(message.type === 'rehearsal' ? ports.readRehearsal : ports.reload);
  };
}

/** Without effect if the disk cannot be read: the next page reads it. */
function readAgain(read: () => Promise<void>): void {
  read().catch((error: unknown) => console.error('Not read again:', error));
}

/** What sessions need of the model. */
export function sessionPorts(
  model: Pick<Model, 'log' | 'settings' | 'plan' | 'append' | 'now' | 'today'>,
) {
  const { log, settings, plan, append, now, today } = model;
  return { log, settings, plan, append, now, today };
}
