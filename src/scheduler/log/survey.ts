/** What has to be known of a log before it is folded, found in one pass. */

import { compareEvents, type LogEvent } from './events.ts';
import type { Snapshot } from './state.ts';

export interface Survey {
  readonly ordered: readonly LogEvent[];
  /** The latest sequence number of each device. */
  readonly devices: Map<string, number>;
  /** Devices that dated an earlier event days after a later one. */
  readonly wrongClocks: ReadonlySet<string>;
  readonly takenBack: Set<string>;
  /** The weights taken last; null for the published ones. */
  readonly weights: readonly number[] | null;
}

/**
 * A clock that goes back by no more days than this is not at fault: time zones, a moved day boundary.
 */
export const TRAVEL = 1;

/**
 * The latest sequence numbers of a device: of all days, of `day`, of the day before, and of earlier
 * days.
 */
interface Latest {
  seq: number;
  day: number;
  today: number;
  eve: number;
  earlier: number;
}

/** @param events in any order */
export function survey(events: readonly LogEvent[], base: Snapshot | null): Survey {
  return (
    surveyOrdered(events, base) ?? (surveyOrdered([...events].sort(compareEvents), base) as Survey)
  );
}

/** Null if they are not in order. */
function surveyOrdered(events: readonly LogEvent[], base: Snapshot | null): Survey | null {
  const latests = new Map<string, Latest>();
  for (const [device, seq] of base?.devices ?? []) latests.set(device, { ...UNHEARD, seq });
  const wrongClocks = new Set<string>();
  const takenBack = new Set(base?.takenBack);
  let weights = base?.ownWeights ?? null;
  let before: LogEvent | null = null;
  for (const event of events) {
    if (before !== null && compareEvents(before, event) >= 0) return null;
    if (!isInTurn(latestOf(latests, event.device), event)) wrongClocks.add(event.device);
    if (event.type === 'taken back') takenBack.add(event.answered);
    else if (event.type === 'weights taken') weights = event.weights;
    before = event;
  }
  const devices = new Map([...latests].map(([device, { seq }]) => [device, seq]));
  return { ordered: events, devices, wrongClocks, takenBack, weights };
}

const UNHEARD: Latest = { seq: -1, day: -Infinity, today: -1, eve: -1, earlier: -1 };

/** Notes an event; false if its device numbered it before one that it dated days earlier. */
function isInTurn(latest: Latest, { seq, day }: LogEvent): boolean {
  if (day > latest.day) turnTo(latest, day);
  latest.today = Math.max(latest.today, seq);
  if (seq < latest.seq) return seq >= latest.earlier;
  latest.seq = seq;
  return true;
}

/** Begins another day: what lies further back than a traveler's day becomes earlier. */
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
