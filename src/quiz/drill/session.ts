/**
 * A drill under way: a state machine on signals. The log tells how many questions are answered, so
 * a reload continues the same run. An answer is on the disk before the screen moves on.
 */

import { computed, type ReadonlySignal, type Signal, signal } from '@preact/signals';
import type { Card } from '../../cards/index.ts';
import { toNumber } from '../../charts/index.ts';
import type { Drilled, EventDraft } from '../../scheduler/index.ts';
import { type Answerable, createAnswering } from '../stage/answering.ts';
import { type Answering, type Entry, emptyEntry } from '../stage/entry.ts';
import type { ShownCard } from '../stage/phase.ts';
import type { SessionPorts } from '../stage/ports.ts';
import { answerTime, givenParts, instanceFor } from '../stage/questions.ts';
import { createWriter, type Writer } from '../stage/writing.ts';
import type { Given } from '../words/given.ts';
import { formatDrill } from './code.ts';
import { countsFor } from './counting.ts';
import type { Drill } from './questions.ts';
import { answersIn, nextOf } from './run.ts';

export interface DrillPorts extends SessionPorts {
  readonly drill: Drill;
  /** All cards of the chart in use. An answer may count for one of them. */
  readonly cards: ReadonlySignal<readonly Card[]>;
  /** The name of a new run, or of the run to continue. */
  readonly run: string;
}

interface ShownQuestion extends ShownCard {
  readonly n: number;
}

export type DrillPhase =
  | (ShownQuestion & Entry & { readonly at: 'asking' })
  /** While saving, the feedback already shows and the answer is being written. */
  | (ShownQuestion & { readonly at: 'saving' | 'answered'; readonly given: Given | null })
  | { readonly at: 'over' };

export interface DrillSession extends Answering {
  readonly phase: ReadonlySignal<DrillPhase>;
  /** How many questions of the run are answered so far. */
  readonly answered: ReadonlySignal<number>;
  readonly next: () => void;
  readonly painted: () => void;
}

type Asking = Extract<DrillPhase, { readonly at: 'asking' }>;

interface UnderWay {
  readonly ports: DrillPorts;
  readonly code: string;
  readonly phase: Signal<DrillPhase>;
  readonly writer: Writer;
}

export function createDrillSession(ports: DrillPorts): DrillSession {
  const code = formatDrill(ports.drill.spec);
  const phase = signal(nextPhase(ports, code));
  const drill: UnderWay = { ports, code, phase, writer: createWriter() };
  return {
    ...createAnswering(ports, drill.writer, answerableIn(drill)),
    phase,
    answered: computed(() => answersIn(ports.log.value, code, ports.run).length),
    next: () => {
      if (phase.value.at === 'answered') phase.value = nextPhase(ports, code);
    },
    painted: () => ports.stopwatch.start(),
  };
}

function answerableIn(drill: UnderWay): Answerable<Asking> {
  const { ports, phase } = drill;
  return {
    asking: () => (phase.value.at === 'asking' ? phase.value : null),
    show: (question) => {
      phase.value = question;
    },
    time: () => answerTime(ports),
    isPast: ({ n }) => answersSoFar(drill).some((one) => one.n === n),
    passOver: () => passOver(drill),
    answer: (question, given, ms) => answer(drill, question, given, ms),
    revealedAs: ({ n }) => String(n),
  };
}

function passOver({ ports, code, phase }: UnderWay): void {
  const next = nextPhase(ports, code);
  const problem = 'That one was answered in another tab; here is the next.';
  phase.value = next.at === 'asking' ? { ...next, problem } : next;
}

async function answer(
  { ports, code, phase, writer }: UnderWay,
  from: Asking,
  given: Given | null,
  ms: number,
): Promise<boolean> {
  const { card, question, mirror, n } = from;
  const shown = { card, question, mirror, n, given };
  phase.value = { at: 'saving', ...shown };
  const draft = drilledDraft(ports, code, from, given, ms);
  const saved = await writer.write(() => ports.append(draft));
  phase.value = saved.ok ? { at: 'answered', ...shown } : { ...from, problem: saved.problem };
  return saved.ok;
}

function answersSoFar({ ports, code }: UnderWay): readonly Drilled[] {
  return answersIn(ports.log.peek(), code, ports.run);
}

/** Returns the phase for the first question without an answer, or "over" if there is none. */
function nextPhase(ports: DrillPorts, code: string): DrillPhase {
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
  const today = ports.today();
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
    ...(isCounted(ports, code, card, today) ? { counts: card.id } : {}),
    day: today,
    at: ports.now(),
  };
}

function isCounted(ports: DrillPorts, code: string, card: Card, today: number): boolean {
  const log = ports.log.peek();
  const player = { cards: ports.cards.peek(), log, settings: ports.settings.peek(), today };
  return countsFor(player, answersIn(log, code, ports.run), card);
}
