/** The state folded from the log, which the chooser and the screens read; and its snapshot. */

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
  /** How often the card was asked; 0 if it counts as known only because its neighbors are. */
  readonly answers: number;
  /** How often in a row the card was off on its last day. */
  readonly missesInARow: number;
  /**
   * The step that last answered the card, counted from 0. If it was never asked, the last step before
   * its placement; −1 if there was none.
   */
  readonly lastStep: number;
  /** The true numbers that the card showed last; null if it showed none. Snapshots use this name. */
  readonly told: ShownTruth | null;
  /** The latest errors of a number card since its number last moved, newest last, at most twelve. */
  readonly recent: readonly Erred[];
}

/**
 * The right numbers, in diamonds, one per field: answer minus errors. Without errors, they are the
 * answer itself.
 */
export interface ShownTruth {
  readonly answer: readonly number[] | null;
  readonly errors: readonly number[] | null;
}

/** Answer minus truth on one day, in diamonds, one per field. */
export interface Erred {
  readonly day: number;
  readonly errors: readonly number[];
}

export interface MetLine {
  readonly day: number;
  /** The step at which the line was met, counted from 0. */
  readonly step: number;
}

/** The number that the player proposes instead of a doubted one, in diamonds. */
export interface Flag {
  readonly speed: Speed;
  readonly number: number;
  readonly day: number;
}

/** A card that has not been answered since its number moved beyond the tolerance. */
export interface MovedCard {
  readonly line: string;
  /** The numbers that were learned, in diamonds, one per field. */
  readonly from: readonly number[];
  readonly to: readonly number[];
  /** Whether the card was learned on another chart and took over its memory. No revision moved it. */
  readonly elsewhere: boolean;
  /** The study day of the revision. */
  readonly day: number;
  /** The study day on which the card was first asked, before its number moved. */
  readonly since: number;
  /** The memory before the move. It is restored if the number returns before the new one was shown. */
  readonly memory: CardMemory | null;
  /** Whether the new number has been shown. */
  readonly shown: boolean;
}

/**
 * A difference between a card's remembered number and its number on the chart. It ends when the player
 * has seen the change.
 */
export interface Shift {
  readonly from: readonly number[];
  /** The numbers on the chart; null if the card has left the chart. */
  readonly to: readonly number[] | null;
}

/** How the player uses a chart. */
export type ChartUse = Pick<ChartUsed, 'shares' | 'level'>;

/** The result of folding the events. A snapshot stores it under these names. */
export interface Folded {
  readonly memories: ReadonlyMap<string, CardMemory>;
  readonly met: ReadonlyMap<string, MetLine>;
  /** The recent answer times for each kind, in milliseconds, newest last. */
  readonly times: ReadonlyMap<Kind, readonly number[]>;
  /** The ids of the lines that are set aside. */
  readonly aside: ReadonlySet<string>;
  /** The player's notes, by line. */
  readonly notes: ReadonlyMap<string, string>;
  /** The player's doubts about numbers, by line. */
  readonly flags: ReadonlyMap<string, Flag>;
  /** The cards that have not been answered since their number moved beyond the tolerance. */
  readonly moved: ReadonlyMap<string, MovedCard>;
  /** The differences between remembered numbers and the chart's, by card, until it is answered. */
  readonly shifts: ReadonlyMap<string, Shift>;
  /** The numbers of each card after the last revision that touched it; null if it left its chart. */
  readonly numbers: ReadonlyMap<string, readonly number[] | null>;
  /** How the player uses each chart, by chart id. */
  readonly uses: ReadonlyMap<string, ChartUse>;
  /** The shots at the real table that were not taken back. */
  readonly shots: readonly TableShot[];
  /** How answers came out, compared with what memory had predicted. */
  readonly trials: Trials;
  /** The number of steps. In each step the player was shown one thing: a card or a met line. */
  readonly steps: number;
}

export interface LogState extends Folded {
  /**
   * The events in order, with wrong clocks corrected (wrong-clock.ts), including the ones that were
   * taken back. Of the events in `base`, they include only those that screens show again: drills,
   * rehearsals, and placements.
   */
  readonly events: readonly LogEvent[];
  /** The events since `base`, in order, with the dates that their devices gave them. */
  readonly rawEvents: readonly LogEvent[];
  /** The snapshot that this state continues; null if all events were folded. */
  readonly base: Snapshot | null;
  /** The latest sequence number of each device. */
  readonly devices: ReadonlyMap<string, number>;
  /** The memory model with the weights that were taken last. */
  readonly model: MemoryModel;
  /** The ids of the answers and table shots that were taken back. These no longer count. */
  readonly takenBack: ReadonlySet<string>;
}

/** Raise this whenever folding gives a different result or keeps more data. */
export const SNAPSHOT_VERSION = 3;

/**
 * The stored state folded from the older events. It has only maps, sets, and plain objects, so that
 * structured cloning can store it.
 */
export interface Snapshot {
  readonly version: number;
  /** How many events it includes. */
  readonly events: number;
  /** A study day that is later than all these events. */
  readonly before: number;
  /** The weights that memory was computed with. */
  readonly weights: readonly number[];
  /** The weights that its events took last; null for the published ones. */
  readonly ownWeights: readonly number[] | null;
  /** The latest sequence number of each device. */
  readonly devices: ReadonlyMap<string, number>;
  readonly takenBack: ReadonlySet<string>;
  /** The drills, rehearsals, and placements, which screens show again. */
  readonly shownAgain: readonly LogEvent[];
  readonly fold: Folded;
}
