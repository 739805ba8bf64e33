/**
 * Placement: a state machine on signals. A proven line is on disk before the screen says so, and
 * what follows from it with it; a miss writes nothing.
 */

import { computed, type ReadonlySignal, signal } from '@preact/signals';
import { type Card, type LineCard, questionOf } from '../../cards/index.ts';
import { type PatternId, toNumber } from '../../charts/index.ts';
import { type Answering, type Entry, editing, emptyEntry, readEntry } from '../stage/entry.ts';
import { notSaved } from '../stage/not-saved.ts';
import type { Progress, ShownCard } from '../stage/phase.ts';
import type { SessionPorts } from '../stage/ports.ts';
import { answerTime, askerFor, gradeFor, mirrorFor } from '../stage/questions.ts';
import type { Given } from '../words/given.ts';
import {
  type Course,
  courseFor,
  lookAgain,
  type Placed,
  placedBy,
  planOf,
  standingOf,
} from './course.ts';

export interface PlacementPorts extends SessionPorts {
  readonly cards: readonly Card[];
  /** What is asked, one after the other. */
  readonly patterns: readonly PatternId[];
}

interface At extends ShownCard {
  readonly card: LineCard;
  /** Which pattern, and which of its lines. */
  readonly course: number;
  readonly line: number;
}

export interface Told extends At {
  readonly at: 'told';
  /** Null for "show me". */
  readonly given: Given | null;
  readonly right: boolean;
  /** Lines that follow from this answer. */
  readonly follow: number;
  /** The pattern is finished with it. */
  readonly last: boolean;
  readonly problem: string | null;
}

export type PlacementPhase =
  | (At & Entry & { readonly at: 'asking' })
  /** Being written. */
  | (At & Entry & { readonly at: 'saving' })
  | Told
  | { readonly at: 'done'; readonly stopped: boolean };

type Asking = Extract<PlacementPhase, { readonly at: 'asking' }>;

export interface Placement extends Answering {
  readonly phase: ReadonlySignal<PlacementPhase>;
  /** Questions asked, and how many more there may be. */
  readonly progress: ReadonlySignal<Progress>;
  readonly placed: ReadonlySignal<Placed>;
  /** Goes on to the next line; once more tries to write what could not be written. */
  readonly next: () => Promise<void>;
  /** Ends here; what is proven stays. */
  readonly stop: () => void;
  readonly showMe: () => Promise<void>;
  /** The picture is on the screen: the answer time begins. */
  readonly painted: () => void;
}

export function createPlacement(ports: PlacementPorts): Placement {
  const courses = signal(coursesOf(ports));
  const phase = signal<PlacementPhase>(phaseFor(ports, courses.peek()));
  /** One write at a time: a second press meanwhile is not another wish. */
  let writing = false;
  const stopped = (): boolean => phase.peek().at === 'done';

  const edit = (change: (entry: Entry) => Entry): void => {
    const now = phase.value;
    if (now.at === 'asking') phase.value = { ...now, ...change(now) };
  };

  /** Writes; says why not, if it could not be. */
  const write = async (work: () => Promise<unknown>): Promise<string | null> => {
    writing = true;
    try {
      await work();
      return null;
    } catch (error) {
      return notSaved(error);
    } finally {
      writing = false;
    }
  };

  const answer = async (now: Asking, given: Given | null, ms: number): Promise<void> => {
    const right = given !== null && given.grade.outcome !== 'off';
    phase.value = { ...now, at: 'saving' };
    if (given && right) {
      const problem = await write(() => ports.append(provedDraft(ports, now.card, given, ms)));
      // Stopped while it was being written: it counts, and the end stays.
      if (problem) {
        if (!stopped()) phase.value = { ...now, problem };
        return;
      }
    }
    const before = courses.value[now.course] as Course;
    const after = { ...before, answers: [...before.answers, { line: now.line, right }] };
    courses.value = courses.value.with(now.course, after);
    const plan = planOf(after);
    const follow = plan.implied.length - planOf(before).implied.length;
    const problem = await write(() => settle(ports, after));
    if (stopped()) return;
    const { course, line, card, question, mirror } = now;
    const asked = { course, line, card, question, mirror };
    const last = plan.next === null;
    phase.value = { at: 'told', ...asked, given, right, follow, last, problem };
  };

  const overtaken = (now: Asking): boolean => {
    if (standingOf(now.card, ports.log.peek()) === 'new') return false;
    courses.value = courses.value.map((course) => lookAgain(course, ports.log.peek()));
    const next = phaseFor(ports, courses.value);
    const problem = 'That one was asked in another tab; here is the next.';
    phase.value = next.at === 'asking' ? { ...next, problem } : next;
    return true;
  };

  return {
    phase,
    progress: computed(() => progressOf(courses.value)),
    placed: computed(() =>
      placedBy(courses.value, ports.log.value, ports.today(), ports.settings.value.targetRecall),
    ),
    ...editing(edit),
    submit: async () => {
      const now = phase.value;
      if (now.at !== 'asking' || overtaken(now)) return;
      const ms = answerTime(ports);
      const read = readEntry(now.question, now);
      if (!read.ok) phase.value = { ...now, ...read.entry };
      else await answer(now, gradeFor(ports, now.question, read.values, ms), ms);
    },
    showMe: async () => {
      const now = phase.value;
      if (now.at === 'asking' && !overtaken(now)) await answer(now, null, answerTime(ports));
    },
    next: async () => {
      const now = phase.value;
      if (now.at !== 'told' || writing) return;
      const course = courses.value[now.course] as Course;
      const problem = await write(() => settle(ports, course));
      if (stopped()) return;
      phase.value = problem ? { ...now, problem } : phaseFor(ports, courses.value);
    },
    stop: () => {
      if (!stopped()) phase.value = { at: 'done', stopped: true };
    },
    painted: () => ports.stopwatch.start(),
  };
}

function coursesOf(ports: PlacementPorts): readonly Course[] {
  const { chart, cards, log, settings } = ports;
  const sources = { chart, cards, log: log.peek(), settings: settings.peek() };
  return ports.patterns.map((pattern) => courseFor(sources, pattern));
}

/** The first line that a pattern still asks. */
function phaseFor(ports: PlacementPorts, courses: readonly Course[]): PlacementPhase {
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

/** Writes what follows and is not written yet. @throws if it cannot be written */
async function settle(ports: PlacementPorts, course: Course): Promise<void> {
  for (const line of planOf(course).implied) {
    const card = course.cards[line] as LineCard;
    if (standingOf(card, ports.log.peek()) !== 'new') continue;
    await ports.append({
      type: 'proved',
      card: card.id,
      kind: card.kind,
      answer: null,
      errors: null,
      outcome: 'pocketed',
      ms: 0,
      implied: true,
      day: ports.today(),
      at: ports.now(),
    });
  }
}

function provedDraft(ports: PlacementPorts, card: LineCard, { values, grade }: Given, ms: number) {
  return {
    type: 'proved' as const,
    card: card.id,
    kind: card.kind,
    answer: values.map(toNumber),
    errors: grade.errors.map(toNumber),
    outcome: grade.outcome,
    ms,
    implied: false,
    day: ports.today(),
    at: ports.now(),
  };
}
