/** The log, folded: what is remembered of each card, and what the queue needs to know. Pure. */

import type { Kind } from '../../cards/index.ts';
import { DEFAULT_WEIGHTS, type MemoryModel, memoryModel, PUBLISHED } from '../memory/memory.ts';
import {
  type Answered,
  compareEvents,
  type LogEvent,
  type Met,
  mergeLogs,
  type TableShot,
} from './events.ts';
import {
  type CardMemory,
  type ChartUse,
  type Erred,
  type Flag,
  type Fold,
  finish,
  type MetLine,
  type MovedCard,
  type Shift,
  type Step,
  takeIn,
} from './fold.ts';
import { fork } from './layered.ts';
import { type Listed, oneMore } from './listed.ts';
import type { Folded, Snapshot } from './snapshot.ts';
import { type Survey, survey } from './survey.ts';
import { withoutWrongClocks } from './wrong-clock.ts';

export type { CardMemory, ChartUse, Erred, Flag, MetLine, MovedCard, Shift, Step };

export interface LogState {
  /**
   * In order, dated as they were most likely given (wrong-clock.ts); taken-back answers are still
   * among them. Of those folded into a snapshot only what screens show again: drills, rehearsals,
   * placements.
   */
  readonly events: Listed<LogEvent>;
  /** The same since the snapshot, dated as the devices did. */
  readonly told: Listed<LogEvent>;
  /** What was folded before; null if all of it was folded here. */
  readonly onto: Snapshot | null;
  /** The latest sequence number of each device. */
  readonly devices: ReadonlyMap<string, number>;
  /** How memory is counted: by the weights that were taken last. */
  readonly model: MemoryModel;
  readonly memories: ReadonlyMap<string, CardMemory>;
  readonly met: ReadonlyMap<string, MetLine>;
  /** A step is one thing the player was shown: an answered card or a met line. */
  readonly steps: number;
  /** Recent answer times per kind, milliseconds, newest last. */
  readonly times: ReadonlyMap<Kind, readonly number[]>;
  /** Lines set aside, by their ids. */
  readonly aside: ReadonlySet<string>;
  /** The player's notes, by line. */
  readonly notes: ReadonlyMap<string, string>;
  /** Numbers that the player doubts, by line. */
  readonly flags: ReadonlyMap<string, Flag>;
  /** Cards whose number moved beyond the tolerance and that were not answered since. */
  readonly moved: ReadonlyMap<string, MovedCard>;
  /** Cards that remember another number than their chart has, until they are answered. */
  readonly shifts: ReadonlyMap<string, Shift>;
  /** What the last revision that touched a card made its numbers; null if it left its chart. */
  readonly numbers: ReadonlyMap<string, readonly number[] | null>;
  /** How the player uses charts, by their ids. */
  readonly uses: ReadonlyMap<string, ChartUse>;
  /** Shots at the real table that still count. */
  readonly shots: readonly TableShot[];
  /** Ids that were taken back. Of these, answers and shots no longer count; nothing else can be. */
  readonly takenBack: ReadonlySet<string>;
  /** What the newest events touched: for those who follow the log event by event. */
  readonly trail: Trail;
}

/**
 * Ids of cards and lines that events touched, oldest first; the first `length` of the list are this
 * state's. States that go on from each other share the list; another list says: look at everything.
 */
export interface Trail {
  readonly ids: readonly string[];
  readonly length: number;
}

/**
 * Folds a log given in any order; the result depends on the set of events alone.
 * @param onto what was folded before, which `canContinue` with these events (snapshot.ts)
 */
export function foldLog(events: readonly LogEvent[], onto: Snapshot | null = null): LogState {
  const known = survey(events, onto);
  return foldKnown(known, withoutWrongClocks(known), onto, modelBy(known.weights));
}

/** The same by given weights, whichever were taken. */
export function foldBy(
  events: readonly LogEvent[],
  onto: Snapshot | null,
  model: MemoryModel,
): LogState {
  const known = survey(events, onto);
  return foldKnown(known, withoutWrongClocks(known), onto, model);
}

/** The same of events that are dated as they were given. */
export function foldDated(
  events: readonly LogEvent[],
  onto: Snapshot | null,
  model: MemoryModel,
): LogState {
  const known = survey(events, onto);
  return foldKnown(known, known.ordered, onto, model);
}

/** @param own in order, dated as they were given */
function foldKnown(
  { ordered, devices, takenBack }: Survey,
  own: readonly LogEvent[],
  onto: Snapshot | null,
  model: MemoryModel,
): LogState {
  const fold = onto ? goOnFrom(onto.fold, model) : emptyFold(model, null);
  foldIn(fold, own, takenBack);
  return stateOf(fold, {
    told: ordered,
    onto,
    events: onto ? [...onto.shownAgain, ...own] : own,
    devices,
    takenBack,
    trail: { ids: [], length: 0 },
  });
}

/** Tells of each card that was asked, in order, of what counts. */
export function eachStep(events: readonly LogEvent[], take: (step: Step) => void): void {
  const known = survey(events, null);
  foldIn(emptyFold(modelBy(known.weights), take), withoutWrongClocks(known), known.takenBack);
}

/**
 * The log with one more event; the same state as folding all of them again. An event that comes
 * last, as nearly all do, costs no more than what changed lately, unless it takes one back.
 */
export function addToLog(log: LogState, event: LogEvent): LogState {
  const last = log.told.at(-1);
  const comesLast = !last || compareEvents(last, event) < 0;
  const anew = event.type === 'taken back' || event.type === 'weights taken';
  if (!comesLast || anew || !isNext(log, event)) {
    return foldLog(mergeLogs(log.told, [event]), log.onto);
  }
  const fold = goOnFrom(log, log.model);
  // Taken back before it got here, by a tab that is ahead.
  if (counts(event, log.takenBack)) takeIn(fold, event);
  finish(fold);
  const told = oneMore(log.told, event);
  return stateOf(fold, {
    told,
    onto: log.onto,
    events: log.events === log.told ? told : oneMore(log.events, event),
    devices: new Map(log.devices).set(event.device, event.seq),
    takenBack: log.takenBack,
    trail: longer(log.trail, event),
  });
}

function foldIn(fold: Fold, events: readonly LogEvent[], takenBack: ReadonlySet<string>): void {
  const all = takenBack.size === 0;
  for (const event of events) if (all || counts(event, takenBack)) takeIn(fold, event);
  finish(fold);
}

/** Of these neither what is remembered nor what is asked next depends. */
const UNTOUCHED: ReadonlySet<LogEvent['type']> = new Set([
  'noted',
  'flagged',
  'drilled',
  'table shot',
  'chart used',
]);

/** The same model for the same weights, so that it can be told by its identity. */
let lastModel = PUBLISHED;

function modelBy(weights: readonly number[] | null): MemoryModel {
  const wanted = weights ?? DEFAULT_WEIGHTS;
  if (wanted === DEFAULT_WEIGHTS) return PUBLISHED;
  if (!wanted.every((one, n) => one === lastModel.weights[n])) lastModel = memoryModel(wanted);
  return lastModel;
}

function emptyFold(model: MemoryModel, onStep: Fold['onStep']): Fold {
  return {
    model,
    owns: true,
    memories: new Map(),
    met: new Map(),
    times: new Map(),
    aside: new Set(),
    notes: new Map(),
    flags: new Map(),
    moved: new Map(),
    shifts: new Map(),
    numbers: new Map(),
    uses: new Map(),
    shots: [],
    steps: 0,
    onStep,
  };
}

function goOnFrom(log: Folded, model: MemoryModel): Fold {
  return {
    model,
    owns: false,
    memories: fork(log.memories),
    met: fork(log.met),
    times: new Map([...log.times].map(([kind, list]) => [kind, [...list]])),
    aside: new Set(log.aside),
    notes: new Map(log.notes),
    flags: new Map(log.flags),
    moved: new Map(log.moved),
    shifts: new Map(log.shifts),
    numbers: new Map(log.numbers),
    uses: new Map(log.uses),
    shots: [...log.shots],
    steps: log.steps,
    onStep: null,
  };
}

function stateOf(
  { onStep: _, owns: __, ...fold }: Fold,
  rest: Pick<LogState, 'events' | 'told' | 'onto' | 'devices' | 'takenBack' | 'trail'>,
): LogState {
  return { ...fold, ...rest };
}

/** No clock was wrong up to now, and this event does not say that one was. */
function isNext({ told, events, devices }: LogState, { device, seq }: LogEvent): boolean {
  if (told.at(-1) !== events.at(-1)) return false;
  return seq > (devices.get(device) ?? -1);
}

/** What an event touches, if it is an answer or a line that was met; all else begins a new trail. */
function longer(trail: Trail, event: LogEvent): Trail {
  const { ids, length } = trail;
  if (UNTOUCHED.has(event.type)) return trail;
  const touched = event.type === 'answered' ? event.card : lineTouched(event);
  if (touched === null) return { ids: [], length: 0 };
  // Another state has gone on from the same one.
  const list = ids.length === length ? (ids as string[]) : ids.slice(0, length);
  list.push(touched);
  return { ids: list, length: length + 1 };
}

function lineTouched(event: LogEvent): string | null {
  return event.type === 'met' ? event.line : null;
}

function counts(event: LogEvent, takenBack: ReadonlySet<string>): boolean {
  const canBe = event.type === 'answered' || event.type === 'table shot';
  return !canBe || !takenBack.has(event.id);
}

/**
 * The newest event up to a day that still counts and fits. Events dated later than today come from
 * a clock that was ahead: they count for memory, but they are not what was shown last.
 */
export function lastEvent<E extends LogEvent>(
  log: LogState,
  today: number,
  fits: (event: LogEvent) => event is E,
): E | null {
  for (let n = log.events.length - 1; n >= 0; n--) {
    const event = log.events.at(n);
    if (event && event.day <= today && fits(event) && counts(event, log.takenBack)) return event;
  }
  return null;
}

export function isAnswer(event: LogEvent): event is Answered {
  return event.type === 'answered';
}

/** An event that showed the player something: an answered card or a met line. */
export function isStep(event: LogEvent): event is Answered | Met {
  return event.type === 'answered' || event.type === 'met';
}
