/**
 * What has to be known of a log before it is folded, found in one pass: of a million events each pass
 * takes a good part of the time that folding takes.
 */

import { compareEvents, type LogEvent } from './events.ts';
import type { Snapshot } from './snapshot.ts';

export interface Survey {
  readonly ordered: readonly LogEvent[];
  /** The latest sequence number of each device. */
  readonly devices: Map<string, number>;
  /** Devices of which an earlier event is dated days later than a later one. */
  readonly wrong: ReadonlySet<string>;
  readonly takenBack: Set<string>;
  /** The weights taken last; null for the published ones. */
  readonly weights: readonly number[] | null;
}

/** So many days back are in order: time zones, a moved day boundary. */
export const TRAVEL = 1;

/** Of a device's events so far the latest numbers: of all, of this day, the day before, and earlier. */
interface Latest {
  seq: number;
  day: number;
  today: number;
  eve: number;
  earlier: number;
}

/** @param events in any order */
export function survey(events: readonly LogEvent[], onto: Snapshot | null): Survey {
  return (
    surveyOrdered(events, onto) ?? (surveyOrdered([...events].sort(compareEvents), onto) as Survey)
  );
}

/** Null if they are not in order. */
function surveyOrdered(events: readonly LogEvent[], onto: Snapshot | null): Survey | null {
  const latests = new Map<string, Latest>();
  for (const [device, seq] of onto?.devices ?? []) latests.set(device, { ...UNHEARD, seq });
  const wrong = new Set<string>();
  const takenBack = new Set(onto?.takenBack);
  let weights = onto?.ownWeights ?? null;
  let before: LogEvent | null = null;
  let latest: Latest | null = null;
  for (const event of events) {
    const { device, seq, day, type } = event;
    if (before !== null && before.day >= day && compareEvents(before, event) >= 0) return null;
    if (latest === null || before?.device !== device) latest = latestOf(latests, device);
    if (day > latest.day) turnTo(latest, day);
    if (seq > latest.today) latest.today = seq;
    if (seq > latest.seq) latest.seq = seq;
    else if (seq < latest.earlier) wrong.add(device);
    if (type === 'taken back') takenBack.add(event.answered);
    else if (type === 'weights taken') weights = event.weights;
    before = event;
  }
  const devices = new Map([...latests].map(([device, { seq }]) => [device, seq]));
  return { ordered: events, devices, wrong, takenBack, weights };
}

const UNHEARD: Latest = { seq: -1, day: -Infinity, today: -1, eve: -1, earlier: -1 };

/** Another day: what is more than a traveller's day back is earlier. */
function turnTo(latest: Latest, day: number): void {
  const { today, eve, earlier } = latest;
  const next = day - latest.day <= TRAVEL;
  latest.earlier = next ? Math.max(earlier, eve) : Math.max(earlier, eve, today);
  latest.eve = next ? today : -1;
  latest.today = -1;
  latest.day = day;
}

function latestOf(latests: Map<string, Latest>, device: string): Latest {
  const known = latests.get(device);
  if (known) return known;
  const latest = { ...UNHEARD };
  latests.set(device, latest);
  return latest;
}
