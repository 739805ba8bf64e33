/**
 * Placement under way: a state machine on signals. A proven line and the lines that follow from it
 * are on the disk before the screen says so. A miss writes nothing.
 */

import { computed, type ReadonlySignal, type Signal, signal } from '@preact/signals';
import { type Card, type LineCard, questionOf } from '../../cards/index.ts';
import type { PatternId } from '../../charts/index.ts';
import { type Answerable, type AnsweringAll, createAnswering } from '../stage/answering.ts';
import { type Entry, emptyEntry } from '../stage/entry.ts';
import type { Progress, ShownCard } from '../stage/phase.ts';
import type { SessionPorts } from '../stage/ports.ts';
import { answerTime, askerFor, mirrorFor } from '../stage/questions.ts';
import { createWriter, type Writer } from '../stage/writing.ts';
import type { Given } from '../words/given.ts';
import {
  type Course,
  courseFor,
  lineStateOf,
  type Placed,
  placedBy,
  planOf,
  refreshed,
} from './course.ts';
import { impliedDraft, provedDraft } from './drafts.ts';

export interface PlacementPorts extends SessionPorts {
  readonly cards: readonly Card[];
  /** The patterns to ask, in this order. */
  readonly patterns: readonly PatternId[];
}

interface At extends ShownCard {
  readonly card: LineCard;
  /** The index of the pattern, and below it the index of the line in the pattern. */
  readonly course: number;
  readonly line: number;
}

export interface Answered extends At {
  readonly at: 'answered';
  /** Null for "show me". */
  readonly given: Given | null;
  readonly right: boolean;
  /** How many lines follow from this answer. */
  readonly follow: number;
  /** Whether the answer finished the pattern. */
  readonly last: boolean;
  readonly problem: string | null;
}

export type PlacementPhase =
  | (At & Entry & { readonly at: 'asking' })
  /** The answer is being written. */
  | (At & Entry & { readonly at: 'saving' })
  | Answered
  | { readonly at: 'done'; readonly stopped: boolean };

type Asking = Extract<PlacementPhase, { readonly at: 'asking' }>;

export interface Placement extends AnsweringAll {
  readonly phase: ReadonlySignal<PlacementPhase>;
  /** How many questions were asked, and the most that may still come. */
  readonly progress: ReadonlySignal<Progress>;
  readonly placed: ReadonlySignal<Placed>;
  /**
   * Moves to the next line. If something could not be written, it first tries again to write it.
   */
  readonly next: () => Promise<void>;
  /** Ends placement now. What is proven stays proven. */
  readonly stop: () => void;
  /** Must be called when the picture is on the screen; starts the answer time. */
  readonly painted: () => void;
}

interface Run {
  readonly ports: PlacementPorts;
  readonly courses: Signal<readonly Course[]>;
  readonly phase: Signal<PlacementPhase>;
  readonly writer: Writer;
}

export function createPlacement(ports: PlacementPorts): Placement {
  const courses = signal(coursesOf(ports));
  const phase = signal(nextPhase(ports, courses.peek()));
  const run: Run = { ports, courses, phase, writer: createWriter() };
  return {
    phase,
    progress: computed(() => progressOf(courses.value)),
    placed: computed(() => placedBy(courses.value, ports)),
    ...createAnswering(ports, run.writer, answerableIn(run)),
    next: () => next(run),
    stop: () => {
      if (!isDone(run)) phase.value = { at: 'done', stopped: true };
    },
    painted: () => ports.stopwatch.start(),
  };
}

function answerableIn(run: Run): Answerable<Asking> {
  const { ports, phase } = run;
  return {
    asking: () => (phase.value.at === 'asking' ? phase.value : null),
    show: (question) => {
      phase.value = question;
    },
    time: () => answerTime(ports),
    isPast: ({ card }) => lineStateOf(card, ports.log.peek()) !== 'new',
    passOver: () => passOver(run),
    answer: (question, given, ms) => answer(run, question, given, ms),
    // The number shows only once a proven line is on the disk.
    revealedAs: () => null,
  };
}

function passOver({ ports, courses, phase }: Run): void {
  courses.value = courses.value.map((course) => refreshed(course, ports.log.peek()));
  const next = nextPhase(ports, courses.value);
  const problem = 'That one was asked in another tab; here is the next.';
  phase.value = next.at === 'asking' ? { ...next, problem } : next;
}

/** Handles an answer. A line that is right is proven, and is written at once. */
async function answer(run: Run, now: Asking, given: Given | null, ms: number): Promise<boolean> {
  const { ports, phase } = run;
  const right = given !== null && given.grade.outcome !== 'off';
  phase.value = { ...now, at: 'saving' };
  if (right) {
    const draft = provedDraft(ports, now.card, given, ms);
    const proved = await run.writer.write(() => ports.append(draft));
    if (!proved.ok) {
      if (!isDone(run)) phase.value = { ...now, problem: proved.problem };
      return false;
    }
  }
  await conclude(run, now, given, right);
  return true;
}

/** Counts the answer, writes what follows from it, and shows the result. */
async function conclude(run: Run, now: Asking, given: Given | null, right: boolean): Promise<void> {
  const { courses, phase } = run;
  const before = courses.value[now.course] as Course;
  const after = { ...before, answers: [...before.answers, { line: now.line, right }] };
  courses.value = courses.value.with(now.course, after);
  const plan = planOf(after);
  const follow = plan.implied.length - planOf(before).implied.length;
  const problem = await settle(run, after);
  // If the player stopped during the write, the answer still counts, and the screen stays at the
  // end.
  if (isDone(run)) return;
  const { course, line, card, question, mirror } = now;
  const asked = { course, line, card, question, mirror };
  const last = plan.next === null;
  phase.value = { at: 'answered', ...asked, given, right, follow, last, problem };
}

async function next(run: Run): Promise<void> {
  const { ports, courses, phase, writer } = run;
  const now = phase.value;
  if (now.at !== 'answered' || writer.isBusy()) return;
  const problem = await settle(run, courses.value[now.course] as Course);
  if (isDone(run)) return;
  phase.value = problem ? { ...now, problem } : nextPhase(ports, courses.value);
}

function isDone({ phase }: Run): boolean {
  return phase.peek().at === 'done';
}

/**
 * Writes the implied lines that are not written yet. Returns what went wrong; null if nothing did.
 */
async function settle({ ports, writer }: Run, course: Course): Promise<string | null> {
  const settled = await writer.write(() => writeImplied(ports, course));
  return settled.ok ? null : settled.problem;
}

function coursesOf(ports: PlacementPorts): readonly Course[] {
  const { chart, cards, log, settings } = ports;
  const sources = { chart, cards, log: log.peek(), settings: settings.peek() };
  return ports.patterns.map((pattern) => courseFor(sources, pattern));
}

/** Returns the phase for the first line that a pattern still asks, or for the end. */
function nextPhase(ports: PlacementPorts, courses: readonly Course[]): PlacementPhase {
  const settings = ports.settings.peek();
  for (const [course, one] of courses.entries()) {
    const line = planOf(one).next;
    if (line === null) continue;
    const card = one.cards[line] as LineCard;
    const question = questionOf(askerFor(ports.chart, settings), card, 0);
    if (!question) throw new Error(`${card.id} asks nothing`);
    const mirror = mirrorFor(settings, card.id, 0);
    return { at: 'asking', course, line, card, question, mirror, ...emptyEntry(question) };
  }
  return { at: 'done', stopped: false };
}

function progressOf(courses: readonly Course[]): Progress {
  return {
    answered: courses.reduce((sum, { answers }) => sum + answers.length, 0),
    left: courses.reduce((sum, course) => sum + planOf(course).most, 0),
  };
}

/**
 * Writes the implied lines of a pattern.
 * @throws if a line cannot be written
 */
async function writeImplied(ports: PlacementPorts, course: Course): Promise<void> {
  for (const line of planOf(course).implied) {
    const card = course.cards[line] as LineCard;
    if (lineStateOf(card, ports.log.peek()) === 'new')
      await ports.append(impliedDraft(ports, card));
  }
}
