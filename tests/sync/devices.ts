/** Devices that are connected with one folder, and what tests do on them. */

import 'fake-indexeddb/auto';
import { type ChartDocument, lastRevision, revise, toDecimal } from '../../src/charts/index.ts';
import { foldLog, type LogEvent } from '../../src/scheduler/index.ts';
import { DEFAULT_SETTINGS } from '../../src/store/index.ts';
import { connect, type Ports } from '../../src/sync/index.ts';
import { HEADER_NAME, newWriter } from '../../src/sync/names.ts';
import { parseState, type SyncState } from '../../src/sync/state.ts';
import { plain } from '../scheduler/plain.ts';
import { type MemoryFolder, memoryFolder, newDevice, WISH } from './folder.ts';

export type Device = ReturnType<typeof newDevice>;

/** A folder's header and its state on a device. Deriving a key is slow by design, so all share one. */
export const KNOWN = await connectOnce();

async function connectOnce(): Promise<{
  readonly state: SyncState;
  readonly header: Uint8Array<ArrayBuffer>;
}> {
  const folder = memoryFolder();
  const device = newDevice(folder);
  await connect(device, WISH);
  const state = parseState(await device.store.loadState());
  const header = folder.files.get(HEADER_NAME);
  if (!state || !header) throw new Error('not connected');
  return { state, header };
}

export async function connected(
  count: number,
): Promise<{ folder: MemoryFolder; devices: Device[] }> {
  const folder = memoryFolder();
  folder.files.set(HEADER_NAME, KNOWN.header);
  const devices = await Promise.all(Array.from({ length: count }, () => newcomer(folder)));
  return { folder, devices };
}

export function answersOf(device: string, from: number, count: number): readonly LogEvent[] {
  return Array.from({ length: count }, (_, n) => ({
    ...{ type: 'answered', card: 'p/a', kind: 'number', answer: [1.4], errors: [0.01] },
    ...{ outcome: 'pocketed', ms: 900 + n, version: 1, device, seq: from + n },
    ...{ id: `${device}:${from + n}`, day: 20_000 + n, at: (20_000 + n) * 86_400_000 },
  })) as LogEvent[];
}

export async function put(
  { store }: Ports,
  events: readonly LogEvent[],
  charts: readonly ChartDocument[] = [],
): Promise<void> {
  const merged = await store.merge(
    { events, charts, settings: DEFAULT_SETTINGS, unread: [] },
    new Set(),
  );
  if (!merged.ok) throw new Error(merged.say);
}

/** What a device has, as far as all devices have to agree. */
export async function heldOn({ store }: Ports): Promise<{
  readonly ids: readonly string[];
  readonly state: ReturnType<typeof plain>;
  readonly charts: readonly string[];
}> {
  const { events, charts } = await store.contents();
  return {
    ids: events.map(({ id }) => id).sort(),
    state: plain(foldLog(events)),
    charts: charts.map((chart) => JSON.stringify(chart)).sort(),
  };
}

/** A revision with one measured line. */
export const edited = (chart: ChartDocument, value: number, date: string, why: string) =>
  revise(
    chart,
    {
      ...lastRevision(chart),
      measured: [{ pattern: 'cross-side', start: toDecimal(5), medium: toDecimal(value) }],
    },
    { date, author: 'Player', why },
  );

export async function failing(
  outcome: Promise<unknown>,
): Promise<{ code?: string; message: string }> {
  return outcome.then(
    () => {
      throw new Error('it was not refused');
    },
    (error: Error & { code?: string }) => error,
  );
}

/** A device that connects with a folder others have used. */
export async function newcomer(folder: MemoryFolder): Promise<Device> {
  const device = newDevice(folder);
  await device.store.saveState({ ...KNOWN.state, writer: newWriter() });
  return device;
}
