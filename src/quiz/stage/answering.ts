/**
 * Takes the player's answer from the entry on the screen, in the same way for every kind of
 * session.
 */

import type { Given } from '../words/given.ts';
import { type Answering, type Entry, editing, readEntry } from './entry.ts';
import type { Shown } from './phase.ts';
import type { SessionPorts } from './ports.ts';
import { gradeFor } from './questions.ts';
import type { Writer } from './writing.ts';

/** What a session must provide so that its questions can be answered. */
export interface Answerable<Q extends Shown & Entry> {
  /** Returns the question on the screen; null while no question is asked. */
  readonly asking: () => Q | null;
  /** Shows the question again with a changed entry. */
  readonly show: (question: Q) => void;
  /** Returns how many milliseconds the player has taken so far. */
  readonly time: (question: Q) => number;
  /**
   * Tells whether it is too late for an answer: either another tab has answered, or the clock ran
   * out.
   */
  readonly isPast: (question: Q) => boolean;
  readonly passOver: (question: Q) => void | Promise<void>;
  /**
   * Writes an answer and moves on. A null answer means "show me".
   * @returns false if it could not be written
   */
  readonly answer: (question: Q, given: Given | null, ms: number) => Promise<boolean>;
  /**
   * Returns a name for the question if its number shows before the answer is written. If that
   * answer cannot be written, the player can only try to write the same answer again. Null if the
   * number does not show that early.
   */
  readonly revealedAs: (question: Q) => string | null;
}

export interface AnsweringAll extends Answering {
  readonly showMe: () => Promise<void>;
}

export function createAnswering<Q extends Shown & Entry>(
  ports: Pick<SessionPorts, 'log'>,
  writer: Writer,
  of: Answerable<Q>,
): AnsweringAll {
  const run: Run<Q> = { ports, writer, of, kept: null };
  return {
    ...editing((change) => edit(run, change)),
    submit: () => press(run, call),
    showMe: () => press(run, (_, question, ms) => answer(run, question, null, ms)),
  };
}

interface Run<Q extends Shown & Entry> {
  readonly ports: Pick<SessionPorts, 'log'>;
  readonly writer: Writer;
  readonly of: Answerable<Q>;
  kept: Kept | null;
}

/** An answer that could not be written, although the right number is already on the screen. */
interface Kept {
  readonly name: string;
  readonly given: Given | null;
  readonly ms: number;
}

function edit<Q extends Shown & Entry>(run: Run<Q>, change: (entry: Entry) => Entry): void {
  const question = run.of.asking();
  if (question && !keptFor(run, question)) run.of.show({ ...question, ...change(question) });
}

/**
 * Answers the question on the screen. If it is too late for that, it passes over the question. If
 * an earlier answer could not be written, it tries to write that one again.
 */
async function press<Q extends Shown & Entry>(
  run: Run<Q>,
  anew: (run: Run<Q>, question: Q, ms: number) => Promise<void>,
): Promise<void> {
  const { of } = run;
  const question = of.asking();
  if (!question || run.writer.isBusy()) return;
  const kept = keptFor(run, question);
  if (of.isPast(question)) await of.passOver(question);
  else if (kept) await answer(run, question, kept.given, kept.ms);
  else await anew(run, question, of.time(question));
}

/** Submits the entry as the answer, or shows what is wrong with it. */
async function call<Q extends Shown & Entry>(run: Run<Q>, asked: Q, ms: number): Promise<void> {
  const read = readEntry(asked.question, asked);
  if (read.ok) await answer(run, asked, gradeFor(run.ports, asked.question, read.values, ms), ms);
  else run.of.show({ ...asked, ...read.entry });
}

async function answer<Q extends Shown & Entry>(
  run: Run<Q>,
  question: Q,
  given: Given | null,
  ms: number,
): Promise<void> {
  const isWritten = await run.of.answer(question, given, ms);
  const name = run.of.revealedAs(question);
  if (!isWritten && name !== null) run.kept = { name, given, ms };
  else if (run.kept?.name === name) run.kept = null;
}

function keptFor<Q extends Shown & Entry>({ of, kept }: Run<Q>, question: Q): Kept | null {
  return kept !== null && kept.name === of.revealedAs(question) ? kept : null;
}
