/** One event taken into a fold of the log that is under way. */

import type { Kind, Outcome } from '../../cards/index.ts';
import type { Speed } from '../../table/index.ts';
import { rememberJudged } from '../memory/judged.ts';
import type { Memory, MemoryModel } from '../memory/memory.ts';
import { rememberImplied, rememberProved } from '../memory/proved.ts';
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
import type { Written } from './layered.ts';
import { takeRevised } from './revised.ts';

/** What is remembered of a card, as the fold that made it writes it. */
interface WrittenMemory {
  stability: number;
  difficulty: number;
  firstDay: number;
  lastDay: number;
  lastOutcome: Outcome;
  /** How often it was asked: 0 if its neighbours alone were proven. */
  answers: number;
  /** How often it was off on its last day, without having been right in between. */
  missesInARow: number;
  /** Number of steps of the log before the one that last answered it; −1 if there was none. */
  lastStep: number;
  /** The last that was told of what is right, as an answer and its errors; null if nothing was. */
  told: Told | null;
  /** Errors of a number card since its number last moved, newest last, a dozen at most. */
  recent: readonly Erred[];
}

export type CardMemory = Readonly<WrittenMemory>;

/** Signed answer − truth of one day, diamonds, one per field. */
export interface Erred {
  readonly day: number;
  readonly errors: readonly number[];
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
/** So many recent errors of a card are kept. */
const RECENT_ERRORS = 12;

/** A fold under way; what its parts mean is said in `LogState`. */
export interface Fold {
  readonly model: MemoryModel;
  /** Are the memories in it its own, to be written on, or those of the state that it goes on from. */
  readonly owns: boolean;
  readonly memories: Written<WrittenMemory>;
  readonly met: Written<MetLine>;
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
  /** Told of each card that is asked. */
  readonly onStep: ((step: Step) => void) | null;
}

/** A card was asked. */
export interface Step {
  readonly card: string;
  readonly kind: Kind;
  readonly day: number;
  /** Whole study-days since it was last asked; 0 if it was not. */
  readonly days: number;
  /** What was remembered of it; null if it was never asked, or begins anew since its number moved. */
  readonly before: Memory | null;
  readonly outcome: Outcome;
  /** A rehearsal that counts asks. */
  readonly how: 'asked' | 'judged' | 'proved';
  /** Signed answer − truth, diamonds, one per field; null if no number was given. */
  readonly errors: readonly number[] | null;
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
  // Known before the fold began, for it counts from the first answer on.
  'weights taken': () => undefined,
};

/** Takes the next event in the order of the log; not one that was taken back. */
export function takeIn(fold: Fold, event: LogEvent): void {
  const take = TAKERS[event.type] as (fold: Fold, event: LogEvent) => void;
  take(fold, event);
}

function takeAnswer(fold: Fold, event: Answered): void {
  const { card, day, outcome } = event;
  step(fold, card, day, outcome, event, event.judged === 'self' ? 'judged' : 'asked');
  if (event.answer !== null) noteTime(fold, event.kind, event.ms);
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
  step(fold, card, day, outcome, event, 'proved');
  if (answer !== null) noteTime(fold, kind, ms);
}

/** The card was not shown, so this is no step: it stands where the last step left it. */
function takeImplied(fold: Fold, { card, day }: Proved): void {
  if (fold.memories.has(card) || fold.moved.has(card)) return;
  fold.memories.set(card, {
    ...rememberImplied(fold.model),
    firstDay: day,
    lastDay: day,
    lastOutcome: 'pocketed',
    answers: 0,
    missesInARow: 0,
    lastStep: fold.steps - 1,
    told: null,
    recent: [],
  });
}

/** If it counts, each question is an answer to its card, and none in time is off. */
function takeRehearsed(fold: Fold, { counts, day, questions }: Rehearsed): void {
  if (!counts) return;
  for (const question of questions) {
    const { card, kind, answer, outcome, ms, ranOut } = question;
    const inTime = answer !== null && !ranOut;
    const counted = inTime ? outcome : 'off';
    const { answer: given, errors } = inTime ? question : NOTHING;
    step(fold, card, day, counted, { kind, day, answer: given, errors }, 'asked');
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

/** What was given, and on what day: an answer is one by itself. */
interface GivenOn extends Told {
  readonly kind: Kind;
  readonly day: number;
}

/**
 * A card was asked: its memory after that, and the log is a step further. Most of a fold's time is
 * spent here: a memory of its own is written on, and an answer is kept as it is.
 */
function step(
  fold: Fold,
  card: string,
  day: number,
  outcome: Outcome,
  given: GivenOn,
  how: Step['how'],
): void {
  const before = fold.memories.get(card);
  const days = before ? day - before.lastDay : 0;
  if (fold.onStep) {
    const { kind, errors } = given;
    const { stability, difficulty } = before ?? { stability: 0, difficulty: 0 };
    const remembered = before ? { stability, difficulty } : null;
    fold.onStep({ card, kind, day, days, before: remembered, outcome, how, errors });
  }
  const { stability, difficulty } = weigh(fold.model, before ?? null, days, outcome, how);
  const memory = before ? (fold.owns ? before : { ...before }) : begun(fold, card, day);
  memory.missesInARow =
    outcome === 'off' ? (memory.lastDay === day ? memory.missesInARow : 0) + 1 : 0;
  memory.stability = stability;
  memory.difficulty = difficulty;
  memory.lastDay = day;
  memory.lastOutcome = outcome;
  memory.answers += 1;
  memory.lastStep = fold.steps;
  memory.told = toldBy(fold, card, given, memory.told);
  if (given.kind === 'number' && given.errors) noteError(memory, given, fold.owns);
  if (memory !== before) fold.memories.set(card, memory);
  if (fold.moved.size > 0) fold.moved.delete(card);
  if (fold.shifts.size > 0) fold.shifts.delete(card);
  fold.steps += 1;
}

function weigh(
  model: MemoryModel,
  memory: Memory | null,
  days: number,
  outcome: Outcome,
  how: Step['how'],
): Memory {
  if (how === 'asked') return model.remember(memory, days, outcome);
  if (how === 'proved') return rememberProved(model, memory, days, outcome);
  return rememberJudged(model, memory, days, outcome === 'pocketed');
}

function begun(fold: Fold, card: string, day: number): WrittenMemory {
  return {
    stability: 0,
    difficulty: 0,
    firstDay: fold.moved.get(card)?.since ?? day,
    lastDay: day,
    lastOutcome: 'off',
    answers: 0,
    missesInARow: 0,
    lastStep: 0,
    told: null,
    recent: [],
  };
}

function noteError(memory: WrittenMemory, given: GivenOn, owns: boolean): void {
  if (!owns) {
    memory.recent = [...memory.recent, given as Erred].slice(-RECENT_ERRORS);
    return;
  }
  const recent = memory.recent as Erred[];
  recent.push(given as Erred);
  if (recent.length >= 2 * RECENT_ERRORS) recent.splice(0, RECENT_ERRORS);
}

/** Lists of what was recent are cut now and then only: at the end once more, to their lengths. */
export function finish(fold: Fold): void {
  for (const list of fold.times.values()) cut(list, RECENT);
  if (!fold.owns) return;
  for (const { recent } of fold.memories.values()) cut(recent as Erred[], RECENT_ERRORS);
}

function cut(list: unknown[], most: number): void {
  if (list.length > most) list.splice(0, list.length - most);
}

/** An answer's errors tell what is right; one without numbers is shown it all the same. */
function toldBy(fold: Fold, card: string, given: Told, before: Told | null): Told | null {
  if (given.answer !== null && given.errors !== null) return given;
  const to = fold.moved.get(card)?.to ?? fold.shifts.get(card)?.to ?? null;
  return to ? { answer: to, errors: null } : before;
}

/** The pace is of answers given: "show me" and a clock that ran out are not answers in any time. */
function noteTime(fold: Fold, kind: Kind, ms: number): void {
  const list = fold.times.get(kind);
  if (!list) {
    fold.times.set(kind, [ms]);
    return;
  }
  list.push(ms);
  if (list.length >= 2 * RECENT) list.splice(0, RECENT);
}
