/** The events of an append-only log, which records everything that happened, and their order. */

import type { Kind, Move, Outcome } from '../../cards/index.ts';
import type { Level } from '../../charts/index.ts';
import type { Speed } from '../../table/index.ts';
import type { Clock, Instance, Pictures, RehearsalQuestion } from './event-parts.ts';

interface EventBase {
  readonly version: 1;
  /** `device:seq`. The transaction that writes the event assigns `seq`. */
  readonly id: string;
  readonly device: string;
  readonly seq: number;
  /** The study day: whole days since 1970-01-01, by the player's local clock and day boundary. */
  readonly day: number;
  /** The time in milliseconds since 1970-01-01 UTC, by the device's clock. */
  readonly at: number;
}

/** The answer to a question of one kind. */
interface Given {
  readonly kind: Kind;
  /** The numbers given, in diamonds, one per field; null if none was given. */
  readonly answer: readonly number[] | null;
  /** Answer minus truth, in diamonds, one per field; null if no answer was given. */
  readonly errors: readonly number[] | null;
  readonly outcome: Outcome;
  /** The time from when the picture was painted to the answer, in milliseconds. */
  readonly ms: number;
}

/** A card was answered, or the player asked to see the answer (`answer` is then null). */
export interface Answered extends EventBase, Given {
  readonly type: 'answered';
  /** The id of a line's card or of a skill. */
  readonly card: string;
  /**
   * The player called the number away from the screen and judged it. `answer` and `errors` are then
   * null, and the outcome is `pocketed` for "had it" or `off` for "not".
   */
  readonly judged?: 'self';
  /** What was asked, if the card is a skill. */
  readonly asked?: Instance;
}

/** An answer or a table shot was taken back. It no longer counts, and the card is asked again. */
export interface TakenBack extends EventBase {
  readonly type: 'taken back';
  /** The id of the answer or the shot. */
  readonly answered: string;
}

/** A line was shown and explained before it was first asked. */
export interface Met extends EventBase {
  readonly type: 'met';
  readonly line: string;
}

/** Placement showed that the player knew a card before the app ever asked it. */
export interface Proved extends EventBase, Given {
  readonly type: 'proved';
  readonly card: string;
  /** Whether the card was not asked itself but counts as known because its neighbors are. */
  readonly implied: boolean;
}

/** A line was set aside, so that it is not asked, or was resumed. The latest event counts. */
export interface SetAside extends EventBase {
  readonly type: 'set aside';
  readonly line: string;
  readonly aside: boolean;
}

/** The player wrote a note on a line. An empty note removes it. The latest event counts. */
export interface Noted extends EventBase {
  readonly type: 'noted';
  readonly line: string;
  readonly text: string;
}

/** The player doubts the number of a line. Each line has one flag; the latest event counts. */
export interface Flagged extends EventBase {
  readonly type: 'flagged';
  readonly line: string;
  readonly speed: Speed;
  /** The number that the player proposes, in diamonds; null removes the flag. */
  readonly number: number | null;
}

/** One question in a drill. It does not change the pace. It changes memory only if it counts. */
export interface Drilled extends EventBase, Given {
  readonly type: 'drilled';
  /** The id of this run through the drill, unique on its device. */
  readonly run: string;
  /** The drill's code, which can be shared. */
  readonly code: string;
  /** The number of the question in its run, counted from 0. */
  readonly n: number;
  readonly pattern: string;
  readonly zone: string;
  readonly asked: Instance;
  /** The tolerance by which the answer was graded, in diamonds. */
  readonly tolerance: number;
  /** The id of the skill card that this counts as an answer to, if it counts. */
  readonly counts?: string;
}

/** A rehearsal was finished. This one event has all of it. */
export interface Rehearsed extends EventBase {
  readonly type: 'rehearsed';
  /** Whether each question counts as an answer to its card. */
  readonly counts: boolean;
  readonly clock: Clock | null;
  /** The time in milliseconds since 1970-01-01 UTC. */
  readonly began: number;
  /** The random seed that draws the same questions, so that they can be shown again. */
  readonly seed?: number;
  /** Which mirror images its questions used. */
  readonly pictures?: Pictures;
  readonly questions: readonly RehearsalQuestion[];
}

/**
 * A chart changed by a revision or because it now shares a different memory. The event lists the cards
 * with a memory that this touches, so that folding the log needs no chart.
 */
export interface Revised extends EventBase {
  readonly type: 'revised';
  readonly chart: string;
  /** The number and the digest of its new last revision. */
  readonly revision: number;
  readonly digest: string;
  readonly moves: readonly Move[];
}

/** The player changed how a chart is used. The latest event of each chart counts. */
export interface ChartUsed extends EventBase {
  readonly type: 'chart used';
  readonly chart: string;
  /** The chart with which equal lines share their memory; null if no memory is shared. */
  readonly shares: string | null;
  /** The highest level of the lines that are asked; null for all lines. */
  readonly level: Level | null;
}

/** The player made a test shot at the real table. */
export interface TableShot extends EventBase {
  readonly type: 'table shot';
  readonly chart: string;
  readonly pattern: string;
  /**
   * Where the shot started, in diamonds. `aim` is the number aimed at, through the sight, also in
   * diamonds.
   */
  readonly start: number;
  readonly speed: Speed;
  readonly aim: number;
  /**
   * Where the ball met the rail minus its target, in diamonds; positive if the shot was long. Null if
   * it was made.
   */
  readonly miss: number | null;
}

/** The player took new weights to compute memory, for the whole log. The latest event counts. */
export interface WeightsTaken extends EventBase {
  readonly type: 'weights taken';
  /** The 21 weights of FSRS-6; null for the published ones. */
  readonly weights: readonly number[] | null;
}

export type LogEvent =
  | Answered
  | TakenBack
  | Met
  | Proved
  | SetAside
  | Noted
  | Flagged
  | Drilled
  | Rehearsed
  | Revised
  | ChartUsed
  | TableShot
  | WeightsTaken;

type Draft<E> = E extends LogEvent ? Omit<E, 'version' | 'id' | 'device' | 'seq'> : never;
/** An event before it is stored. The store adds its id, its device, and its number. */
export type EventDraft = Draft<LogEvent>;
export type RehearsedDraft = Draft<Rehearsed>;

/** Compares events by study day, time, device, and sequence number: the total order of the log. */
export function compareEvents(a: LogEvent, b: LogEvent): number {
  return a.day - b.day || a.at - b.at || compareText(a.device, b.device) || a.seq - b.seq;
}

/** Compares code units, so that the order is the same on every device, whatever its language. */
function compareText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

/** Returns the union of two logs, in order, with each event once. */
export function mergeLogs(a: Iterable<LogEvent>, b: Iterable<LogEvent>): readonly LogEvent[] {
  const all = new Map<string, LogEvent>();
  for (const event of a) all.set(event.id, event);
  for (const event of b) if (!all.has(event.id)) all.set(event.id, event);
  return [...all.values()].sort(compareEvents);
}
