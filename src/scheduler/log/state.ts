/** The folded log: all that the chooser and the screens read. And its stored snapshot. */

import type { Kind, Outcome } from '../../cards/index.ts';
import type { Speed } from '../../table/index.ts';
import type { Memory, MemoryModel } from '../memory/memory.ts';
import type { ChartUsed, LogEvent, TableShot } from './events.ts';
import type { Trials } from './trials.ts';

/** What a card remembers. */
export interface CardMemory extends Memory {
  readonly firstDay: number;
  readonly lastDay: number;
  readonly lastOutcome: Outcome;
  /** How often it was asked: 0 if only its neighbors were proven. */
  readonly answers: number;
  /** How often in a row it was off on its last day. */
  readonly missesInARow: number;
  /** Number of steps of the log before the one that last answered it; −1 if there was none. */
  readonly lastStep: number;
  /** The truth that the card showed last; null if it showed none. Stored under this name. */
  readonly told: ShownTruth | null;
  /** Errors of a number card since its number last moved, newest last, a dozen at most. */
  readonly recent: readonly Erred[];
}

/**
 * What was right, as answer − errors, diamonds, one per field; without errors, the answer itself.
 */
export interface ShownTruth {
  readonly answer: readonly number[] | null;
  readonly errors: readonly number[] | null;
}

/** Signed answer − truth of one day, diamonds, one per field. */
export interface Erred {
  readonly day: number;
  readonly errors: readonly number[];
}

export interface MetLine {
  readonly day: number;
  /** Number of steps of the log before the one that met it. */
  readonly step: number;
}

/** A number that the player doubts, and the one they propose, diamonds. */
export interface Flag {
  readonly speed: Speed;
  readonly number: number;
  readonly day: number;
}

/** A card whose number moved beyond the tolerance, until it is answered. */
export interface MovedCard {
  readonly line: string;
  /** What was learned, diamonds, one per field. */
  readonly from: readonly number[];
  readonly to: readonly number[];
  /** It was learned on another chart whose memory this one took over; no revision moved it. */
  readonly elsewhere: boolean;
  /** Study-day of the revision. */
  readonly day: number;
  /** Study-day on which it was first asked, before it moved. */
  readonly since: number;
  /** Its memory before the move, restored if the number returns before the new one was shown. */
  readonly memory: CardMemory | null;
  /** The new number has been shown. */
  readonly shown: boolean;
}

/** A card whose remembered number differs from its chart's. It ends once the player saw the change. */
export interface Shift {
  readonly from: readonly number[];
  /** Null if the card has left its chart. */
  readonly to: readonly number[] | null;
}

/** How the player uses a chart. */
export type ChartUse = Pick<ChartUsed, 'shares' | 'level'>;

/** What folding the events gives; a snapshot stores it under these names. */
export interface Folded {
  readonly memories: ReadonlyMap<string, CardMemory>;
  readonly met: ReadonlyMap<string, MetLine>;
  /** Recent answer times per kind, milliseconds, newest last. */
  readonly times: ReadonlyMap<Kind, readonly number[]>;
  /** Ids of the lines that are set aside. */
  readonly aside: ReadonlySet<string>;
  /** The player's notes, by line. */
  readonly notes: ReadonlyMap<string, string>;
  /** Numbers that the player doubts, by line. */
  readonly flags: ReadonlyMap<string, Flag>;
  /** Cards whose number moved beyond the tolerance and that have not been answered since. */
  readonly moved: ReadonlyMap<string, MovedCard>;
  /** Cards whose remembered number differs from their chart’s, until they are answered. */
  readonly shifts: ReadonlyMap<string, Shift>;
  /** A card's numbers after the last revision that touched it; null if it left its chart. */
  readonly numbers: ReadonlyMap<string, readonly number[] | null>;
  /** How the player uses charts, by their ids. */
  readonly uses: ReadonlyMap<string, ChartUse>;
  /** Shots at the real table that were not taken back. */
  readonly shots: readonly TableShot[];
  /** How answers came out, by what memory had predicted. */
  readonly trials: Trials;
  /** A step is one thing that the player was shown: an answered card or a met line. */
  readonly steps: number;
}

export interface LogState extends Folded {
  /**
   * In order, with wrong clocks put right (wrong-clock.ts); answers that were taken back are among
   * them. Of the events in `base` only those that screens show again: drills, rehearsals,
   * placements.
   */
  readonly events: readonly LogEvent[];
  /** The events since `base` in order, dated as their devices dated them. */
  readonly rawEvents: readonly LogEvent[];
  /** The snapshot that this state continues; null if all events were folded. */
  readonly base: Snapshot | null;
  /** The latest sequence number of each device. */
  readonly devices: ReadonlyMap<string, number>;
  /** Counts memory by the weights that were taken last. */
  readonly model: MemoryModel;
  /** Ids that were taken back. Only answers and table shots can be; they no longer count. */
  readonly takenBack: ReadonlySet<string>;
}

/** Raise it whenever a fold would give something else, or keeps something more. */
export const SNAPSHOT_VERSION = 2;

/** A stored fold of the older events. Maps, sets and plain objects: structured clone stores it. */
export interface Snapshot {
  readonly version: number;
  /** How many events it folds. */
  readonly events: number;
  /** All of them are of an earlier study-day than this. */
  readonly before: number;
  /** The weights by which memory was counted. */
  readonly weights: readonly number[];
  /** The weights taken last among its events; null for the published ones. */
  readonly ownWeights: readonly number[] | null;
  /** The latest sequence number of each device. */
  readonly devices: ReadonlyMap<string, number>;
  readonly takenBack: ReadonlySet<string>;
  /** Drills, rehearsals and placements: screens show them again. */
  readonly shownAgain: readonly LogEvent[];
  readonly fold: Folded;
}
