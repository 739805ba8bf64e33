/** Everything that happened, as events of an append-only log; and their border with outside data. */

import * as v from 'valibot';
import { KINDS, type Kind, OUTCOMES, type Outcome } from '../cards/index.ts';

/** Latest version of a stored event. Older ones are migrated by `parseEvent`, newer ones refused. */
export const EVENT_VERSION = 1;

interface EventBase {
  readonly version: 1;
  /** `device:seq`; seq is allocated inside the transaction that writes the event. */
  readonly id: string;
  readonly device: string;
  readonly seq: number;
  /** Local study-day: whole days since 1970-01-01 by the player's own clock and day boundary. */
  readonly day: number;
  /** Milliseconds since 1970-01-01 UTC, by the device's clock. */
  readonly at: number;
}

/** A card was answered, or shown at the player's wish (`answer` is then null). */
export interface Answered extends EventBase {
  readonly type: 'answered';
  readonly card: string;
  readonly kind: Kind;
  /** The numbers given, diamonds, one per field; null for "show me". */
  readonly answer: readonly number[] | null;
  /** Signed answer − truth, diamonds, one per field; null for "show me". */
  readonly errors: readonly number[] | null;
  readonly outcome: Outcome;
  /** From the painted picture to the answer, milliseconds. */
  readonly ms: number;
}

/** An answer was taken back: it no longer counts, and its card is asked again. */
export interface TakenBack extends EventBase {
  readonly type: 'taken back';
  /** Id of the answered event. */
  readonly answered: string;
}

/** A line was shown and explained before it was first asked. */
export interface Met extends EventBase {
  readonly type: 'met';
  readonly line: string;
}

export type LogEvent = Answered | TakenBack | Met;

type Draft<E> = E extends LogEvent ? Omit<E, 'version' | 'id' | 'device' | 'seq'> : never;
/** An event that has not been written yet: the store gives it its place in the log. */
export type EventDraft = Draft<LogEvent>;

const whole = (least: number, most: number) =>
  v.pipe(v.number(), v.integer(), v.minValue(least), v.maxValue(most));
const id = v.pipe(v.string(), v.regex(/^[a-z0-9]{1,32}:[0-9]{1,15}$/));
const name = v.pipe(v.string(), v.minLength(1), v.maxLength(200));
const diamonds = v.nullable(
  v.pipe(
    v.array(v.pipe(v.number(), v.minValue(-99), v.maxValue(99))),
    v.minLength(1),
    v.maxLength(4),
  ),
);

const base = {
  version: v.literal(EVENT_VERSION),
  id,
  device: v.pipe(v.string(), v.regex(/^[a-z0-9]{1,32}$/)),
  seq: whole(0, Number.MAX_SAFE_INTEGER),
  day: whole(0, 200_000),
  at: whole(0, 8.64e15),
};

const eventSchema = v.variant('type', [
  v.object({
    ...base,
    type: v.literal('answered'),
    card: name,
    kind: v.picklist(KINDS),
    answer: diamonds,
    errors: diamonds,
    outcome: v.picklist(OUTCOMES),
    ms: whole(0, 86_400_000),
  }),
  v.object({ ...base, type: v.literal('taken back'), answered: id }),
  v.object({ ...base, type: v.literal('met'), line: name }),
]);

export type ParsedEvent =
  | { readonly ok: true; readonly event: LogEvent }
  | { readonly ok: false; readonly code: 'future version' | 'not an event' };

/** Validates one stored or imported event. Nothing of an event that does not fit is used. */
export function parseEvent(data: unknown): ParsedEvent {
  const version = (data as { version?: unknown } | null)?.version;
  if (typeof version === 'number' && version > EVENT_VERSION) {
    return { ok: false, code: 'future version' };
  }
  const result = v.safeParse(eventSchema, data);
  if (!result.success) return { ok: false, code: 'not an event' };
  const event: LogEvent = result.output;
  const whose = event.id === `${event.device}:${event.seq}`;
  return whose ? { ok: true, event } : { ok: false, code: 'not an event' };
}

/** The total order of the log: study-day, time, device, sequence number. */
export function compareEvents(a: LogEvent, b: LogEvent): number {
  return a.day - b.day || a.at - b.at || compareText(a.device, b.device) || a.seq - b.seq;
}

/** By code units: the same on every device, whatever its language. */
function compareText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

/** The union of two logs, in order, each event once. */
export function mergeLogs(a: readonly LogEvent[], b: readonly LogEvent[]): readonly LogEvent[] {
  const all = new Map<string, LogEvent>();
  for (const event of a) all.set(event.id, event);
  for (const event of b) if (!all.has(event.id)) all.set(event.id, event);
  return [...all.values()].sort(compareEvents);
}
