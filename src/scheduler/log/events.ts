/** Everything that happened, as events of an append-only log, and their order. */

import type { Kind, Move, Outcome } from '../../cards/index.ts';
import type { Level } from '../../charts/index.ts';
import type { Speed } from '../../table/index.ts';
import type { Clock, Instance, Pictures, RehearsalQuestion } from './event-parts.ts';

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

/** A question of one kind and its answer. */
interface Given {
  readonly kind: Kind;
  /** The numbers given, diamonds, one per field; null if none was given. */
  readonly answer: readonly number[] | null;
  /** Signed answer − truth, diamonds, one per field; null if no answer was given. */
  readonly errors: readonly number[] | null;
  readonly outcome: Outcome;
  /** From the painted picture to the answer, milliseconds. */
  readonly ms: number;
}

/** A card was answered, or shown at the player's wish (`answer` is then null). */
export interface Answered extends EventBase, Given {
  readonly type: 'answered';
  /** The id of a line's card or of a skill. */
  readonly card: string;
  /**
   * The player called the number away from the screen and judged it: `answer` and `errors` are
   * null; the outcome is `pocketed` for "had it" and `off` for "not".
   */
  readonly judged?: 'self';
  /** For a skill: what was asked of it. */
  readonly asked?: Instance;
}

/** An answer or a table shot was taken back: it no longer counts, and the card is asked again. */
export interface TakenBack extends EventBase {
  readonly type: 'taken back';
  /** The id of the answer or shot. */
  readonly answered: string;
}

/** A line was shown and explained before it was first asked. */
export interface Met extends EventBase {
  readonly type: 'met';
  readonly line: string;
}

/** Placement: the player knew a card before the app ever asked it. */
export interface Proved extends EventBase, Given {
  readonly type: 'proved';
  readonly card: string;
  /** It was not asked itself: its neighbors were proven. */
  readonly implied: boolean;
}

/** A line was set aside, so that it is not asked, or resumed. The latest counts. */
export interface SetAside extends EventBase {
  readonly type: 'set aside';
  readonly line: string;
  readonly aside: boolean;
}

/** The player's note on a line; an empty one removes it. The latest counts. */
export interface Noted extends EventBase {
  readonly type: 'noted';
  readonly line: string;
  readonly text: string;
}

/** The player doubts a line's number. One flag a line: the latest counts. */
export interface Flagged extends EventBase {
  readonly type: 'flagged';
  readonly line: string;
  readonly speed: Speed;
  /** The number that the player proposes, diamonds; null removes the flag. */
  readonly number: number | null;
}

/** One question of a drill. It changes neither memory nor pace nor the order of questions. */
export interface Drilled extends EventBase, Given {
  readonly type: 'drilled';
  /** The run of the drill, unique on its device. */
  readonly run: string;
  /** The drill's code, which can be shared. */
  readonly code: string;
  /** Number of the question in its run, from 0. */
  readonly n: number;
  readonly pattern: string;
  readonly zone: string;
  readonly asked: Instance;
  /** The tolerance that graded it, diamonds. */
  readonly tolerance: number;
}

/** A finished rehearsal, in one event. */
export interface Rehearsed extends EventBase {
  readonly type: 'rehearsed';
  /** Does each question count as an answer to its card. */
  readonly counts: boolean;
  readonly clock: Clock | null;
  /** Milliseconds since 1970-01-01 UTC. */
  readonly began: number;
  /** Draws the same questions, so that they can be shown again. */
  readonly seed?: number;
  /** How its questions were mirrored. */
  readonly pictures?: Pictures;
  readonly questions: readonly RehearsalQuestion[];
}

/**
 * A chart changed: by a revision, or by sharing another memory. The event names the cards whose
 * memory that touches, so that the fold needs no chart.
 */
export interface Revised extends EventBase {
  readonly type: 'revised';
  readonly chart: string;
  /** Number and digest of its new last revision. */
  readonly revision: number;
  readonly digest: string;
  readonly moves: readonly Move[];
}

/** How the player uses a chart. The latest of a chart counts. */
export interface ChartUsed extends EventBase {
  readonly type: 'chart used';
  readonly chart: string;
  /** The chart whose memory the equal lines of both use; null if all lines have their own. */
  readonly shares: string | null;
  /** The level whose lines are asked; null for all lines. */
  readonly level: Level | null;
}

/** A test shot at the real table. */
export interface TableShot extends EventBase {
  readonly type: 'table shot';
  readonly chart: string;
  readonly pattern: string;
  /** Diamonds, as is `aim`: the number aimed at, through the sight. */
  readonly start: number;
  readonly speed: Speed;
  readonly aim: number;
  /** How far from its target it met the rail, diamonds, long positive; null if it was made. */
  readonly miss: number | null;
}

/** The weights that count memory, over the whole log. The latest counts. */
export interface WeightsTaken extends EventBase {
  readonly type: 'weights taken';
  /** 21 weights of FSRS-6; null for the published ones. */
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
/** An event before it is stored: the store gives it its place in the log. */
export type EventDraft = Draft<LogEvent>;
export type RehearsedDraft = Draft<Rehearsed>;

/** The total order of the log: study-day, time, device, sequence number. */
export function compareEvents(a: LogEvent, b: LogEvent): number {
  return a.day - b.day || a.at - b.at || compareText(a.device, b.device) || a.seq - b.seq;
}

/** By code units: the same order on every device, whatever its language. */
function compareText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

/** The union of two logs, in order, each event once. */
export function mergeLogs(a: Iterable<LogEvent>, b: Iterable<LogEvent>): readonly LogEvent[] {
  const all = new Map<string, LogEvent>();
  for (const event of a) all.set(event.id, event);
  for (const event of b) if (!all.has(event.id)) all.set(event.id, event);
  return [...all.values()].sort(compareEvents);
}
