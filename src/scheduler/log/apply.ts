/** Applies one event of the log to the state that is being folded. */

import { rememberImplied } from '../memory/proved.ts';
import { ask, notePace } from './asked.ts';
import type {
  Answered,
  ChartUsed,
  Drilled,
  Flagged,
  LogEvent,
  Met,
  Noted,
  Proved,
  Rehearsed,
  SetAside,
} from './events.ts';
import type { Fold } from './fold.ts';
import { applyRevised } from './revised.ts';

type Appliers = {
  readonly [T in LogEvent['type']]: (fold: Fold, event: Extract<LogEvent, { type: T }>) => void;
};

const APPLIERS: Appliers = {
  answered: applyAnswered,
  // survey.ts has already found what was taken back, and that is never applied.
  'taken back': () => undefined,
  met: applyMet,
  proved: applyProved,
  'set aside': applySetAside,
  noted: applyNoted,
  flagged: applyFlagged,
  drilled: applyDrilled,
  rehearsed: applyRehearsed,
  revised: applyRevised,
  'chart used': applyChartUsed,
  'table shot': (fold, shot) => void fold.shots.push(shot),
  // survey.ts has already found the weights. They count from the first answer on.
  'weights taken': () => undefined,
};

/** @param event the next event in the order of the log; never one that was taken back */
export function apply(fold: Fold, event: LogEvent): void {
  const applier = APPLIERS[event.type] as (fold: Fold, event: LogEvent) => void;
  applier(fold, event);
}

function applyAnswered(fold: Fold, event: Answered): void {
  ask(fold, event, event.judged === 'self' ? 'judged' : 'asked');
  if (event.answer !== null) notePace(fold, event);
}

/** Records that a line was met. This counts the first time, and when it shows moved numbers. */
function applyMet(fold: Fold, event: Met): void {
  const before = fold.met.get(event.line);
  const moved = [...fold.moved].filter(([, { line, shown }]) => line === event.line && !shown);
  if (before && moved.length === 0) return;
  const since = moved.map(([, one]) => one.since);
  const day = before?.day ?? Math.min(event.day, ...since);
  fold.met.set(event.line, { day, step: fold.steps });
  for (const [card, one] of moved) fold.moved.set(card, { ...one, shown: true });
  fold.steps += 1;
}

function applyProved(fold: Fold, event: Proved): void {
  if (event.implied) {
    applyImplied(fold, event);
    return;
  }
  ask(fold, event, 'proved');
  if (event.answer !== null) notePace(fold, event);
}

/** Gives a card its memory by placement. This is not a step, because the card was not shown. */
function applyImplied(fold: Fold, { card, day }: Proved): void {
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

/** Asks the card that the answer counts for, if any. The pace of a drill is not that of the quiz. */
function applyDrilled(fold: Fold, event: Drilled): void {
  if (event.counts !== undefined) ask(fold, { ...event, card: event.counts }, 'asked');
}

/**
 * If the rehearsal counts, each of its questions counts as an answer to its card. A question that was
 * not answered in time counts as off.
 */
function applyRehearsed(fold: Fold, { counts, day, questions }: Rehearsed): void {
  if (!counts) return;
  for (const question of questions) {
    const { card, kind, answer, ranOut } = question;
    if (answer !== null && !ranOut) {
      ask(fold, { ...question, day }, 'asked');
      notePace(fold, question);
    } else {
      ask(fold, { card, kind, day, outcome: 'off', answer: null, errors: null }, 'asked');
    }
  }
}

function applySetAside(fold: Fold, { line, aside }: SetAside): void {
  if (aside) fold.aside.add(line);
  else fold.aside.delete(line);
}

function applyNoted(fold: Fold, { line, text }: Noted): void {
  if (text === '') fold.notes.delete(line);
  else fold.notes.set(line, text);
}

function applyFlagged(fold: Fold, { line, speed, number, day }: Flagged): void {
  if (number === null) fold.flags.delete(line);
  else fold.flags.set(line, { speed, number, day });
}

function applyChartUsed(fold: Fold, { chart, shares, level }: ChartUsed): void {
  fold.uses.set(chart, { shares, level });
}
