/** How every kind of session takes an answer from the entry on the screen. */

import type { Given } from '../words/given.ts';
import { type Answering, type Entry, editing, readEntry } from './entry.ts';
import type { Shown } from './phase.ts';
import type { SessionPorts } from './ports.ts';
import { gradeFor } from './questions.ts';
import type { Writer } from './writing.ts';

/** What a session says of its questions, so that they can be answered. */
export interface Answerable<Q extends Shown & Entry> {
  /** The question on the screen; null while none is asked. */
  readonly asking: () => Q | null;
  /** Puts the question back on the screen with another entry. */
  readonly show: (question: Q) => void;
  /** Milliseconds the player has taken so far. */
  readonly time: (question: Q) => number;
  /** Does the question take no answer any more: another tab answered it, or its clock ran out. */
  readonly isPast: (question: Q) => boolean;
  readonly passOver: (question: Q) => void | Promise<void>;
  /**
   * Writes an answer and moves on; null is "show me".
   * @returns false if it could not be written
   */
  readonly answer: (question: Q, given: Given | null, ms: number) => Promise<boolean>;
  /**
   * A name for the question where its number is shown before the answer is written: then an answer
   * that could not be written stays the answer. Null where nothing is shown yet.
   */
  readonly revealedAs: (question: Q) => string | null;
}

/** An answer that could not be written, though its number has been shown. */
interface Kept {
  readonly name: string;
  readonly given: Given | null;
  readonly ms: number;
}

export interface AnsweringAll extends Answering {
  readonly showMe: () => Promise<void>;
}

export function createAnswering<Q extends Shown & Entry>(
  ports: Pick<SessionPorts, 'log'>,
  writer: Writer,
  of: Answerable<Q>,
): AnsweringAll {
  let kept: Kept | null = null;
  const keptFor = (question: Q): Kept | null =>
    kept !== null && kept.name === of.revealedAs(question) ? kept : null;

  const answer = async (question: Q, given: Given | null, ms: number): Promise<void> => {
    const isWritten = await of.answer(question, given, ms);
    const name = of.revealedAs(question);
    if (!isWritten && name !== null) kept = { name, given, ms };
    else if (kept?.name === name) kept = null;
  };

  /** Answers the question on the screen, unless it is past or its answer is kept already. */
  const press = async (fresh: (question: Q, ms: number) => Promise<void>): Promise<void> => {
    const question = of.asking();
    if (!question || writer.isBusy()) return;
    const before = keptFor(question);
    if (of.isPast(question)) await of.passOver(question);
    else if (before) await answer(question, before.given, before.ms);
    else await fresh(question, of.time(question));
  };

  return {
    ...editing((change) => {
      const question = of.asking();
      if (question && !keptFor(question)) of.show({ ...question, ...change(question) });
    }),
    submit: () =>
      press(async (question, ms) => {
        const read = readEntry(question.question, question);
        if (read.ok)
          await answer(question, gradeFor(ports, question.question, read.values, ms), ms);
        else of.show({ ...question, ...read.entry });
      }),
    showMe: () => press((question, ms) => answer(question, null, ms)),
  };
}
