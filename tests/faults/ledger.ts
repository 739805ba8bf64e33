/** Compares what the page acknowledged with what is on the disk. */

import type { LogEvent } from '../../src/scheduler/index.ts';

/** A player's action as text, the same from the screen and from the log. */
export type Deed = string;

export interface Ledger {
  /** What the page showed as kept, in order. */
  readonly acknowledged: Deed[];
  /** Called but not yet acknowledged; may be on the disk or not. */
  inFlight: Deed | null;
}

export function newLedger(): Ledger {
  return { acknowledged: [], inFlight: null };
}

/** The page has shown the answer as kept. */
export function acknowledge(ledger: Ledger): void {
  if (ledger.inFlight !== null) ledger.acknowledged.push(ledger.inFlight);
  ledger.inFlight = null;
}

/** An answer with the same text in every field; `null` is "show me". */
export function answeredDeed(typed: string | null): Deed {
  return `answered ${typed === null ? 'by show me' : Number(typed)}`;
}

/** The deeds in a device's events, by sequence number. */
export function deedsIn(events: readonly LogEvent[]): readonly Deed[] {
  const inOrder = [...events].sort((one, other) => one.seq - other.seq);
  const answers = new Map<string, Deed>();
  return inOrder.flatMap((event): Deed[] => {
    if (event.type === 'taken back') return [`taken back: ${answers.get(event.answered)}`];
    if (event.type !== 'answered') return [];
    const deed = answeredDeed(event.answer === null ? null : String(event.answer[0]));
    answers.set(event.id, deed);
    return [deed];
  });
}

export interface Count {
  /** Acknowledged but not found. */
  readonly lost: number;
  /** Found too often. */
  readonly twice: number;
  /** Found but not acknowledged. */
  readonly inFlight: number;
}

/** Counts lost and repeated deeds. One in flight that is found counts as acknowledged from now on. */
export function settle(ledger: Ledger, found: readonly Deed[]): Count {
  const here = counted(found);
  const due = counted(ledger.acknowledged);
  let lost = 0;
  for (const [deed, times] of due) lost += Math.max(0, times - (here.get(deed) ?? 0));
  let beyond = 0;
  for (const [deed, times] of here) beyond += Math.max(0, times - (due.get(deed) ?? 0));
  const last = found.at(-1);
  const arrived = beyond > 0 && ledger.inFlight !== null && last === ledger.inFlight;
  if (arrived && ledger.inFlight !== null) ledger.acknowledged.push(ledger.inFlight);
  ledger.inFlight = null;
  return { lost, twice: beyond - (arrived ? 1 : 0), inFlight: arrived ? 1 : 0 };
}

function counted(deeds: readonly Deed[]): ReadonlyMap<Deed, number> {
  const counts = new Map<Deed, number>();
  for (const deed of deeds) counts.set(deed, (counts.get(deed) ?? 0) + 1);
  return counts;
}
