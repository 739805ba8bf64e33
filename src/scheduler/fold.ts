/** One event taken into a fold of the log that is under way. */

import type { Kind, Outcome } from '../cards/index.ts';
import type { Speed } from '../table/index.ts';
import type {
  Answered,
  ChartUsed,
  Flagged,
  LogEvent,
  Met,
  Noted,
  Proved,
  Rehearsed,
  SetAside,
  TableShot,
} from './events.ts';
import { rememberJudged } from './judged.ts';
import { type Memory, remember } from './memory.ts';
import { rememberImplied, rememberProved } from './proved.ts';
import { takeRevised } from './revised.ts';

export interface CardMemory extends Memory {
  readonly firstDay: number;
  readonly lastDay: number;
  readonly lastOutcome: Outcome;
  /** How often it was asked: 0 if its neighbours alone were proven. */
  readonly answers: number;
  /** How often it was off on its last day, without having been right in between. */
  readonly missesInARow: number;
  /** Number of steps of the log before the one that last answered it; −1 if there was none. */
  readonly lastStep: number;
  /** The last that was told of what is right, as an answer and its errors; null if nothing was. */
  readonly told: Told | null;
}

/** Right was answer − errors, diamonds, one per field; the answer itself if there are no errors. */
export interface Told {
  readonly answer: readonly number[] | null;
  readonly errors: readonly number[] | null;
}

export interface MetLine {
  readonly day: number;
  /** Number of steps of the log before the one that met it. */
  readonly step: number;
}

/** A number that the player doubts, and what they propose instead, diamonds. */
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
  /** It was learned on another chart, whose memory this one's begins with: nothing was revised. */
  readonly elsewhere: boolean;
  /** Study-day of the revision. */
  readonly day: number;
  /** Study-day on which it was first asked, before it moved. */
  readonly since: number;
  /** What was remembered of it: given back if its number comes back before the new one was shown. */
  readonly memory: CardMemory | null;
  /** Was it shown since, with its new number. */
  readonly shown: boolean;
}

/** A card that remembers another number than its chart has, until the change is shown. */
export interface Shift {
  readonly from: readonly number[];
  /** Null if the card has left its chart. */
  readonly to: readonly number[] | null;
}

/** How the player uses a chart. */
export type ChartUse = Pick<ChartUsed, 'shares' | 'level'>;

const NOTHING: Told = { answer: null, errors: null };

/** So many recent times make a player's pace. */
const RECENT = 100;

/** A fold under way; what its parts mean is said in `LogState`. */
export interface Fold {
  readonly memories: Map<string, CardMemory>;
  readonly met: Map<string, MetLine>;
  readonly times: Map<Kind, number[]>;
  readonly aside: Set<string>;
  readonly notes: Map<string, string>;
  readonly flags: Map<string, Flag>;
  readonly moved: Map<string, MovedCard>;
  /** What the last revision that touched a card made its numbers. */
  readonly numbers: Map<string, readonly number[] | null>;
  readonly shifts: Map<string, Shift>;
  readonly uses: Map<string, ChartUse>;
  readonly shots: TableShot[];
  steps: number;
}

type Takers = {
  readonly [T in LogEvent['type']]: (fold: Fold, event: Extract<LogEvent, { type: T }>) => void;
};

/** What each type of event does; a run of a drill does nothing, and a taking back is done before. */
const TAKERS: Takers = {
  answered: takeAnswer,
  'taken back': () => undefined,
  met: takeMet,
  proved: takeProved,
  'set aside': takeAside,
  noted: takeNote,
  flagged: takeFlag,
  drilled: () => undefined,
  rehearsed: takeRehearsed,
  revised: takeRevised,
  'chart used': takeUse,
  'table shot': (fold, shot) => void fold.shots.push(shot),
};

/** Takes the next event in the order of the log; not one that was taken back. */
export function takeIn(fold: Fold, event: LogEvent): void {
  const take = TAKERS[event.type] as (fold: Fold, event: LogEvent) => void;
  take(fold, event);
}

function takeAnswer(fold: Fold, event: Answered): void {
  const { card, day, outcome, kind, answer, ms } = event;
  step(fold, card, day, outcome, event, (memory, days) =>
    event.judged === 'self'
      ? rememberJudged(memory, days, outcome === 'pocketed')
      : remember(memory, days, outcome),
  );
  if (answer !== null) noteTime(fold, kind, ms);
}

function takeMet(fold: Fold, event: Met): void {
  const before = fold.met.get(event.line);
  const moved = [...fold.moved].filter(([, { line, shown }]) => line === event.line && !shown);
  if (before && moved.length === 0) return;
  const since = moved.map(([, one]) => one.since);
  const day = before?.day ?? Math.min(event.day, ...since);
  fold.met.set(event.line, { day, step: fold.steps });
  for (const [card, one] of moved) fold.moved.set(card, { ...one, shown: true });
  fold.steps += 1;
}

function takeProved(fold: Fold, event: Proved): void {
  if (event.implied) {
    takeImplied(fold, event);
    return;
  }
  const { card, day, outcome, kind, answer, ms } = event;
  step(fold, card, day, outcome, event, (memory, days) => rememberProved(memory, days, outcome));
  if (answer !== null) noteTime(fold, kind, ms);
}

/** The card was not shown, so this is no step: it stands where the last step left it. */
function takeImplied(fold: Fold, { card, day }: Proved): void {
  if (fold.memories.has(card) || fold.moved.has(card)) return;
  fold.memories.set(card, {
    ...rememberImplied(),
    firstDay: day,
    lastDay: day,
    lastOutcome: 'pocketed',
    answers: 0,
    missesInARow: 0,
    lastStep: fold.steps - 1,
    told: null,
  });
}

/** If it counts, each question is an answer to its card, and none in time is off. */
function takeRehearsed(fold: Fold, { counts, day, questions }: Rehearsed): void {
  if (!counts) return;
  for (const question of questions) {
    const { card, kind, answer, outcome, ms, ranOut } = question;
    const inTime = answer !== null && !ranOut;
    const counted = inTime ? outcome : 'off';
    step(fold, card, day, counted, inTime ? question : NOTHING, (memory, days) =>
      remember(memory, days, counted),
    );
    if (inTime) noteTime(fold, kind, ms);
  }
}

function takeAside(fold: Fold, { line, aside }: SetAside): void {
  if (aside) fold.aside.add(line);
  else fold.aside.delete(line);
}

function takeNote(fold: Fold, { line, text }: Noted): void {
  if (text === '') fold.notes.delete(line);
  else fold.notes.set(line, text);
}

function takeFlag(fold: Fold, { line, speed, number, day }: Flagged): void {
  if (number === null) fold.flags.delete(line);
  else fold.flags.set(line, { speed, number, day });
}

function takeUse(fold: Fold, { chart, shares, level }: ChartUsed): void {
  fold.uses.set(chart, { shares, level });
}

/** A card was asked: its memory after that, and the log is a step further. */
function step(
  fold: Fold,
  card: string,
  day: number,
  outcome: Outcome,
  given: Told,
  weigh: (memory: Memory | null, days: number) => Memory,
): void {
  const before = fold.memories.get(card);
  const { stability, difficulty } = weigh(before ?? null, before ? day - before.lastDay : 0);
  const misses = before?.lastDay === day ? before.missesInARow : 0;
  fold.memories.set(card, {
    stability,
    difficulty,
    firstDay: before?.firstDay ?? fold.moved.get(card)?.since ?? day,
    lastDay: day,
    lastOutcome: outcome,
    answers: (before?.answers ?? 0) + 1,
    missesInARow: outcome === 'off' ? misses + 1 : 0,
    lastStep: fold.steps,
    told: toldBy(fold, card, given),
  });
  fold.moved.delete(card);
  fold.shifts.delete(card);
  fold.steps += 1;
}

/** An answer's errors tell what is right; one without numbers is shown it all the same. */
function toldBy(fold: Fold, card: string, given: Told): Told | null {
  const { answer, errors } = given;
  if (answer !== null && errors !== null) return { answer, errors };
  const to = fold.moved.get(card)?.to ?? fold.shifts.get(card)?.to ?? null;
  return to ? { answer: to, errors: null } : (fold.memories.get(card)?.told ?? null);
}

/** The pace is of answers given: "show me" and a clock that ran out are not answers in any time. */
function noteTime(fold: Fold, kind: Kind, ms: number): void {
  const list = fold.times.get(kind) ?? [];
  list.push(ms);
  if (list.length > RECENT) list.shift();
  fold.times.set(kind, list);
}
