/** Writing one event into the log, inside a transaction: its place there is given with it. */

import { type EventDraft, type LogEvent, parseEvent } from '../scheduler/index.ts';
import { type Database, promisifyRequest } from './database.ts';
import { recordOf } from './record.ts';

export const DEVICE = 'device';

/** This browser's name in the log, and the sequence number of its next event. */
export interface Device {
  readonly id: string;
  readonly next: number;
}

/** @param events the store of events, in a transaction that may write both stores */
export async function appendIn(
  db: Database,
  events: IDBObjectStore,
  draft: EventDraft,
  newDeviceId: () => string,
): Promise<LogEvent> {
  const documents = db.documentsOf(events);
  const stored: unknown = await promisifyRequest(documents.get(DEVICE));
  const device = deviceOf(stored) ?? { id: newDeviceId(), next: 0 };
  const { id, next } = device;
  const event = { ...draft, version: 1, id: `${id}:${next}`, device: id, seq: next } as LogEvent;
  // What could not be read back must not look saved.
  if (!parseEvent(event).ok) throw refusalOf(event);
  documents.put({ id, next: next + 1 } satisfies Device, DEVICE);
  // add, not put: an event that is there is never written over.
  await promisifyRequest(events.add(event, event.id));
  return event;
}

/** As far as the number of an event can be written (scheduler/event-schema.ts). */
const LAST = 999_999_999_999_999;

/** A device whose clock stands before 1970, or beyond what a date can be. */
export class ImpossibleDate extends RangeError {}

function refusalOf(event: LogEvent): RangeError {
  const dated = parseEvent({ ...event, day: 0, at: 0 }).ok;
  return dated
    ? new ImpossibleDate('the device’s clock is out of range')
    : new RangeError('the answer is out of range');
}

/** Null if there is none, or none that can go on: then the browser takes another name. */
export function deviceOf(stored: unknown): Device | null {
  const { id, next } = recordOf(stored);
  if (typeof id !== 'string' || !/^[a-z0-9]{1,32}$/.test(id)) return null;
  if (!Number.isSafeInteger(next)) return null;
  const number = next as number;
  return number >= 0 && number <= LAST ? { id, next: number } : null;
}
