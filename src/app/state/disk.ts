/** Reads the contents of the store into the model. */

import { type ReadonlySignal, type Signal, signal } from '@preact/signals';
import { HARBOUR_LANE, HARBOUR_LANE_BAR } from '../../charts/index.ts';
import { OtherVersion, type Settings, type Store } from '../../store/index.ts';
import type { ReadableCharts } from './chart-ports.ts';
import type { ReadableRehearsal } from './kept-rehearsal.ts';
import type { PageLog } from './page-log.ts';
import type { StudyDays } from './study-day.ts';

export type Opening =
  | { readonly at: 'opening' }
  | { readonly at: 'open' }
  | { readonly at: 'failed'; readonly say: string };

export interface DiskPorts
  extends Pick<StudyDays, 'today' | 'lookAtClock'>,
    PageLog,
    Pick<ReadableCharts, 'readCharts'>,
    Pick<ReadableRehearsal, 'readRehearsal'> {
  readonly store: Store;
  readonly settings: Signal<Settings>;
  readonly whenIdle?: (work: () => Promise<void>) => void;
}

export interface Disk {
  readonly opening: ReadonlySignal<Opening>;
  /**
   * Reads the disk. Creating a database takes time. So if the device seems new, the page already shows
   * what the database will contain. If the device is not new after all, the screen is cleared again.
   */
  readonly open: (isNew?: boolean) => Promise<void>;
  readonly reload: () => Promise<void>;
  /** How many stored records this version cannot read. */
  readonly unread: ReadonlySignal<number>;
}

export function createDisk(ports: DiskPorts): Disk {
  const opening = signal<Opening>({ at: 'opening' });
  const unread = signal(0);
  const reload = () => readAll(ports, unread);
  const show = (): void => {
    ports.lookAtClock();
    opening.value = { at: 'open' };
  };
  return {
    opening,
    open: async (isNew = false) => {
      if (isNew) show();
      try {
        const hadNone = await ports.store.firstCharts([HARBOUR_LANE, HARBOUR_LANE_BAR]);
        if (!hadNone) opening.value = { at: 'opening' };
        await reload();
        show();
      } catch (error) {
        opening.value = { at: 'failed', say: cannotOpen(error) };
      }
    },
    reload,
    unread,
  };
}

async function readAll(ports: DiskPorts, unread: Signal<number>): Promise<void> {
  const { store, settings } = ports;
  const { contents, arrived } = await ports.whileReading(() => store.load());
  settings.value = contents.settings;
  ports.replaceLog(contents, arrived);
  unread.value = contents.unread.length + contents.unreadDocuments;
  ports.readCharts(contents.charts);
  await ports.readRehearsal();
  ports.whenIdle?.(() => sealOld(ports));
}

/** Shortens the log that the next page has to read. The log in memory stays as it is. */
async function sealOld({ store, log, today }: DiskPorts): Promise<void> {
  try {
    const { sealOld: seal } = await import('./seal-old.ts');
    await seal(store, log.peek(), today());
  } catch (error) {
    // Nothing has changed. The next page tries again.
    console.error('Not sealed:', error);
  }
}

function cannotOpen(error: unknown): string {
  if (error instanceof OtherVersion) return error.message;
  const why = error instanceof Error ? error.message : String(error);
  return `This browser does not let the page keep your answers (${why}). A private window often forbids it; try an ordinary one.`;
}
