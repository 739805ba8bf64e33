/** The log: folds events into a state, all at once or one by one. Pure. */

import { DEFAULT_WEIGHTS, type MemoryModel, memoryModel, PUBLISHED } from '../memory/memory.ts';
import { apply } from './apply.ts';
import { compareEvents, type LogEvent, mergeLogs } from './events.ts';
import { continuedFold, emptyFold, type Fold, type OnStep } from './fold.ts';
import { counts } from './last-event.ts';
import type { LogState, Snapshot } from './state.ts';
import { type Survey, survey } from './survey.ts';
import { correctClocks } from './wrong-clock.ts';

/**
 * Folds a log given in any order; the result depends on the set of events alone.
 * @param base the fold of earlier events, which `canContinue` with these (snapshot.ts)
 */
export function foldLog(events: readonly LogEvent[], base: Snapshot | null = null): LogState {
  const known = survey(events, base);
  return foldSurveyed(known, correctClocks(known), base, modelFor(known.weights));
}

/** The same by given weights, whichever were taken. */
export function foldBy(
  events: readonly LogEvent[],
  base: Snapshot | null,
  model: MemoryModel,
): LogState {
  const known = survey(events, base);
  return foldSurveyed(known, correctClocks(known), base, model);
}

/** The same of events whose clocks have been put right. */
export function foldDated(
  events: readonly LogEvent[],
  base: Snapshot | null,
  model: MemoryModel,
): LogState {
  const known = survey(events, base);
  return foldSurveyed(known, known.ordered, base, model);
}

/** @param dated the events in order, with wrong clocks put right */
function foldSurveyed(
  { ordered, devices, takenBack }: Survey,
  dated: readonly LogEvent[],
  base: Snapshot | null,
  model: MemoryModel,
): LogState {
  const fold = base ? continuedFold(base.fold, model) : emptyFold(model);
  applyAll(fold, dated, takenBack);
  return stateOf(fold, {
    rawEvents: ordered,
    base,
    events: base ? [...base.shownAgain, ...dated] : dated,
    devices,
    takenBack,
  });
}

/** Calls back for each card that was asked and whose answer counts, in order. */
export function eachStep(events: readonly LogEvent[], onStep: OnStep): void {
  const known = survey(events, null);
  const fold = emptyFold(modelFor(known.weights), onStep);
  applyAll(fold, correctClocks(known), known.takenBack);
}

/**
 * Adds one event; the same state as folding all of them again. That is done only if the event is
 * not the latest, takes one back or changes the weights.
 */
export function addToLog(log: LogState, event: LogEvent): LogState {
  const changesAll = event.type === 'taken back' || event.type === 'weights taken';
  if (changesAll || !isNext(log, event)) {
    return foldLog(mergeLogs(log.rawEvents, [event]), log.base);
  }
  const fold = continuedFold(log, log.model);
  // A tab that is ahead may have taken it back already.
  if (counts(event, log.takenBack)) apply(fold, event);
  const rawEvents = [...log.rawEvents, event];
  return stateOf(fold, {
    rawEvents,
    base: log.base,
    events: log.events === log.rawEvents ? rawEvents : [...log.events, event],
    devices: new Map(log.devices).set(event.device, event.seq),
    takenBack: log.takenBack,
  });
}

/** It comes after all others, no clock was wrong so far, and it does not show that one was. */
function isNext({ rawEvents, events, devices }: LogState, event: LogEvent): boolean {
  const last = rawEvents.at(-1);
  if (last && compareEvents(last, event) >= 0) return false;
  if (last !== events.at(-1)) return false;
  return event.seq > (devices.get(event.device) ?? -1);
}

function applyAll(fold: Fold, events: readonly LogEvent[], takenBack: ReadonlySet<string>): void {
  for (const event of events) if (counts(event, takenBack)) apply(fold, event);
}

function stateOf(
  { onStep: _, ...folded }: Fold,
  rest: Pick<LogState, 'events' | 'rawEvents' | 'base' | 'devices' | 'takenBack'>,
): LogState {
  return { ...folded, ...rest };
}

let lastModel = PUBLISHED;

/** The same object for the same weights, so that two states can be compared by their models. */
function modelFor(weights: readonly number[] | null): MemoryModel {
  const wanted = weights ?? DEFAULT_WEIGHTS;
  if (wanted === DEFAULT_WEIGHTS) return PUBLISHED;
  if (!wanted.every((one, n) => one === lastModel.weights[n])) lastModel = memoryModel(wanted);
  return lastModel;
}
