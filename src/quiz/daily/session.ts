/**
 * A session of questions: a state machine on signals. What to ask comes from the log (so a reload
 * goes on at the same card); an answer is on disk before the screen moves on.
 */

import { computed, type ReadonlySignal, type Signal, signal } from '@preact/signals';
import { type Card, isSkill, numberIdOf, questionOf, seedFor } from '../../cards/index.ts';
import type { Line } from '../../charts/index.ts';
import {
  type Answered,
  type EventDraft,
  type Follow,
  followQueue,
  isAnswer,
  type Learned,
  type LogEvent,
  lastEvent,
  learnedOf,
} from '../../scheduler/index.ts';
import { MIRRORS, type Mirror, type Naming } from '../../table/index.ts';
import { type Answering, type Entry, editing, emptyEntry, readEntry } from '../stage/entry.ts';
import { notSaved } from '../stage/not-saved.ts';
import type { Asking, Phase, Progress, Told } from '../stage/phase.ts';
import type { PlannedPorts } from '../stage/ports.ts';
import {
  answerTime,
  askerFor,
  givenParts,
  gradeFor,
  instanceFor,
  mirrorFor,
} from '../stage/questions.ts';
import { changeOf } from '../words/changed.ts';
import type { Given } from '../words/given.ts';
import { queueSettings } from './due.ts';
import { type LineMark, markLine } from './mark-line.ts';
import { questionsIn } from './pace.ts';
import { answersOn, type Summary, summaryOf } from './summary.ts';

export interface QuizPorts extends PlannedPorts {
  readonly cards: readonly Card[];
  /** How long the player has; null for all that is due. */
  readonly minutes: number | null;
}

export interface Session extends Answering {
  /** What the chart's numbers name. */
  readonly naming: Naming;
  readonly phase: ReadonlySignal<Phase>;
  readonly progress: ReadonlySignal<Progress>;
  /** What was answered today, for the end of the session. */
  readonly summary: ReadonlySignal<Summary>;
  /** Is there an answer of today to take back. */
  readonly canTakeBack: ReadonlySignal<boolean>;
  /** Shows the next step of the log. */
  readonly next: () => void;
  readonly showMe: () => Promise<void>;
  /** The line has been looked at. */
  readonly metIt: () => Promise<void>;
  /** Takes the last answer back and asks its card again. */
  readonly takeBack: () => Promise<void>;
  /** Writes a note, a flag, or that a line is set aside; says what went wrong, if anything. */
  readonly mark: (draft: LineMark) => Promise<string | null>;
  /** The picture is on the screen: the answer time begins. */
  readonly painted: () => void;
}

/** The ports, and what the session keeps for itself. */
interface Run extends QuizPorts {
  /** Skills without an instance on this chart. */
  readonly unaskable: Set<string>;
  /** What to ask next, followed from answer to answer; made anew without a skill that cannot be asked. */
  follow: Follow;
  /** When it began, milliseconds since 1970-01-01 UTC. */
  readonly began: number;
  /** Answers of this session that still count. */
  readonly answered: Signal<number>;
}

export function createSession(ports: QuizPorts): Session {
  const run: Run = {
    ...ports,
    unaskable: new Set(),
    follow: followQueue(ports.cards),
    began: ports.now(),
    answered: signal(0),
  };
  const phase = signal<Phase>(phaseFor(run));
  const summary = computed(() => summaryOf(ports));
  // Counted by itself: the summary looks ahead for what is due next, which only the end shows.
  const progress = computed<Progress>(() => progressOf(run));

  /** Ids of this session's answers that still count, newest last. */
  const mine: string[] = [];
  /** An answer that could not be written. */
  let tried: Tried | null = null;
  /** One write at a time: a second press while the first is being written is not another wish. */
  let writing = false;
  const canTakeBack = computed(() => lastToday(ports) !== null);

  /** Whatever comes next, it is said why what was typed is not asked for any more. */
  const goOn = (): void => {
    const next = phaseFor(run);
    const onward = next.at === 'done' ? '.' : '; here is the next.';
    phase.value = { ...next, problem: `That one was answered in another tab${onward}` } as Phase;
  };

  const write = async (draft: EventDraft, before: Phase): Promise<LogEvent | null> => {
    if (writing) return null;
    writing = true;
    try {
      return await ports.append(draft);
    } catch (error) {
      phase.value = { ...before, problem: notSaved(error) } as Phase;
      return null;
    } finally {
      writing = false;
    }
  };

  /**
   * The feedback is told at once, and the screen moves on when the answer is on the disk. One that
   * could not be written stays the answer: the number has been told.
   */
  const answer = async (given: Given | null, from: Asking, ms: number): Promise<void> => {
    const { card, question, mirror, turn } = from;
    const told: Told = { given, changed: changeOf(ports.log.peek(), card.id) };
    phase.value = { ...from, at: 'saving', told };
    const event = await write(answeredDraft(ports, from, given, ms), from);
    if (!event) {
      tried = { card, turn, given, ms };
      return;
    }
    mine.push(event.id);
    run.answered.value = mine.length;
    const { id: eventId } = event;
    phase.value = { at: 'answered', card, question, mirror, ...told, eventId, problem: null };
  };

  const edit = (change: (entry: Entry) => Entry): void => {
    const now = phase.value;
    if (now.at === 'asking' && !isTried(tried, now)) phase.value = { ...now, ...change(now) };
  };

  return {
    naming: ports.chart.naming,
    phase,
    progress,
    summary,
    canTakeBack,
    next: () => {
      if (!writing) phase.value = phaseFor(run);
    },
    ...editing(edit),
    submit: async () => {
      const now = phase.value;
      if (now.at !== 'asking' || writing) return;
      if (overtaken(ports, now)) return goOn();
      if (isTried(tried, now)) return answer(tried.given, now, tried.ms);
      const ms = answerTime(ports);
      const read = readEntry(now.question, now);
      if (!read.ok) phase.value = { ...now, ...read.entry };
      else await answer(gradeFor(ports, now.question, read.values, ms), now, ms);
    },
    showMe: async () => {
      const now = phase.value;
      if (now.at !== 'asking' || writing) return;
      if (overtaken(ports, now)) goOn();
      else if (isTried(tried, now)) await answer(tried.given, now, tried.ms);
      else await answer(null, now, answerTime(ports));
    },
    metIt: async () => {
      const now = phase.value;
      if (now.at !== 'meeting') return;
      const event = await write({ type: 'met', line: now.card.lineId, ...moment(ports) }, now);
      if (event) phase.value = phaseFor(run);
    },
    takeBack: async () => {
      const now = phase.value;
      if (now.at === 'saving') return;
      const id = now.at === 'answered' ? now.eventId : (mine.at(-1) ?? lastToday(ports)?.id);
      const taken = [...ports.log.value.events].find((event) => event.id === id);
      const card = taken && isAnswer(taken) && ports.cards.find((one) => one.id === taken.card);
      if (!taken || !card) return;
      if (now.at === 'asking') phase.value = { ...now, at: 'saving', told: null };
      const event = await write({ type: 'taken back', answered: taken.id, ...moment(ports) }, now);
      if (!event) return;
      if (mine.includes(taken.id)) mine.splice(mine.indexOf(taken.id), 1);
      run.answered.value = mine.length;
      phase.value = asking(run, card) ?? phaseFor(run);
    },
    mark: (draft) => markLine(ports, draft),
    painted: () => ports.stopwatch.start(),
  };
}

type Tried = Pick<Asking, 'card' | 'turn'> & { readonly given: Given | null; readonly ms: number };

function isTried(tried: Tried | null, now: Asking): tried is Tried {
  return tried !== null && tried.card.id === now.card.id && tried.turn === now.turn;
}

/** The newest answer of today that still counts; after a reload it is the one to take back. */
function lastToday(ports: QuizPorts): Answered | null {
  const last = lastEvent(ports.log.value, ports.today(), isAnswer);
  return last?.day === ports.today() ? last : null;
}

function phaseFor(run: Run): Phase {
  const { log, settings, unaskable } = run;
  if (minutesLeft(run) === 0) return { at: 'done', why: 'time is up', problem: null };
  const wanted = queueSettings(settings.peek(), run.plan.peek());
  for (;;) {
    const step = run.follow(log.peek(), run.today(), wanted).next;
    if (!step) return { at: 'done', why: 'nothing left', problem: null };
    if (step.type === 'meet') {
      const first = log.peek().met.size === 0;
      const mirror = MIRRORS[0] as Mirror;
      const changed = changeOf(log.peek(), step.card.id);
      return { at: 'meeting', card: step.card, mirror, first, changed, problem: null };
    }
    const asked = asking(run, step.card);
    if (asked) return asked;
    unaskable.add(step.card.id);
    run.follow = followQueue(run.cards.filter((card) => !unaskable.has(card.id)));
  }
}

function asking(ports: QuizPorts, card: Card): Asking | null {
  const times = ports.log.peek().memories.get(card.id)?.answers ?? 0;
  const settings = ports.settings.peek();
  const log = ports.log.peek();
  let learned: Learned | null = null;
  // A skill is worked out from numbers that were asked before, or they would be told in passing; or
  // from those that are worked out themselves. That is looked up for skills alone.
  const met = (line: Line) => {
    const id = numberIdOf(ports.chart, line);
    if (log.memories.has(id)) return true;
    learned ??= learnedOf(ports.cards, log, queueSettings(settings));
    return learned.workedOut.has(id);
  };
  const asker = { ...askerFor(ports.chart, settings), met };
  const question = questionOf(asker, card, seedFor(card.id, times));
  if (!question) return null;
  const mirror = mirrorFor(settings, card.id, times);
  return { at: 'asking', card, question, mirror, ...emptyEntry(question), turn: times };
}

/** The card was answered in another tab while it stood here: it is not asked twice. */
function overtaken(ports: QuizPorts, now: Asking): boolean {
  return (ports.log.peek().memories.get(now.card.id)?.answers ?? 0) !== now.turn;
}

function answeredDraft(
  ports: QuizPorts,
  from: Asking,
  given: Given | null,
  ms: number,
): EventDraft {
  const { card, question } = from;
  return {
    type: 'answered',
    card: card.id,
    kind: card.kind,
    ...givenParts(given),
    ms,
    ...(isSkill(card.kind) ? { asked: instanceFor(question) } : {}),
    ...moment(ports),
  };
}

function moment(ports: QuizPorts): { day: number; at: number } {
  return { day: ports.today(), at: ports.now() };
}

/** Minutes that are left of those chosen; null if all that is due is asked. */
function minutesLeft({ minutes, began, now }: Run): number | null {
  return minutes === null ? null : Math.max(0, minutes - (now() - began) / 60_000);
}

/** Cards still to ask today, new lines among them; or as many as the minutes have room for. */
function progressOf(run: Run): Progress {
  const { follow, log, settings, answered } = run;
  const wanted = queueSettings(settings.value, run.plan.value);
  const { waiting } = follow(log.value, run.today(), wanted);
  const minutes = minutesLeft(run);
  if (minutes === null) {
    return { answered: answersOn(log.value, run.today()).length, left: waiting, waiting };
  }
  const room = minutes === 0 ? 0 : questionsIn(minutes, log.value);
  return { answered: answered.value, left: Math.min(waiting, room), waiting };
}
