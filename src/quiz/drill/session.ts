/**
 * A drill under way: a state machine on signals. Where it stands comes from the log, so that a reload
 * goes on with the same run; an answer is on disk before the screen moves on.
 */

import { computed, type ReadonlySignal, signal } from '@preact/signals';
import { toNumber } from '../../charts/index.ts';
import type { EventDraft } from '../../scheduler/index.ts';
import { type Answering, type Entry, editing, emptyEntry, readEntry } from '../stage/entry.ts';
import { notSaved } from '../stage/not-saved.ts';
import type { ShownCard } from '../stage/phase.ts';
import type { SessionPorts } from '../stage/ports.ts';
import { answerTime, givenParts, gradeFor, instanceFor } from '../stage/questions.ts';
import type { Given } from '../words/given.ts';
import { formatDrill } from './code.ts';
import type { Drill } from './questions.ts';
import { answersIn, nextOf } from './run.ts';

export interface DrillPorts extends SessionPorts {
  readonly drill: Drill;
  /** The name of the run: a fresh one, or that of the run to go on with. */
  readonly run: string;
}

interface ShownQuestion extends ShownCard {
  readonly n: number;
}

export type DrillPhase =
  | (ShownQuestion & Entry & { readonly at: 'asking' })
  /** The feedback is told already; the answer is being written. */
  | (ShownQuestion & { readonly at: 'saving' | 'answered'; readonly given: Given | null })
  | { readonly at: 'over' };

export interface DrillSession extends Answering {
  readonly phase: ReadonlySignal<DrillPhase>;
  /** Questions of the run answered so far. */
  readonly answered: ReadonlySignal<number>;
  readonly next: () => void;
  readonly painted: () => void;
}

type Asking = Extract<DrillPhase, { readonly at: 'asking' }>;

export function createDrillSession(ports: DrillPorts): DrillSession {
  const code = formatDrill(ports.drill.spec);
  const phase = signal<DrillPhase>(phaseFor(ports, code));
  const answered = computed(() => answersIn(ports.log.value, code, ports.run).length);

  const overtaken = (now: Asking): boolean => {
    if (!answersIn(ports.log.peek(), code, ports.run).some(({ n }) => n === now.n)) return false;
    const next = phaseFor(ports, code);
    const problem = 'That one was answered in another tab; here is the next.';
    phase.value = next.at === 'asking' ? { ...next, problem } : next;
    return true;
  };

  /** An answer that could not be written stays the answer: the number has been told. */
  let tried: { readonly n: number; readonly given: Given | null; readonly ms: number } | null =
    null;

  const answer = async (from: Asking, given: Given | null, ms: number): Promise<void> => {
    const { card, question, mirror, n } = from;
    const told = { card, question, mirror, n, given };
    phase.value = { at: 'saving', ...told };
    try {
      await ports.append(drilledDraft(ports, code, from, given, ms));
      phase.value = { at: 'answered', ...told };
    } catch (error) {
      tried = { n, given, ms };
      phase.value = { ...from, problem: notSaved(error) };
    }
  };

  const again = async (now: Asking, { given, ms }: NonNullable<typeof tried>): Promise<void> => {
    if (!overtaken(now)) await answer(now, given, ms);
  };

  const edit = (change: (entry: Entry) => Entry): void => {
    const now = phase.value;
    if (now.at === 'asking' && tried?.n !== now.n) phase.value = { ...now, ...change(now) };
  };

  return {
    ...editing(edit),
    phase,
    answered,
    next: () => {
      if (phase.value.at === 'answered') phase.value = phaseFor(ports, code);
    },
    submit: async () => {
      const now = phase.value;
      if (now.at !== 'asking') return;
      if (tried?.n === now.n) return again(now, tried);
      const ms = answerTime(ports);
      const read = readEntry(now.question, now);
      if (!read.ok) phase.value = { ...now, ...read.entry };
      else if (!overtaken(now))
        await answer(now, gradeFor(ports, now.question, read.values, ms), ms);
    },
    showMe: async () => {
      const now = phase.value;
      if (now.at !== 'asking') return;
      if (tried?.n === now.n) await again(now, tried);
      else if (!overtaken(now)) await answer(now, null, answerTime(ports));
    },
    painted: () => ports.stopwatch.start(),
  };
}

/** The first question of the run that has no answer; over if there is none. */
function phaseFor(ports: DrillPorts, code: string): DrillPhase {
  const n = nextOf(answersIn(ports.log.peek(), code, ports.run));
  const shown = ports.drill.at(n, ports.settings.peek().pictures);
  return shown ? { at: 'asking', ...shown, n, ...emptyEntry(shown.question) } : { at: 'over' };
}

function drilledDraft(
  ports: DrillPorts,
  code: string,
  { card, question, n }: ShownQuestion,
  given: Given | null,
  ms: number,
): EventDraft {
  return {
    type: 'drilled',
    run: ports.run,
    code,
    n,
    pattern: card.pattern,
    zone: card.zone,
    kind: card.kind,
    ...givenParts(given),
    ms,
    asked: instanceFor(question),
    tolerance: toNumber(question.tolerance),
    day: ports.today(),
    at: ports.now(),
  };
}
