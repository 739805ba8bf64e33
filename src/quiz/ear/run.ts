/** A session by ear under way: its state, and how it uses the voice, the keys and the screen. */

import { type Signal, signal } from '@preact/signals';
import type { EarPhase, EarScore, Found } from './phase.ts';
import type { EarPorts } from './ports.ts';

export interface Run extends EarPorts {
  readonly phase: Signal<EarPhase>;
  readonly found: Signal<Found>;
  readonly aloud: Signal<boolean>;
  readonly problem: Signal<string | null>;
  readonly score: Signal<EarScore>;
  /**
   * Goes up by one whenever something new begins. Whatever an earlier turn still returns is
   * ignored.
   */
  turn: number;
  cancelTimer: () => void;
  stopListening: () => void;
  lock: Promise<() => void> | null;
  /** Whether the question has already been repeated. */
  repeated: boolean;
  /**
   * When the question ended and, below, when its number began to be spoken, both in ms since
   * 1970-01-01 UTC.
   */
  questionEnded: number;
  numberBegan: number;
}

export function createRun(ports: EarPorts): Run {
  return {
    ...ports,
    phase: signal<EarPhase>({ at: 'ready' }),
    found: signal<Found>('looking'),
    aloud: signal(false),
    problem: signal<string | null>(null),
    score: signal<EarScore>({ hadIt: 0, not: 0 }),
    turn: 0,
    cancelTimer: () => undefined,
    stopListening: () => undefined,
    lock: null,
    repeated: false,
    questionEnded: 0,
    numberBegan: 0,
  };
}

/** Silences the voice and cancels everything under way. Returns the number of the new turn. */
export function newTurn(run: Run): number {
  run.turn += 1;
  run.cancelTimer();
  run.cancelTimer = () => undefined;
  run.voice.hush();
  return run.turn;
}

/** Calls a function after some time, unless a new turn begins first. */
export function schedule(run: Run, ms: number, then: () => void): void {
  run.cancelTimer();
  run.cancelTimer = run.after(ms, then);
}

/** Speaks a text if questions are spoken. Returns true if the session may continue from there. */
export async function say(run: Run, text: string): Promise<boolean> {
  if (!run.aloud.peek()) return true;
  const { turn } = run;
  const said = await run.voice.speak(text, run.settings.peek().voiceRate);
  if (turn !== run.turn) return false;
  if (said === 'spoken') return true;
  // Browsers often forbid a hidden page to speak, so this failure does not mean that the voice is
  // broken.
  if (said === 'cut off' || run.visibility.hidden()) {
    pauseAt(run, true);
    return false;
  }
  run.aloud.value = false;
  run.problem.value = 'The voice has failed. The questions go on here, to be read.';
  return true;
}

/**
 * Pauses the session.
 * @param cut whether the pause is not the player's choice
 */
export function pauseAt(run: Run, cut: boolean): void {
  const now = run.phase.peek();
  if (now.at === 'ready' || now.at === 'done' || now.at === 'paused' || now.at === 'saving') return;
  newTurn(run);
  letScreenSleep(run);
  run.phase.value = { at: 'paused', asked: 'asked' in now ? now.asked : null, cut };
}

/** Takes a new wake lock, because the browser drops a wake lock when the page is hidden. */
export function keepScreenOn(run: Run): void {
  letScreenSleep(run);
  run.lock = run.wakeLock.hold();
}

export function letScreenSleep(run: Run): void {
  void run.lock?.then((release) => release());
  run.lock = null;
}

export function releaseDevice(run: Run): void {
  letScreenSleep(run);
  run.stopListening();
  run.stopListening = () => undefined;
}
