/** Appends events to the log inside a transaction, and gives each event its id and its number. */

import { type EventDraft, type LogEvent, parseEvent } from '../scheduler/index.ts';
import { type Database, promisifyRequest } from './database.ts';
import { recordOf } from './record.ts';

export const DEVICE = 'device';

/** This browser's name in the log, and the sequence number of its next event. */
export interface Device {
  readonly id: string;
  readonly next: number;
}

/** @param events the store of events, in a transaction that may also write documents */
export async function appendIn(
  db: Database,
  events: IDBObjectStore,
  draft: EventDraft,
  newDeviceId: () => string,
): Promise<LogEvent> {
  const documents = db.documentsOf(events);
  const stored: unknown = await promisifyRequest(documents.get(DEVICE));
  const { id, next } = deviceOf(stored) ?? { id: newDeviceId(), next: 0 };
  const event = { ...draft, version: 1, id: `${id}:${next}`, device: id, seq: next } as LogEvent;
  // An event that cannot be read back must not look saved.
  if (!parseEvent(event).ok) throw refusalOf(event);
  documents.put({ id, next: next + 1 } satisfies Device, DEVICE);
  // `add`, unlike `put`, never overwrites an event.
  await promisifyRequest(events.add(event, event.id));
  return event;
}

export async function appendAllIn(
  db: Database,
  events: IDBObjectStore,
  drafts: readonly EventDraft[],
  newDeviceId: () => string,
): Promise<readonly LogEvent[]> {
  const appended: LogEvent[] = [];
  for (const draft of drafts) appended.push(await appendIn(db, events, draft, newDeviceId));
  return appended;
}

/** The greatest number that an event's id can have (scheduler/log/event-schema.ts). */
const LAST = 999_999_999_999_999;

/** Thrown when the device's clock is set before 1970 or later than any valid date. */
export class ImpossibleDate extends RangeError {}

function refusalOf(event: LogEvent): RangeError {
  const isOnlyDate = parseEvent({ ...event, day: 0, at: 0 }).ok;
  return isOnlyDate
    ? new ImpossibleDate('the device’s clock is out of range')
    : new RangeError('the answer is out of range');
}

/** Returns null if no usable device is stored; the browser then takes a new name. */
export function deviceOf(stored: unknown): Device | null {
  const { id, next } = recordOf(stored);
  if (typeof id !== 'string' || !/^[a-z0-9]{1,32}$/.test(id)) return null;
  if (!Number.isSafeInteger(next)) return null;
  const number = next as number;
  return number >= 0 && number <= LAST ? { id, next: number } : null;
}
