/**
 * A rehearsal under way: a state machine on signals. Every answer is on the disk before the next
 * question is shown, nothing is said of it until the end, and the log hears of it once, at the end.
 */

import { computed, type ReadonlySignal, signal } from '@preact/signals';
import { type Card, hashOf, questionOf } from '../../cards/index.ts';
import { toNumber } from '../../charts/index.ts';
import type {
  LogEvent,
  RehearsalDraft,
  RehearsalQuestion,
  RehearsalSpec,
  RehearsalTerms,
  RehearsedDraft,
} from '../../scheduler/index.ts';
import { type Answering, type Entry, editing, emptyEntry, readEntry } from '../stage/entry.ts';
import { notSaved } from '../stage/not-saved.ts';
import type { ShownCard } from '../stage/phase.ts';
import type { SessionPorts } from '../stage/ports.ts';
import { answerTime, givenParts, gradeFor, instanceFor, mirrorFor } from '../stage/questions.ts';
import type { Given } from '../words/given.ts';
import type { RehearsalSource } from './source.ts';

export interface RehearsalPorts extends Omit<SessionPorts, 'chart' | 'settings' | 'append'> {
  /** Of the terms of its draft. */
  readonly source: RehearsalSource;
  /** The rehearsal on the disk, as far as this tab has heard; null if there is none. */
  readonly stored: ReadonlySignal<RehearsalDraft | null>;
  /** Resolves when it is on the disk; false if another one is there or another tab is further on. */
  readonly save: (draft: RehearsalDraft) => Promise<boolean>;
  /** Writes the whole of it into the log; null if another tab has finished or dropped it. */
  readonly finish: (id: string, draft: RehearsedDraft) => Promise<LogEvent | null>;
  /** It is in the log, and the player is still here to be shown. */
  readonly ended: (event: LogEvent) => void;
}

interface Standing extends ShownCard, Entry {
  readonly draft: RehearsalDraft;
  /** Called, or run out, and not on the disk yet: its time stands still. */
  readonly stopped: Stopped | null;
}

interface Stopped {
  readonly ms: number;
  readonly ranOut: boolean;
}

export type RehearsalPhase =
  | (Standing & { readonly at: 'asking' })
  /** Being written. */
  | (Standing & { readonly at: 'saving' })
  /** All is answered; the whole is being written, or could not be. */
  | { readonly at: 'ending'; readonly draft: RehearsalDraft; readonly problem: string | null }
  /** All that could be asked is answered, but some was left out: the player says how it ends. */
  | { readonly at: 'short'; readonly draft: RehearsalDraft; readonly leftOut: number }
  /** Another tab has answered more of it, or has finished or dropped it. */
  | { readonly at: 'elsewhere'; readonly why: 'further on' | 'gone' };

export interface Rehearsal extends Answering {
  readonly phase: ReadonlySignal<RehearsalPhase>;
  /** Milliseconds left on the shot clock; null without one. */
  readonly left: ReadonlySignal<number | null>;
  /** Looks at the clock; to be called several times a second. */
  readonly tick: () => void;
  /** The picture is on the screen: the clock begins. */
  readonly painted: () => void;
  /** Writes the end of it, or tries again to. */
  readonly end: () => Promise<void>;
  /** The player has gone elsewhere: what is being written is written, and takes nobody back here. */
  readonly leave: () => void;
  /** Ends it with what could be asked. */
  readonly endShort: () => Promise<void>;
}

const LEFT_OUT = 'A question that is no longer on the chart was left out.';
const RAN_OUT = 'The clock ran out; here is the next.';
const AGAIN = 'Asked again, with a fresh clock.';

/** The rehearsal that a player begins now; its seed is made of the moment. */
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

/** The instance of the question at a place, from 0, of a rehearsal. */
export function seedAt(seed: number, n: number): number {
  return hashOf(`${seed} ${n}`);
}

export function createRehearsal(ports: RehearsalPorts, begun: RehearsalDraft): Rehearsal {
  const { clock } = begun.spec;
  const limit = clock === null ? null : clock * 1000;
  const again = begun.answers.length > 0 ? AGAIN : null;
  const state = signal<RehearsalPhase>(stand(ports.source, begun, again));
  const phase = computed(() => elsewhere(state.value, ports.stored.value) ?? state.value);
  const left = signal(limit);
  /** Is the question on the screen, so that its time runs. */
  let running = false;
  let ending = false;
  let here = true;

  const spent = (): number => (running ? answerTime(ports) : 0);

  const show = (next: RehearsalPhase): void => {
    running = false;
    left.value = limit;
    state.value = next;
  };

  const end = async (): Promise<void> => {
    const now = state.value;
    if (now.at !== 'ending' || ending) return;
    const { draft } = now;
    ending = true;
    try {
      const event = await ports.finish(draft.id, rehearsedOf(ports, draft));
      if (event && here) ports.ended(event);
      if (!event) state.value = { at: 'elsewhere', why: 'gone' };
    } catch (error) {
      state.value = { ...now, problem: notSaved(error) };
    } finally {
      ending = false;
    }
  };

  const record = async (now: Standing, given: Given | null, stopped: Stopped): Promise<void> => {
    state.value = { ...now, at: 'saving', stopped };
    const answers = [...now.draft.answers, answerOf(now, given, stopped)];
    const draft = { ...now.draft, answers };
    try {
      const kept = await ports.save(draft);
      if (!kept) {
        state.value = { at: 'elsewhere', why: behind(now.draft, ports.stored.peek()) ?? 'gone' };
        return;
      }
    } catch (error) {
      state.value = { ...now, at: 'asking', stopped, problem: notSaved(error) };
      return;
    }
    show(stand(ports.source, draft, stopped.ranOut ? RAN_OUT : null));
    await end();
  };

  const runOut = (now: Standing, ms: number) => record(now, null, { ms, ranOut: true });

  const edit = (change: (entry: Entry) => Entry): void => {
    const now = phase.value;
    if (now.at === 'asking') state.value = { ...now, ...change(now) };
  };

  return {
    phase,
    left,
    end,
    leave: () => {
      here = false;
    },
    endShort: async () => {
      const now = phase.value;
      if (now.at !== 'short' || now.draft.answers.length === 0) return;
      state.value = { at: 'ending', draft: now.draft, problem: null };
      await end();
    },
    ...editing(edit),
    showMe: null,
    submit: async () => {
      const now = phase.value;
      if (now.at !== 'asking') return;
      const ms = now.stopped?.ms ?? spent();
      if (limit !== null && ms >= limit) return runOut(now, limit);
      const read = readEntry(now.question, now);
      if (!read.ok) {
        state.value = { ...now, ...read.entry };
        return;
      }
      const given = gradeFor(ports, now.question, read.values, ms);
      await record(now, given, { ms, ranOut: false });
    },
    painted: () => {
      ports.stopwatch.start();
      running = true;
    },
    tick: () => {
      const now = phase.value;
      if (limit === null || !running || now.at !== 'asking' || now.stopped) return;
      left.value = Math.max(0, limit - spent());
      if (left.value === 0) void runOut(now, limit);
    },
  };
}

/** The next question that can be asked, or the end. */
function stand(
  source: RehearsalSource,
  draft: RehearsalDraft,
  problem: string | null,
): RehearsalPhase {
  const n = draft.answers.length;
  const id = draft.cards[n];
  if (id === undefined) return lastOf(draft);
  const card = source.cards.find((one) => one.id === id);
  const question = card && questionOf(source.asker, card, seedAt(draft.seed, n));
  if (!question) {
    const cards = draft.cards.filter((_, at) => at !== n);
    return stand(source, { ...draft, cards }, LEFT_OUT);
  }
  const mirror = mirrorFor(draft, id, n);
  const entry = { ...emptyEntry(question), problem };
  return { at: 'asking', draft, card, question, mirror, ...entry, stopped: null };
}

/** Nothing is left to ask: it ends by itself only if nothing was left out. */
function lastOf(draft: RehearsalDraft): RehearsalPhase {
  const leftOut = draft.spec.count - draft.cards.length;
  return leftOut > 0 ? { at: 'short', draft, leftOut } : { at: 'ending', draft, problem: null };
}

/** What another tab did to the rehearsal while a question of it stood here. */
function elsewhere(now: RehearsalPhase, stored: RehearsalDraft | null): RehearsalPhase | null {
  if (now.at !== 'asking' && now.at !== 'short') return null;
  const why = behind(now.draft, stored);
  return why && { at: 'elsewhere', why };
}

function behind(mine: RehearsalDraft, stored: RehearsalDraft | null): 'further on' | 'gone' | null {
  if (stored?.id !== mine.id) return 'gone';
  return stored.answers.length > mine.answers.length ? 'further on' : null;
}

function answerOf(now: Standing, given: Given | null, stopped: Stopped): RehearsalQuestion {
  const { card, question } = now;
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

function rehearsedOf(ports: RehearsalPorts, draft: RehearsalDraft): RehearsedDraft {
  const { spec, began, seed, pictures, answers } = draft;
  const { counts, clock } = spec;
  const when = { day: ports.today(), at: ports.now() };
  const how = { counts, clock, began, seed, pictures };
  return { type: 'rehearsed', ...when, ...how, questions: answers };
}
