/** The draft of a rehearsal under way, and the log records made from it. */

import { type Card, hashOf } from '../../cards/index.ts';
import { toNumber } from '../../charts/index.ts';
import type {
  RehearsalDraft,
  RehearsalQuestion,
  RehearsalSpec,
  RehearsalTerms,
  RehearsedDraft,
} from '../../scheduler/index.ts';
import type { ShownCard } from '../stage/phase.ts';
import type { SessionPorts } from '../stage/ports.ts';
import { givenParts, instanceFor } from '../stage/questions.ts';
import type { Given } from '../words/given.ts';

/** Returns the draft of a rehearsal that begins now. The current time is its seed. */
export function newRehearsal(
  spec: RehearsalSpec,
  terms: RehearsalTerms,
  began: number,
  plan: (seed: number) => readonly Card[],
): RehearsalDraft {
  const seed = hashOf(`rehearsal ${began}`);
  const cards = plan(seed).map(({ id }) => id);
  const id = `rehearsal-${began}`;
  return { version: 1, id, spec, ...terms, seed, cards, began, answers: [] };
}

/** Returns the seed of question n of a rehearsal, counted from 0. */
export function seedAt(seed: number, n: number): number {
  return hashOf(`${seed} ${n}`);
}

/** When the player called the answer, or when the clock ran out. */
export interface Stopped {
  readonly ms: number;
  readonly ranOut: boolean;
}

export function answerRecord(
  { card, question }: ShownCard,
  given: Given | null,
  stopped: Stopped,
): RehearsalQuestion {
  return {
    card: card.id,
    kind: card.kind,
    asked: instanceFor(question),
    truth: question.truth.map(toNumber),
    ...givenParts(given),
    ms: stopped.ms,
    ranOut: stopped.ranOut,
    tolerance: toNumber(question.tolerance),
  };
}

/** Returns the log event of a finished rehearsal. */
export function rehearsedDraft(
  clock: Pick<SessionPorts, 'today' | 'now'>,
  draft: RehearsalDraft,
): RehearsedDraft {
  const { spec, began, seed, pictures, answers } = draft;
  const { counts } = spec;
  const when = { day: clock.today(), at: clock.now() };
  const how = { counts, clock: spec.clock, began, seed, pictures };
  return { type: 'rehearsed', ...when, ...how, questions: answers };
}
