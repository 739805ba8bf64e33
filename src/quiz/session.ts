/**
 * A session of questions: a state machine on signals. What to ask comes from the log (so a reload
 * goes on at the same card); an answer is on disk before the screen moves on.
 */

import { computed, type ReadonlySignal, signal } from '@preact/signals';
import {
  type Card,
  fieldsOf,
  gradeAnswer,
  paceOf,
  parseAnswer,
  pictureFor,
  toleranceFor,
} from '../cards/index.ts';
import { type Chart, toNumber } from '../charts/index.ts';
import {
  type Answered,
  agendaFor,
  type EventDraft,
  isAnswer,
  type LogEvent,
  type LogState,
  lastEvent,
  nextStep,
  type QueueSettings,
} from '../scheduler/index.ts';
import { type Settings, toleranceOf } from '../store/index.ts';
import { MIRRORS, type Mirror, type Naming } from '../table/index.ts';
import type { Asking, Given, Phase, Progress } from './phase.ts';
import type { Stopwatch } from './stopwatch.ts';
import { type Summary, summaryOf } from './summary.ts';

export interface QuizPorts {
  readonly chart: Chart;
  readonly cards: readonly Card[];
  readonly log: ReadonlySignal<LogState>;
  readonly settings: ReadonlySignal<Settings>;
  /** Resolves when the event is on disk; rejects with the reason when it cannot be written. */
  readonly append: (draft: EventDraft) => Promise<LogEvent>;
  /** Milliseconds since 1970-01-01 UTC, whole. */
  readonly now: () => number;
  readonly today: () => number;
  readonly stopwatch: Stopwatch;
}

export interface Session {
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
  /** A digit, a sign or a decimal mark at the end of the current field. */
  readonly type: (character: string) => void;
  readonly erase: () => void;
  readonly flipSign: () => void;
  readonly goTo: (field: number) => void;
  /** Grades and writes the answer; on a field that is not the last, goes on to the next one. */
  readonly submit: () => Promise<void>;
  readonly showMe: () => Promise<void>;
  /** The line has been looked at. */
  readonly metIt: () => Promise<void>;
  /** Takes the last answer back and asks its card again. */
  readonly takeBack: () => Promise<void>;
  /** The picture is on the screen: the answer time begins. */
  readonly painted: () => void;
}

/** A typed field holds no more than this. */
const LONGEST = 8;

export function createSession(ports: QuizPorts): Session {
  const phase = signal<Phase>(phaseFor(ports));
  const summary = computed(() => summaryOf(ports));
  const progress = computed<Progress>(() => ({
    answered: summary.value.answers,
    left: leftToday(ports),
  }));

  /** Ids of this session's answers that still count, newest last. */
  const mine: string[] = [];
  /** One write at a time: a second press while the first is being written is not another wish. */
  let writing = false;
  const canTakeBack = computed(() => lastToday(ports) !== null);

  const goOn = (): void => {
    const next = phaseFor(ports);
    const problem = 'That one was answered in another tab; here is the next.';
    phase.value = next.at === 'asking' ? { ...next, problem } : next;
  };

  const ask = (card: Card): void => {
    phase.value = asking(ports, card);
  };

  const write = async (draft: EventDraft, before: Phase): Promise<LogEvent | null> => {
    if (writing) return null;
    writing = true;
    try {
      return await ports.append(draft);
    } catch (error) {
      if (before.at !== 'done') phase.value = { ...before, problem: notSaved(error) } as Phase;
      return null;
    } finally {
      writing = false;
    }
  };

  const answer = async (given: Given | null, from: Asking, ms: number): Promise<void> => {
    const { card, mirror, texts, field } = from;
    phase.value = { at: 'saving', card, mirror, texts, field };
    const event = await write(answeredDraft(ports, card, given, ms), from);
    if (!event) return;
    mine.push(event.id);
    phase.value = { at: 'answered', card, mirror, given, eventId: event.id, problem: null };
  };

  return {
    naming: ports.chart.naming,
    phase,
    progress,
    summary,
    canTakeBack,
    next: () => {
      if (!writing) phase.value = phaseFor(ports);
    },
    type: (character) => edit(phase, (text) => (text + character).slice(0, LONGEST)),
    erase: () => edit(phase, (text) => text.slice(0, -1)),
    flipSign: () => edit(phase, (text) => (text.startsWith('-') ? text.slice(1) : `-${text}`)),
    goTo: (field) => {
      const now = phase.value;
      if (now.at === 'asking') phase.value = { ...now, field };
    },
    submit: async () => {
      const now = phase.value;
      if (now.at !== 'asking') return;
      if (overtaken(ports, now)) return goOn();
      const ms = answerTime(ports);
      const step = readAnswer(ports, now, ms);
      if (step.at === 'asking') phase.value = step;
      else await answer(step.given, now, ms);
    },
    showMe: async () => {
      const now = phase.value;
      if (now.at !== 'asking') return;
      if (overtaken(ports, now)) goOn();
      else await answer(null, now, answerTime(ports));
    },
    metIt: async () => {
      const now = phase.value;
      if (now.at !== 'meeting') return;
      const event = await write({ type: 'met', line: now.card.lineId, ...moment(ports) }, now);
      if (event) phase.value = phaseFor(ports);
    },
    takeBack: async () => {
      const now = phase.value;
      if (now.at === 'saving') return;
      const id = now.at === 'answered' ? now.eventId : (mine.at(-1) ?? lastToday(ports)?.id);
      const taken = ports.log.value.events.find((event) => event.id === id);
      const card = taken && isAnswer(taken) && ports.cards.find((one) => one.id === taken.card);
      if (!taken || !card) return;
      if (now.at === 'asking') phase.value = { ...now, at: 'saving' };
      const event = await write({ type: 'taken back', answered: taken.id, ...moment(ports) }, now);
      if (!event) return;
      if (mine.includes(taken.id)) mine.splice(mine.indexOf(taken.id), 1);
      ask(card);
    },
    painted: () => ports.stopwatch.start(),
  };
}

/** The newest answer of today that still counts; after a reload it is the one to take back. */
function lastToday(ports: QuizPorts): Answered | null {
  const last = lastEvent(ports.log.value, ports.today(), isAnswer);
  return last?.day === ports.today() ? last : null;
}

/** The settings the queue needs. */
export function queueSettings(settings: Settings): QueueSettings {
  const { targetRecall, newLinesPerDay, meetFirst } = settings;
  return { targetRecall, newLinesPerDay, meetFirst };
}

function phaseFor(ports: QuizPorts): Phase {
  const { cards, log, settings } = ports;
  const step = nextStep(cards, log.peek(), ports.today(), queueSettings(settings.peek()));
  if (!step) return { at: 'done' };
  if (step.type === 'ask') return asking(ports, step.card);
  const mirror = MIRRORS[0] as Mirror;
  const first = log.peek().met.size === 0;
  return { at: 'meeting', card: step.card, mirror, first, problem: null };
}

function asking(ports: QuizPorts, card: Card): Asking {
  const times = ports.log.peek().memories.get(card.id)?.answers ?? 0;
  const all = ports.settings.peek().pictures === 'all';
  const mirror = all ? pictureFor(card.id, times) : (MIRRORS[0] as Mirror);
  const texts = fieldsOf(card).map(() => '');
  return { at: 'asking', card, mirror, texts, field: 0, problem: null, turn: times };
}

/** The card was answered in another tab while it stood here: it is not asked twice. */
function overtaken(ports: QuizPorts, now: Asking): boolean {
  return (ports.log.peek().memories.get(now.card.id)?.answers ?? 0) !== now.turn;
}

/** Editing clears the problem and loses nothing else. */
function edit(phase: { value: Phase }, change: (text: string) => string): void {
  const now = phase.value;
  if (now.at !== 'asking') return;
  const texts = now.texts.map((text, n) => (n === now.field ? change(text) : text));
  phase.value = { ...now, texts, problem: null };
}

/** The answer if all fields can be read; otherwise the same question with the problem, or the next field. */
function readAnswer(
  ports: QuizPorts,
  now: Asking,
  ms: number,
): Asking | { at: 'graded'; given: Given } {
  const parsed = parseAnswer(now.card, now.texts);
  if (!parsed.ok) {
    const untouched = parsed.field > now.field && parsed.error === 'empty';
    return { ...now, field: parsed.field, problem: untouched ? null : parsed.say };
  }
  const { chart, log, settings } = ports;
  const pace = paceOf(log.value.times.get(now.card.kind) ?? []);
  const tolerance = toleranceFor(toleranceOf(settings.value), chart.document.printStep);
  const grade = gradeAnswer(parsed.values, now.card.truth, tolerance, ms, pace);
  return { at: 'graded', given: { values: parsed.values, grade } };
}

function answeredDraft(ports: QuizPorts, card: Card, given: Given | null, ms: number): EventDraft {
  return {
    type: 'answered',
    card: card.id,
    kind: card.kind,
    answer: given ? given.values.map(toNumber) : null,
    errors: given ? given.grade.errors.map(toNumber) : null,
    outcome: given ? given.grade.outcome : 'off',
    ms,
    ...moment(ports),
  };
}

/** At most a day: a question left open over night is slow, not an error. */
function answerTime(ports: QuizPorts): number {
  return Math.min(86_400_000, ports.stopwatch.read());
}

function moment(ports: QuizPorts): { day: number; at: number } {
  return { day: ports.today(), at: ports.now() };
}

/** Cards still to ask today, new lines among them. */
function leftToday(ports: QuizPorts): number {
  const { cards, log, settings } = ports;
  const { due, fresh } = agendaFor(cards, log.value, ports.today(), queueSettings(settings.value));
  return due.length + fresh.length;
}

function notSaved(error: unknown): string {
  const full = error instanceof DOMException && error.name === 'QuotaExceededError';
  const [why, remedy] = full
    ? ['the device has no room left', 'make room and press again']
    : ['the browser refused to write it', 'press again, or open the page anew'];
  return `Not saved: ${why}. Nothing is lost here; ${remedy}.`;
}
