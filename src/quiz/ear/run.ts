/** A session by ear under way: what it keeps, and how it handles voice, keys and screen. */

import { type Signal, signal } from '@preact/signals';
import type { EarPhase, EarScore, Found } from './phase.ts';
import type { EarPorts } from './ports.ts';

/** The ports, and what the session keeps for itself. */
export interface Run extends EarPorts {
  readonly phase: Signal<EarPhase>;
  readonly found: Signal<Found>;
  readonly aloud: Signal<boolean>;
  readonly problem: Signal<string | null>;
  readonly score: Signal<EarScore>;
  /** Counts what was begun: whatever comes back later belongs to the past. */
  turn: number;
  callOff: () => void;
  unlisten: () => void;
  lock: Promise<() => void> | null;
  /** The question was said once more. */
  repeated: boolean;
  /** When the question was over and when its number was first told, ms since 1970. */
  questionOver: number;
  told: number;
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
    callOff: () => undefined,
    unlisten: () => undefined,
    lock: null,
    repeated: false,
    questionOver: 0,
    told: 0,
  };
}

/** Silence, and nothing of what was under way goes on. */
export function newTurn(run: Run): number {
  run.turn += 1;
  run.callOff();
  run.callOff = () => undefined;
  run.voice.hush();
  return run.turn;
}

/** Does something after a while, unless another turn has begun. */
export function later(run: Run, ms: number, then: () => void): void {
  run.callOff();
  run.callOff = run.after(ms, then);
}

/** Says it if questions are spoken; true if the session is to go on from there. */
export async function say(run: Run, text: string): Promise<boolean> {
  if (!run.aloud.peek()) return true;
  const { turn } = run;
  const said = await run.voice.speak(text, run.settings.peek().voiceRate);
  if (turn !== run.turn) return false;
  if (said === 'spoken') return true;
  // A page that is hidden is often not let speak: that says nothing of the voice.
  if (said === 'cut off' || run.visibility.hidden()) {
    pauseAt(run, true);
    return false;
  }
  run.aloud.value = false;
  run.problem.value = 'The voice has failed. The questions go on here, to be read.';
  return true;
}

/** @param cut it is not the player's wish */
export function pauseAt(run: Run, cut: boolean): void {
  const now = run.phase.peek();
  if (now.at === 'ready' || now.at === 'done' || now.at === 'paused' || now.at === 'saving') return;
  newTurn(run);
  release(run);
  run.phase.value = { at: 'paused', asked: 'asked' in now ? now.asked : null, cut };
}

/** Keeps the screen on from now; a lock held before ends with the page out of sight. */
export function hold(run: Run): void {
  release(run);
  run.lock = run.wakeLock.hold();
}

export function release(run: Run): void {
  void run.lock?.then((letGo) => letGo());
  run.lock = null;
}

/** Nothing is held or listened to any longer. */
export function letGo(run: Run): void {
  release(run);
  run.unlisten();
  run.unlisten = () => undefined;
}
