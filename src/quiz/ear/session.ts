/**
 * Practice by ear: a state machine on signals. The voice speaks a question, pauses, and speaks its
 * number; the player says whether they had it. A judgement is on disk before the next question.
 */

import type { ReadonlySignal } from '@preact/signals';
import { again, caution, judge, next, resume, skip, stepNow } from './flow.ts';
import type { EarPhase, EarScore, Found } from './phase.ts';
import type { EarPorts } from './ports.ts';
import { createRun, keepScreenOn, newTurn, pauseAt, type Run, releaseDevice } from './run.ts';

export interface EarSession {
  readonly phase: ReadonlySignal<EarPhase>;
  /** Does the device have a voice. */
  readonly found: ReadonlySignal<Found>;
  /** Are the questions spoken; otherwise the player reads them. */
  readonly aloud: ReadonlySignal<boolean>;
  /** Something the player should know. */
  readonly problem: ReadonlySignal<string | null>;
  readonly score: ReadonlySignal<EarScore>;
  /** The screen has opened: looks for a voice. Returns a function that ends everything. */
  readonly enter: () => () => void;
  /** Must be called from a press: browsers neither speak nor play without one. */
  readonly begin: (aloud: boolean) => void;
  /** Skips ahead: from the caution to the question, to the pause, to the number. */
  readonly skip: () => void;
  readonly judge: (hadIt: boolean) => Promise<void>;
  /** Asks the same question from its beginning. */
  readonly again: () => void;
  /** Pauses or resumes. */
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
    pause: () => pauseOrResume(run),
  };
}

function enter(run: Run): () => void {
  const unwatch = run.visibility.watch((hidden) => (hidden ? onHidden(run) : onShown(run)));
  const step = stepNow(run);
  run.phase.value = step.type === 'ask' ? { at: 'ready' } : { at: 'done', why: step.type };
  void run.voice.available().then((voices) => {
    run.found.value = voices.length > 0 ? 'voice' : 'none';
  });
  return () => {
    unwatch();
    newTurn(run);
    releaseDevice(run);
  };
}

function begin(run: Run, withVoice: boolean): void {
  if (run.phase.peek().at !== 'ready') return;
  run.aloud.value = withVoice && run.found.peek() === 'voice';
  run.stopListening = run.mediaKeys.listen({
    hadIt: () => forward(run),
    not: () => back(run),
    pause: () => pauseOrResume(run),
  });
  keepScreenOn(run);
  // Without a voice, the player has read the caution beside the button.
  if (run.aloud.peek()) void caution(run);
  else next(run);
}

/** The key for "had it": before there is anything to judge, it skips ahead to the number. */
function forward(run: Run): void {
  if (isJudgeable(run)) void judge(run, true);
  else skip(run);
}

/** The key for "not": before there is anything to judge, it repeats the question. */
function back(run: Run): void {
  if (isJudgeable(run)) void judge(run, false);
  else again(run);
}

function isJudgeable(run: Run): boolean {
  const { at } = run.phase.peek();
  return at === 'telling' || at === 'judging';
}

function pauseOrResume(run: Run): void {
  if (run.phase.peek().at === 'paused') resume(run);
  else pauseAt(run, false);
}

/** A voice may continue on a hidden page; a question to be read waits. */
function onHidden(run: Run): void {
  if (!run.aloud.peek()) pauseAt(run, true);
}

/** Repeats what was cut off, or may have been. */
function onShown(run: Run): void {
  const now = run.phase.peek();
  switch (now.at) {
    case 'ready':
    case 'done':
      return;
    case 'paused':
      if (now.cut) resume(run);
      return;
    case 'caution':
      keepScreenOn(run);
      void caution(run);
      return;
    case 'asking':
    case 'telling':
      keepScreenOn(run);
      again(run);
      return;
    default:
      keepScreenOn(run);
  }
}
