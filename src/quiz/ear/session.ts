/**
 * Practice by ear: a state machine on signals. A question is spoken, then a pause, then its number;
 * the player says whether they had it. A judgement is on disk before the next question.
 */

import type { ReadonlySignal } from '@preact/signals';
import { again, caution, goOn, judge, next, skip, stepNow } from './flow.ts';
import type { EarPhase, EarScore, Found } from './phase.ts';
import type { EarPorts } from './ports.ts';
import { createRun, hold, letGo, newTurn, pauseAt, type Run } from './run.ts';

export interface EarSession {
  readonly phase: ReadonlySignal<EarPhase>;
  /** Is there a voice on the device. */
  readonly found: ReadonlySignal<Found>;
  /** Are the questions spoken; otherwise they are read. */
  readonly aloud: ReadonlySignal<boolean>;
  /** Something the player should know. */
  readonly problem: ReadonlySignal<string | null>;
  readonly score: ReadonlySignal<EarScore>;
  /** The screen is there: looks for a voice. Returns what ends everything. */
  readonly enter: () => () => void;
  /** Called from a press alone: a browser speaks and plays for no other reason. */
  readonly begin: (aloud: boolean) => void;
  /** Does not wait: from the caution to the question, to the pause, to the number. */
  readonly skip: () => void;
  readonly judge: (hadIt: boolean) => Promise<void>;
  /** The same question from its beginning. */
  readonly again: () => void;
  /** Pauses, or goes on. */
  readonly pause: () => void;
}

export function createEarSession(ports: EarPorts): EarSession {
  const run = createRun(ports);
  const { phase, found, aloud, problem, score } = run;
  return {
    phase,
    found,
    aloud,
    problem,
    score,
    enter: () => enter(run),
    begin: (withVoice) => begin(run, withVoice),
    skip: () => skip(run),
    judge: (hadIt) => judge(run, hadIt),
    again: () => again(run),
    pause: () => pauseOrGoOn(run),
  };
}

function enter(run: Run): () => void {
  const unwatch = run.visibility.watch((hidden) => (hidden ? outOfSight(run) : backInSight(run)));
  const step = stepNow(run);
  run.phase.value = step.type === 'ask' ? { at: 'ready' } : { at: 'done', why: step.type };
  void run.voice.available().then((voices) => {
    run.found.value = voices.length > 0 ? 'voice' : 'none';
  });
  return () => {
    unwatch();
    newTurn(run);
    letGo(run);
  };
}

function begin(run: Run, withVoice: boolean): void {
  if (run.phase.peek().at !== 'ready') return;
  run.aloud.value = withVoice && run.found.peek() === 'voice';
  run.unlisten = run.mediaKeys.listen({
    hadIt: () => forward(run),
    not: () => back(run),
    pause: () => pauseOrGoOn(run),
  });
  hold(run);
  // Where nothing is spoken, the caution has been read beside the button.
  if (run.aloud.peek()) void caution(run);
  else next(run);
}

/** The key for "had it" before there is anything to judge: on to the number. */
function forward(run: Run): void {
  if (isTold(run)) void judge(run, true);
  else skip(run);
}

/** The key for "not" before there is anything to judge: what was that? */
function back(run: Run): void {
  if (isTold(run)) void judge(run, false);
  else again(run);
}

function isTold(run: Run): boolean {
  const { at } = run.phase.peek();
  return at === 'telling' || at === 'judging';
}

function pauseOrGoOn(run: Run): void {
  if (run.phase.peek().at === 'paused') goOn(run);
  else pauseAt(run, false);
}

/** A voice may be let go on out of sight; what is to be read may not. */
function outOfSight(run: Run): void {
  if (!run.aloud.peek()) pauseAt(run, true);
}

/** What was cut off, or may have been, is said again. */
function backInSight(run: Run): void {
  const now = run.phase.peek();
  switch (now.at) {
    case 'ready':
    case 'done':
      return;
    case 'paused':
      if (now.cut) goOn(run);
      return;
    case 'caution':
      hold(run);
      void caution(run);
      return;
    case 'asking':
    case 'telling':
      hold(run);
      again(run);
      return;
    default:
      hold(run);
  }
}
