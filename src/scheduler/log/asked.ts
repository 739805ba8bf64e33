/** Changes a card's memory and the player's pace when the card is asked. */

import { type Kind, type Outcome, patternIn } from '../../cards/index.ts';
import { rememberJudged } from '../memory/judged.ts';
import type { Memory, MemoryModel } from '../memory/memory.ts';
import { rememberProved } from '../memory/proved.ts';
import type { Fold, How } from './fold.ts';
import type { CardMemory, Erred, ShownTruth } from './state.ts';
import { countDay, countTrial } from './trials.ts';

/** A question about a card and its answer, on a study day. An `Answered` event is one of these. */
interface Asked {
  readonly card: string;
  readonly kind: Kind;
  readonly day: number;
  readonly outcome: Outcome;
  /** The numbers given, in diamonds, one per field; null if none was given. */
  readonly answer: readonly number[] | null;
  readonly errors: readonly number[] | null;
}

/** How many recent answer times of each kind to keep. They tell the player's pace. */
const RECENT_TIMES = 100;
/** How many recent errors to keep for each card. */
const RECENT_ERRORS = 12;

/**
 * Asks a card, as the next step of the log. If its number had moved, the card no longer waits to show
 * the new number.
 */
export function ask(fold: Fold, asked: Asked, how: How): void {
  const { card, day, outcome } = asked;
  const before = fold.memories.get(card) ?? null;
  const days = before ? day - before.lastDay : 0;
  reportStep(fold, asked, how, before, days);
  tryMemory(fold, asked, how, before, days);
  const { stability, difficulty } = remember(fold.model, before, days, outcome, how);
  fold.memories.set(card, {
    stability,
    difficulty,
    firstDay: before?.firstDay ?? fold.moved.get(card)?.since ?? day,
    lastDay: day,
    lastOutcome: outcome,
    answers: (before?.answers ?? 0) + 1,
    missesInARow: outcome === 'off' ? missesOn(before, day) + 1 : 0,
    lastStep: fold.steps,
    told: shownBy(fold, asked) ?? before?.told ?? null,
    recent: recentErrors(before?.recent ?? [], asked),
  });
  fold.moved.delete(card);
  fold.shifts.delete(card);
  fold.steps += 1;
}

function reportStep(
  { onStep }: Fold,
  { card, kind, day, outcome, errors }: Asked,
  how: How,
  memory: Memory | null,
  days: number,
): void {
  if (!onStep) return;
  const before = memory && { stability: memory.stability, difficulty: memory.difficulty };
  onStep({ card, kind, day, days, before, outcome, how, errors });
}

/** Only what the app graded itself counts as a trial. */
function tryMemory(
  { trials, model }: Fold,
  { card, kind, day, outcome }: Asked,
  how: How,
  memory: Memory | null,
  days: number,
): void {
  countDay(trials, day);
  if (how !== 'asked') return;
  const before = memory && {
    stability: memory.stability,
    days,
    recall: model.recall(memory, days),
  };
  countTrial(trials, { kind, pattern: patternIn(card), right: outcome !== 'off', before });
}

function remember(
  model: MemoryModel,
  before: Memory | null,
  days: number,
  outcome: Outcome,
  how: How,
): Memory {
  if (how === 'asked') return model.remember(before, days, outcome);
  if (how === 'proved') return rememberProved(model, before, days, outcome);
  return rememberJudged(model, before, days, outcome === 'pocketed');
}

function missesOn(before: CardMemory | null, day: number): number {
  return before?.lastDay === day ? before.missesInARow : 0;
}

/**
 * Returns the true numbers that an answer showed. An answer with numbers shows them by its errors. An
 * answer without numbers shows them only if they have changed.
 */
function shownBy({ moved, shifts }: Fold, { card, answer, errors }: Asked): ShownTruth | null {
  if (answer !== null && errors !== null) return { answer, errors };
  const to = moved.get(card)?.to ?? shifts.get(card)?.to ?? null;
  return to && { answer: to, errors: null };
}

function recentErrors(recent: readonly Erred[], { kind, day, errors }: Asked): readonly Erred[] {
  if (kind !== 'number' || errors === null) return recent;
  const list = recent.slice(1 - RECENT_ERRORS);
  list.push({ day, errors });
  return list;
}

/**
 * Records an answer time. The caller leaves out "show me" and answers for which the clock ran out.
 */
export function notePace(
  { times }: Fold,
  { kind, ms }: { readonly kind: Kind; readonly ms: number },
): void {
  const list = times.get(kind) ?? [];
  times.set(kind, list);
  list.push(ms);
  if (list.length > RECENT_TIMES) list.shift();
}
