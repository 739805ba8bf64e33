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

/** A device's latest event so far. */
interface Latest {
  seq: number;
  day: number;
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
  for (const [device, seq] of onto?.devices ?? []) latests.set(device, { seq, day: -Infinity });
  const wrong = new Set<string>();
  const takenBack = new Set(onto?.takenBack);
  let weights = onto?.ownWeights ?? null;
  let before: LogEvent | null = null;
  let latest: Latest | null = null;
  for (const event of events) {
    const { device, seq, day, type } = event;
    if (before !== null && before.day >= day && compareEvents(before, event) >= 0) return null;
    if (latest === null || before?.device !== device) latest = latestOf(latests, device);
    if (seq > latest.seq) {
      latest.seq = seq;
      latest.day = day;
    } else if (day > latest.day + TRAVEL && latest.day > -Infinity) {
      wrong.add(device);
    }
    if (type === 'taken back') takenBack.add(event.answered);
    else if (type === 'weights taken') weights = event.weights;
    before = event;
  }
  const devices = new Map([...latests].map(([device, { seq }]) => [device, seq]));
  return { ordered: events, devices, wrong, takenBack, weights };
}

function latestOf(latests: Map<string, Latest>, device: string): Latest {
  const known = latests.get(device);
  if (known) return known;
  const latest = { seq: -1, day: 0 };
  latests.set(device, latest);
  return latest;
}
