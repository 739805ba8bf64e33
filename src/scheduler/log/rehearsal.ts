/**
 * Rehearsals. The finished ones are in the log. The one under way is stored separately, as a document.
 */

import * as v from 'valibot';
import type { Kind } from '../../cards/index.ts';
import { NAMINGS, type Naming } from '../../table/index.ts';
import {
  between,
  type Clock,
  clock,
  instant,
  kind,
  MOST_QUESTIONS,
  name,
  type Pictures,
  pictures,
  question,
  type RehearsalQuestion,
  seed,
  text,
  whole,
} from './event-parts.ts';
import type { LogEvent, Rehearsed } from './events.ts';
import type { LogState } from './state.ts';

/** What a rehearsal asks. */
export interface RehearsalSpec {
  readonly patterns: readonly string[];
  readonly kinds: readonly Kind[];
  /** The number of questions. */
  readonly count: number;
  readonly clock: Clock | null;
  /** Whether each question counts as an answer to its card. */
  readonly counts: boolean;
}

/** The settings at the beginning of a rehearsal. They stay, whatever the player changes later. */
export interface RehearsalTerms {
  /** Which point the numbers name. */
  readonly naming: Naming;
  /** The tolerance in diamonds. */
  readonly tolerance: number;
  readonly pictures: Pictures;
  /** The id of its chart; absent from rehearsals begun when there was only one chart. */
  readonly chart?: string;
}

/** A rehearsal that is not finished. */
export interface RehearsalDraft extends RehearsalTerms {
  readonly version: 1;
  readonly id: string;
  readonly spec: RehearsalSpec;
  /** The random seed that draws its questions. */
  readonly seed: number;
  /**
   * The ids of the cards that it asks, in order. They are stored because they were chosen by the log,
   * which grows. There are fewer than `spec.count` if some cards have left the chart.
   */
  readonly cards: readonly string[];
  /** When the rehearsal began, in milliseconds since 1970-01-01 UTC. */
  readonly began: number;
  /** The questions answered so far, in order. */
  readonly answers: readonly RehearsalQuestion[];
}

const schema = v.object({
  version: v.literal(1),
  id: text(1, 64),
  spec: v.object({
    patterns: v.pipe(v.array(text(1, 200)), v.maxLength(50)),
    kinds: v.pipe(v.array(kind), v.maxLength(50)),
    count: whole(1, MOST_QUESTIONS),
    clock,
    counts: v.boolean(),
  }),
  naming: v.picklist(NAMINGS),
  // The smallest tolerance is the smallest decimal, because with 0 no number would be right.
  tolerance: between(0.0001, 9),
  pictures,
  chart: v.exactOptional(name),
  seed,
  cards: v.pipe(v.array(name), v.maxLength(MOST_QUESTIONS)),
  began: instant,
  answers: v.pipe(v.array(question), v.maxLength(MOST_QUESTIONS)),
});

/** Validates a stored rehearsal; null if it cannot be read. */
export function parseRehearsal(data: unknown): RehearsalDraft | null {
  const result = v.safeParse(schema, data);
  return result.success ? result.output : null;
}

/** Returns the finished rehearsals, oldest first, whether they counted or not. */
export function rehearsals(log: LogState): readonly Rehearsed[] {
  return log.events.filter(isRehearsed);
}

function isRehearsed(event: LogEvent): event is Rehearsed {
  return event.type === 'rehearsed';
}
