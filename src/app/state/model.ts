/** The app's state: what the store holds, as signals, and the actions that change it. */

import { computed, type ReadonlySignal, signal } from '@preact/signals';
import { HARBOUR_LANE, HARBOUR_LANE_BAR, type Solved } from '../../charts/index.ts';
import {
  addToLog,
  continues,
  type EventDraft,
  foldLog,
  type LogEvent,
  type LogState,
  mergeLogs,
  parseEvent,
  studyDay,
} from '../../scheduler/index.ts';
import {
  DEFAULT_SETTINGS,
  type Imported,
  OtherVersion,
  type Settings,
  type SettingsChange,
  type Store,
} from '../../store/index.ts';
import type { Planner } from '../../workers/index.ts';
import type { KeptCharts } from './chart-ports.ts';
import { keepCharts } from './kept-charts.ts';
import { type KeptRehearsal, keepRehearsal } from './kept-rehearsal.ts';
import { keepPlanning, type Planning } from './planning.ts';

export interface Clock {
  /** Milliseconds since 1970-01-01 UTC, whole. */
  readonly now: () => number;
  /** Minutes by which the local clock is ahead of UTC at an instant. */
  readonly offsetMinutes: (at: number) => number;
}

/** Between the tabs of one browser. */
export interface Channel {
  readonly send: (message: unknown) => void;
}

export type Opening =
  | { readonly at: 'opening' }
  | { readonly at: 'open' }
  | { readonly at: 'failed'; readonly say: string };

export interface Model extends KeptRehearsal, KeptCharts, Planning {
  readonly opening: ReadonlySignal<Opening>;
  readonly log: ReadonlySignal<LogState>;
  readonly settings: ReadonlySignal<Settings>;
  /** Stored records that this version cannot read. */
  readonly unreadable: ReadonlySignal<number>;
  /**
   * Reads the disk. A device that its page holds to be new shows meanwhile what will be on it, for a
   * disk takes its time to make a database; if it is not new, what is on the screen goes again.
   */
  readonly open: (isNew?: boolean) => Promise<void>;
  /** The study-day as of the last look at the clock; screens that stay open follow it. */
  readonly day: ReadonlySignal<number>;
  readonly lookAtClock: () => void;
  /** The study-day now. */
  readonly today: () => number;
  readonly now: () => number;
  /** The study-day now, as a calendar date by ISO 8601. */
  readonly date: () => string;
  readonly append: (draft: EventDraft) => Promise<LogEvent>;
  readonly changeSettings: (change: SettingsChange) => Promise<void>;
  readonly exportBackup: () => Promise<Blob>;
  readonly importBackup: (text: string) => Promise<Imported>;
  /** Something was written to the disk beside this page: reads it, here and in other tabs. */
  readonly cameIn: () => Promise<void>;
  /** Where charts come from that are files beside the app. */
  readonly sources: Store['sources'];
  /** A message from another tab. */
  readonly receive: (message: unknown) => void;
}

export interface ModelPorts {
  readonly store: Store;
  /** Begins the planning worker when it is first asked for. */
  readonly planner: Planner;
  readonly clock: Clock;
  readonly channel: Channel;
  /** Does something when the page has time for it, unless another tab is at it; without it, never. */
  readonly whenIdle?: (work: () => Promise<void>) => void;
  /** Numbers that need not be solved again. */
  readonly solved?: Solved;
}

export function createModel(ports: ModelPorts): Model {
  const { store, clock, channel, planner, whenIdle, solved = null } = ports;
  const opening = signal<Opening>({ at: 'opening' });
  const log = signal<LogState>(foldLog([]));
  const settings = signal<Settings>(DEFAULT_SETTINGS);
  const unread = signal(0);
  const day = signal(0);
  /** What came in while the store was being read. */
  const meanwhile = new Set<LogEvent[]>();

  const reload = async (): Promise<void> => {
    const arrived: LogEvent[] = [];
    meanwhile.add(arrived);
    const contents = await store.load().finally(() => meanwhile.delete(arrived));
    settings.value = contents.settings;
    // The log only grows, so the union is right even if an answer was written meanwhile.
    const { events, snapshot } = contents;
    log.value = foldLog(arrived.length > 0 ? mergeLogs(events, arrived) : events, snapshot);
    unread.value = contents.unread.length + contents.unreadDocuments;
    readCharts(contents.charts);
    await readRehearsal();
    readPlan(await store.loadPlan());
    whenIdle?.(sealOld);
  };

  /** The state in memory stays as it is; it is shorter when the page is next opened. */
  const sealOld = async (): Promise<void> => {
    try {
      const { sealOld: seal } = await import('./seal-old.ts');
      await seal(store, log.peek(), today());
    } catch (error) {
      // Nothing was changed, and it is tried again when the page is next opened.
      console.error('Not sealed:', error);
    }
  };

  /** Other tabs hear of a change after it is on disk; that they cannot be reached changes nothing. */
  const tell = (message: unknown): void => {
    try {
      channel.send(message);
    } catch (error) {
      console.error('Other tabs were not told:', error);
    }
  };

  const today = (): number => {
    const at = clock.now();
    return studyDay(at, clock.offsetMinutes(at), settings.peek().dayBoundaryHour);
  };

  const takeIn = (event: LogEvent): void => {
    for (const arrived of meanwhile) arrived.push(event);
    if (touchesSealed(log.peek(), event)) readAgain(reload);
    else log.value = addToLog(log.peek(), event);
  };

  /** What is on disk; if it cannot be read now, it will be at the next start. */
  const readAgain = (read: () => Promise<void>): void => {
    read().catch((error: unknown) => console.error('Not read again:', error));
  };

  const shareEvent = (event: LogEvent): void => {
    takeIn(event);
    tell({ type: 'event', event });
  };
  const changeSettings = async (change: SettingsChange): Promise<void> => {
    settings.value = await store.saveSettings(change);
    day.value = today();
    tell({ type: 'reload' });
  };

  const cameIn = async (): Promise<void> => {
    await reload();
    tell({ type: 'reload' });
    // All of it came in; what the charts make of it is told again with the next backup.
    await catchUp().catch((error: unknown) => console.error('Not caught up:', error));
  };

  const { readCharts, catchUp, ...charts } = keepCharts({
    store,
    log,
    settings,
    changeSettings,
    when: () => ({ day: today(), at: clock.now() }),
    shareEvents: (events) => events.forEach(shareEvent),
    tellReload: () => tell({ type: 'reload' }),
    solved,
  });
  const { readPlan, ...planning } = keepPlanning({ store, planner, log, settings, day, ...charts });
  const { readRehearsal, ...kept } = keepRehearsal({ store, takeIn: shareEvent, tell });

  const unreadable = computed(() => unread.value + (kept.rehearsalUnreadable.value ? 1 : 0));

  return {
    ...kept,
    ...charts,
    ...planning,
    opening,
    log,
    settings,
    unreadable,
    open: async (isNew = false) => {
      if (isNew) {
        day.value = today();
        opening.value = { at: 'open' };
      }
      try {
        const hadNone = await store.firstCharts([HARBOUR_LANE, HARBOUR_LANE_BAR]);
        if (!hadNone) opening.value = { at: 'opening' };
        await reload();
        day.value = today();
        opening.value = { at: 'open' };
      } catch (error) {
        opening.value = { at: 'failed', say: cannotOpen(error) };
      }
    },
    now: clock.now,
    date: () => new Date(today() * 86_400_000).toISOString().slice(0, 10),
    day,
    today: () => {
      // Read, so that whatever is computed from the day follows it over midnight.
      void day.value;
      return today();
    },
    lookAtClock: () => {
      day.value = today();
    },
    append: async (draft) => {
      const event = await store.append(draft);
      shareEvent(event);
      return event;
    },
    changeSettings,
    exportBackup: () => store.exportBackup(new Date(clock.now()).toISOString()),
    importBackup: async (text) => {
      const result = await store.importBackup(text);
      if (result.ok) await cameIn();
      return result;
    },
    cameIn,
    sources: store.sources,
    receive: (message) => {
      const { type, event } = (message ?? {}) as { type?: unknown; event?: unknown };
      const parsed = type === 'event' ? parseEvent(event) : null;
      if (parsed?.ok) {
        takeIn(parsed.event);
        return;
      }
      readAgain(type === 'rehearsal' ? readRehearsal : reload);
    },
  };
}

/** Does it change what was folded before the log in memory begins; nearly none does. */
function touchesSealed({ base, rawEvents }: LogState, event: LogEvent): boolean {
  if (!base) return false;
  const { type, day } = event;
  if (day >= base.before && type !== 'taken back' && type !== 'weights taken') return false;
  return !continues(base, [...rawEvents, event]);
}

function cannotOpen(error: unknown): string {
  if (error instanceof OtherVersion) return error.message;
  const why = error instanceof Error ? error.message : String(error);
  return `This browser does not let the page keep your answers (${why}). A private window often forbids it; try an ordinary one.`;
}

/** What sessions need of the model. */
export function sessionPorts({ log, settings, plan, append, now, today }: Model) {
  return { log, settings, plan, append, now, today };
}
