/** Folds the events of the log into a state, all at once or one by one. These functions are pure. */

import { DEFAULT_WEIGHTS, type MemoryModel, memoryModel, PUBLISHED } from '../memory/memory.ts';
import { apply } from './apply.ts';
import { compareEvents, type LogEvent, mergeLogs } from './events.ts';
import { continuedFold, emptyFold, type Fold, type OnStep } from './fold.ts';
import { counts } from './last-event.ts';
import type { LogState, Snapshot } from './state.ts';
import { type Survey, survey } from './survey.ts';
import { correctClocks } from './wrong-clock.ts';

/**
 * Folds events, which may be in any order. The result depends only on the set of events.
 * @param base the snapshot of earlier events; `canContinue` must accept it with these events
 */
export function foldLog(events: readonly LogEvent[], base: Snapshot | null = null): LogState {
  const known = survey(events, base);
  return foldSurveyed(known, correctClocks(known), base, modelFor(known.weights));
}

/** Folds like `foldLog`, but with the given weights instead of the ones that the log has. */
export function foldBy(
  events: readonly LogEvent[],
  base: Snapshot | null,
  model: MemoryModel,
): LogState {
  const known = survey(events, base);
  return foldSurveyed(known, correctClocks(known), base, model);
}

/** Folds like `foldBy`, but takes events with clocks that are already corrected. */
export function foldDated(
  events: readonly LogEvent[],
  base: Snapshot | null,
  model: MemoryModel,
): LogState {
  const known = survey(events, base);
  return foldSurveyed(known, known.ordered, base, model);
}

/** @param dated the events in order, with wrong clocks corrected */
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

/** Calls `onStep` in order, each time that a card was asked and the answer counts. */
export function eachStep(events: readonly LogEvent[], onStep: OnStep): void {
  const known = survey(events, null);
  const fold = emptyFold(modelFor(known.weights), onStep);
  applyAll(fold, correctClocks(known), known.takenBack);
}

/**
 * Adds one event. The result is the same as folding all events again. It really folds them all again
 * only if the event is not the latest, takes another event back, or changes the weights.
 */
export function addToLog(log: LogState, event: LogEvent): LogState {
  const changesAll = event.type === 'taken back' || event.type === 'weights taken';
  if (changesAll || !isNext(log, event)) {
    return foldLog(mergeLogs(log.rawEvents, [event]), log.base);
  }
  const fold = continuedFold(log, log.model);
  // A tab that is ahead may have already taken this event back.
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

/**
 * Returns whether the event comes after all others and no clock was wrong, as far as this event and the
 * earlier ones show.
 */
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

/** Returns the same object for the same weights, so that states can be compared by their models. */
function modelFor(weights: readonly number[] | null): MemoryModel {
  const wanted = weights ?? DEFAULT_WEIGHTS;
  if (wanted === DEFAULT_WEIGHTS) return PUBLISHED;
  if (!wanted.every((one, n) => one === lastModel.weights[n])) lastModel = memoryModel(wanted);
  return lastModel;
}
