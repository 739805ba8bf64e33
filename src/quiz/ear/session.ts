/**
 * Practice by ear: a state machine on signals. The voice speaks a question, pauses, and speaks its
 * number. The player then says whether they had it. This judgment is on the disk before the next
 * question.
 */

import type { ReadonlySignal } from '@preact/signals';
import { again, caution, judge, next, resume, skip, stepNow } from './flow.ts';
import type { EarPhase, EarScore, Found } from './phase.ts';
import type { EarPorts } from './ports.ts';
import { createRun, keepScreenOn, newTurn, pauseAt, type Run, releaseDevice } from './run.ts';

export interface EarSession {
  readonly phase: ReadonlySignal<EarPhase>;
  /** Whether the device has a voice, or is still being searched for one. */
  readonly found: ReadonlySignal<Found>;
  /** Whether the questions are spoken. If not, the player reads them. */
  readonly aloud: ReadonlySignal<boolean>;
  /** A message for the player; null if there is none. */
  readonly problem: ReadonlySignal<string | null>;
  readonly score: ReadonlySignal<EarScore>;
  /**
   * Must be called when the screen has opened; looks for a voice. Returns a function that ends
   * everything.
   */
  readonly enter: () => () => void;
  /** Must be called from a press, because browsers neither speak nor play sound without one. */
  readonly begin: (aloud: boolean) => void;
  /**
   * Skips ahead: from the caution to the question, from the question to the pause, or from the
   * pause to the number.
   */
  readonly skip: () => void;
  readonly judge: (hadIt: boolean) => Promise<void>;
  /** Asks the same question again from its beginning. */
  readonly again: () => void;
  /** Pauses or resumes the session. */
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
    // A key of a headset that arrives late must not make a session speak again that was left.
    run.phase.value = { at: 'ready' };
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
  // If the questions are not spoken, the player has already read the caution next to the button.
  if (run.aloud.peek()) void caution(run);
  else next(run);
}

/** Handles the key for "had it". If it is too early to judge, it skips ahead. */
function forward(run: Run): void {
  if (isJudgeable(run)) void judge(run, true);
  else skip(run);
}

/** Handles the key for "not". If it is too early to judge, it repeats the question. */
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

/** Pauses if the player has to read the questions. A voice may continue on a hidden page. */
function onHidden(run: Run): void {
  if (!run.aloud.peek()) pauseAt(run, true);
}

/** Repeats what was cut off, or may have been cut off. */
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
