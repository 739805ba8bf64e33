/** Finds in one pass what has to be known about a log before it is folded. */

import { compareEvents, type LogEvent } from './events.ts';
import type { Snapshot } from './state.ts';

export interface Survey {
  readonly ordered: readonly LogEvent[];
  /** The latest sequence number of each device. */
  readonly devices: Map<string, number>;
  /** The devices that dated an earlier event days after a later one. */
  readonly wrongClocks: ReadonlySet<string>;
  readonly takenBack: Set<string>;
  /** The weights taken last; null for the published ones. */
  readonly weights: readonly number[] | null;
}

/**
 * How many days a clock may go back without being wrong. Time zones and a changed day boundary can
 * cause this.
 */
export const TRAVEL = 1;

/**
 * The latest sequence numbers of a device: of all days (`seq`), of its latest day (`today`), of the day
 * before (`eve`), and of the days before that (`earlier`).
 */
interface Latest {
  seq: number;
  day: number;
  today: number;
  eve: number;
  earlier: number;
}

/** @param events the events, in any order */
export function survey(events: readonly LogEvent[], base: Snapshot | null): Survey {
  return (
    surveyOrdered(events, base) ?? (surveyOrdered([...events].sort(compareEvents), base) as Survey)
  );
}

/** Surveys events that are in order; returns null if they are not. */
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

/** Records an event. Returns false if its device dated an event with a higher number days earlier. */
function isInTurn(latest: Latest, { seq, day }: LogEvent): boolean {
  if (day > latest.day) turnTo(latest, day);
  latest.today = Math.max(latest.today, seq);
  if (seq < latest.seq) return seq >= latest.earlier;
  latest.seq = seq;
  return true;
}

/** Begins a new day. Days that are further back than the day before become `earlier`. */
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
