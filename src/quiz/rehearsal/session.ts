/**
 * A rehearsal under way: a state machine on signals. Every answer is on the disk before the next
 * question shows. The player gets no feedback until the end, when the whole rehearsal goes into the
 * log at once.
 */

import { computed, type ReadonlySignal, type Signal, signal } from '@preact/signals';
import type { LogEvent, RehearsalDraft, RehearsedDraft } from '../../scheduler/index.ts';
import { type Answerable, createAnswering } from '../stage/answering.ts';
import type { Answering } from '../stage/entry.ts';
import type { SessionPorts } from '../stage/ports.ts';
import { answerTime } from '../stage/questions.ts';
import { createWriter, type Writer } from '../stage/writing.ts';
import type { Given } from '../words/given.ts';
import { answerRecord, rehearsedDraft, type Stopped } from './draft.ts';
import { type Asking, elsewhere, nextPhase, type RehearsalPhase, seenPhase } from './phase.ts';
import type { RehearsalSource } from './source.ts';

export interface RehearsalPorts extends Omit<SessionPorts, 'chart' | 'settings' | 'append'> {
  /** The source of the questions, made from the terms of the draft. */
  readonly source: RehearsalSource;
  /** The rehearsal on the disk, as last seen by this tab; null if there is none. */
  readonly stored: ReadonlySignal<RehearsalDraft | null>;
  /**
   * Writes the draft to the disk. Resolves to false if a different rehearsal is there, or if
   * another tab is further on.
   */
  readonly save: (draft: RehearsalDraft) => Promise<boolean>;
  /**
   * Writes the whole rehearsal into the log. Resolves to null if another tab has finished or
   * dropped it.
   */
  readonly finish: (id: string, draft: RehearsedDraft) => Promise<LogEvent | null>;
  /** Called when the rehearsal is in the log and the player has not left the screen. */
  readonly ended: (event: LogEvent) => void;
}

export interface Rehearsal extends Answering {
  readonly phase: ReadonlySignal<RehearsalPhase>;
  /** Milliseconds left on the shot clock; null if there is no shot clock. */
  readonly left: ReadonlySignal<number | null>;
  /** Reads the clock. Must be called several times a second. */
  readonly tick: () => void;
  /** Must be called when the picture is on the screen; starts the clock. */
  readonly painted: () => void;
  /** Writes the finished rehearsal into the log; also used to try again after a failure. */
  readonly end: () => Promise<void>;
  /**
   * Must be called when the player leaves the screen. A write under way is finished, but does not
   * bring the player back here.
   */
  readonly leave: () => void;
  /** Ends the rehearsal with the questions that could be asked. */
  readonly endShort: () => Promise<void>;
}

const RAN_OUT = 'The clock ran out; here is the next.';
const AGAIN = 'Asked again, with a fresh clock.';

interface Run {
  readonly ports: RehearsalPorts;
  /** The full time of the shot clock, in milliseconds; null if there is no shot clock. */
  readonly limit: number | null;
  /** The phase that this tab has reached. */
  readonly state: Signal<RehearsalPhase>;
  /** The phase that this tab has reached, unless another tab is further on. */
  readonly phase: ReadonlySignal<RehearsalPhase>;
  readonly left: Signal<number | null>;
  readonly writer: Writer;
  /** Whether the question is on the screen, so that its time runs. */
  isRunning: boolean;
  isHere: boolean;
}

export function createRehearsal(ports: RehearsalPorts, begun: RehearsalDraft): Rehearsal {
  const run = createRun(ports, begun);
  return {
    phase: run.phase,
    left: run.left,
    ...createAnswering(ports, run.writer, answerableIn(run)),
    showMe: null,
    end: () => end(run),
    leave: () => {
      run.isHere = false;
    },
    endShort: () => endShort(run),
    painted: () => {
      ports.stopwatch.start();
      run.isRunning = true;
    },
    tick: () => tick(run),
  };
}

function createRun(ports: RehearsalPorts, begun: RehearsalDraft): Run {
  const { clock } = begun.spec;
  const limit = clock === null ? null : clock * 1000;
  const resumed = begun.answers.length > 0 ? AGAIN : null;
  const state = signal(nextPhase(ports.source, begun, resumed));
  const phase = computed(() => seenPhase(state.value, ports.stored.value));
  const left = signal(limit);
  return {
    ports,
    limit,
    state,
    phase,
    left,
    writer: createWriter(),
    isRunning: false,
    isHere: true,
  };
}

function answerableIn(run: Run): Answerable<Asking> {
  const { limit, state, phase } = run;
  const time = ({ stopped }: Asking) => stopped?.ms ?? spent(run);
  return {
    asking: () => (phase.value.at === 'asking' ? phase.value : null),
    show: (question) => {
      state.value = question;
    },
    time,
    isPast: (question) => limit !== null && time(question) >= limit,
    passOver: (question) => runOut(run, question),
    answer: (question, given, ms) => record(run, question, given, { ms, ranOut: false }),
    // The player gets no feedback on an answer before the end.
    revealedAs: () => null,
  };
}

function spent({ ports, isRunning }: Run): number {
  return isRunning ? answerTime(ports) : 0;
}

function tick(run: Run): void {
  const { limit, left, phase } = run;
  const now = phase.value;
  if (limit === null || !run.isRunning || now.at !== 'asking' || now.stopped) return;
  left.value = Math.max(0, limit - spent(run));
  if (left.value === 0) void runOut(run, now);
}

async function runOut(run: Run, now: Asking): Promise<void> {
  await record(run, now, null, { ms: run.limit ?? spent(run), ranOut: true });
}

/** Writes an answer and moves on; returns false if it could not be written. */
async function record(
  run: Run,
  now: Asking,
  given: Given | null,
  stopped: Stopped,
): Promise<boolean> {
  const { ports, state } = run;
  state.value = { ...now, at: 'saving', stopped };
  const answers = [...now.draft.answers, answerRecord(now, given, stopped)];
  const draft = { ...now.draft, answers };
  const saved = await run.writer.write(() => ports.save(draft));
  if (!saved.ok) {
    state.value = { ...now, stopped, problem: saved.problem };
    return false;
  }
  if (saved.value) await moveOn(run, draft, stopped.ranOut ? RAN_OUT : null);
  else state.value = { at: 'elsewhere', why: elsewhere(now.draft, ports.stored.peek()) ?? 'gone' };
  return true;
}

async function moveOn(run: Run, draft: RehearsalDraft, problem: string | null): Promise<void> {
  run.isRunning = false;
  run.left.value = run.limit;
  run.state.value = nextPhase(run.ports.source, draft, problem);
  await end(run);
}

/** Writes the whole rehearsal into the log if every question is answered. */
async function end(run: Run): Promise<void> {
  const { ports, state, writer } = run;
  const now = state.value;
  if (now.at !== 'ending' || writer.isBusy()) return;
  const { draft } = now;
  const finished = await writer.write(() => ports.finish(draft.id, rehearsedDraft(ports, draft)));
  if (!finished.ok) state.value = { ...now, problem: finished.problem };
  else if (!finished.value) state.value = { at: 'elsewhere', why: 'gone' };
  else if (run.isHere) ports.ended(finished.value);
}

async function endShort(run: Run): Promise<void> {
  const now = run.phase.value;
  if (now.at !== 'short' || now.draft.answers.length === 0) return;
  run.state.value = { at: 'ending', draft: now.draft, problem: null };
  await end(run);
}
