/**
 * A session of questions: a state machine on signals. The log decides what to ask, so a reload
 * continues at the same card. An answer is on the disk before the screen moves on.
 */

import { computed, type ReadonlySignal, type Signal, signal } from '@preact/signals';
import { isSkill } from '../../cards/index.ts';
import { type Answered, type EventDraft, isAnswer, lastEvent } from '../../scheduler/index.ts';
import type { Naming } from '../../table/index.ts';
import { type Answerable, type AnsweringAll, createAnswering } from '../stage/answering.ts';
import type { Asking, Phase, Progress, Result } from '../stage/phase.ts';
import { answerTime, givenParts, instanceFor } from '../stage/questions.ts';
import { createWriter, type Writer } from '../stage/writing.ts';
import { changeOf } from '../words/changed.ts';
import type { Given } from '../words/given.ts';
import {
  type Agenda,
  askingPhase,
  createAgenda,
  nextPhase,
  progressOf,
  type QuizPorts,
  timesAnswered,
} from './agenda.ts';
import { type LineMark, markLine } from './mark-line.ts';
import { type Summary, summaryOf } from './summary.ts';

export interface Session extends AnsweringAll {
  /**
   * How the chart's numbers name the aim: by the sight that the line runs through, or by the point
   * opposite on the nose.
   */
  readonly naming: Naming;
  readonly phase: ReadonlySignal<Phase>;
  readonly progress: ReadonlySignal<Progress>;
  /** A summary of what was answered today, for the end of the session. */
  readonly summary: ReadonlySignal<Summary>;
  /** Whether an answer of today can be taken back. */
  readonly canTakeBack: ReadonlySignal<boolean>;
  /** Moves on to what the log says is next. */
  readonly next: () => void;
  /** Must be called when the player has looked at a new line. */
  readonly metIt: () => Promise<void>;
  /** Takes back the last answer and asks its card again. */
  readonly takeBack: () => Promise<void>;
  /**
   * Writes a note, a flag, or that a line is set aside. Returns what went wrong; null if nothing
   * did.
   */
  readonly mark: (draft: LineMark) => Promise<string | null>;
  /** Must be called when the picture is on the screen; starts the answer time. */
  readonly painted: () => void;
}

interface Run {
  readonly ports: QuizPorts;
  readonly agenda: Agenda;
  readonly phase: Signal<Phase>;
  readonly writer: Writer;
  /** Ids of this session's answers that have not been taken back, newest last. */
  readonly answers: Signal<readonly string[]>;
}

export function createSession(ports: QuizPorts): Session {
  const agenda = createAgenda(ports);
  const phase = signal(nextPhase(agenda));
  const run: Run = { ports, agenda, phase, writer: createWriter(), answers: signal([]) };
  return {
    naming: ports.chart.naming,
    phase,
    // Computed apart from the summary, which looks ahead for what is due next. Only the end shows
    // that.
    progress: computed(() => progressOf(agenda, run.answers.value.length)),
    summary: computed(() => summaryOf(ports)),
    canTakeBack: computed(() => lastToday(ports) !== null),
    ...createAnswering(ports, run.writer, answerableIn(run)),
    next: () => {
      if (!run.writer.isBusy()) phase.value = nextPhase(agenda);
    },
    metIt: () => metIt(run),
    takeBack: () => takeBack(run),
    mark: (draft) => markLine(ports, draft),
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
    isPast: ({ card, turn }) => timesAnswered(ports, card) !== turn,
    passOver: () => passOver(run),
    answer: (question, given, ms) => answer(run, question, given, ms),
    revealedAs: ({ card, turn }) => `${card.id} ${turn}`,
  };
}

/** Moves on to the next phase, with a message that says why the question on the screen has gone. */
function passOver({ agenda, phase }: Run): void {
  const next = nextPhase(agenda);
  const onward = next.at === 'done' ? '.' : '; here is the next.';
  phase.value = { ...next, problem: `That one was answered in another tab${onward}` };
}

/** Shows the outcome at once. The screen can move on only when the answer is on the disk. */
async function answer(run: Run, from: Asking, given: Given | null, ms: number): Promise<boolean> {
  const { ports, phase } = run;
  const { card, question, mirror } = from;
  const result: Result = { given, changed: changeOf(ports.log.peek(), card.id) };
  phase.value = { ...from, at: 'saving', result };
  const saved = await run.writer.write(() => ports.append(answeredDraft(ports, from, given, ms)));
  if (!saved.ok) {
    phase.value = { ...from, problem: saved.problem };
    return false;
  }
  const { id: eventId } = saved.value;
  run.answers.value = [...run.answers.value, eventId];
  phase.value = { at: 'answered', card, question, mirror, ...result, eventId, problem: null };
  return true;
}

async function metIt({ ports, agenda, phase, writer }: Run): Promise<void> {
  const now = phase.value;
  if (now.at !== 'meeting' || writer.isBusy()) return;
  const draft: EventDraft = { type: 'met', line: now.card.lineId, ...moment(ports) };
  const met = await writer.write(() => ports.append(draft));
  phase.value = met.ok ? nextPhase(agenda) : { ...now, problem: met.problem };
}

async function takeBack(run: Run): Promise<void> {
  const { ports, agenda, phase, writer } = run;
  const now = phase.value;
  if (now.at === 'saving' || writer.isBusy()) return;
  const id = now.at === 'answered' ? now.eventId : lastAnswerId(run);
  const taken = [...ports.log.value.events].find((event) => event.id === id);
  const card = taken && isAnswer(taken) && ports.cards.find((one) => one.id === taken.card);
  if (!taken || !card) return;
  if (now.at === 'asking') phase.value = { ...now, at: 'saving', result: null };
  const draft: EventDraft = { type: 'taken back', answered: taken.id, ...moment(ports) };
  const saved = await writer.write(() => ports.append(draft));
  if (!saved.ok) {
    phase.value = { ...now, problem: saved.problem };
    return;
  }
  run.answers.value = run.answers.value.filter((one) => one !== taken.id);
  phase.value = askingPhase(agenda, card) ?? nextPhase(agenda);
}

/**
 * Returns the id of this session's newest answer. After a reload, it is the newest answer of today
 * that was not taken back.
 */
function lastAnswerId({ ports, answers }: Run): string | undefined {
  return answers.peek().at(-1) ?? lastToday(ports)?.id;
}

/** Returns the newest answer of today that was not taken back. */
function lastToday({ log, today }: QuizPorts): Answered | null {
  const last = lastEvent(log.value, today(), isAnswer);
  return last?.day === today() ? last : null;
}

function answeredDraft(
  ports: QuizPorts,
  { card, question }: Asking,
  given: Given | null,
  ms: number,
): EventDraft {
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

function moment({ today, now }: QuizPorts): { day: number; at: number } {
  return { day: today(), at: now() };
}
