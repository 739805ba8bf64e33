/** Decides what a session asks next, and counts what it still has to ask. */

import { type Card, numberIdOf, questionOf, seedFor } from '../../cards/index.ts';
import type { Line } from '../../charts/index.ts';
import {
  type Learned,
  type LogState,
  learnedOf,
  type Next,
  nextStep,
} from '../../scheduler/index.ts';
import type { Settings } from '../../store/index.ts';
import { MIRRORS, type Mirror } from '../../table/index.ts';
import { emptyEntry } from '../stage/entry.ts';
import type { Asking, Phase, Progress } from '../stage/phase.ts';
import type { SessionPorts } from '../stage/ports.ts';
import { askerFor, mirrorFor } from '../stage/questions.ts';
import { changeOf } from '../words/changed.ts';
import { questionsIn } from './pace.ts';
import { answersOn } from './summary.ts';
import { wishOf } from './wish.ts';

export interface QuizPorts extends SessionPorts {
  readonly cards: readonly Card[];
  /** How long the session lasts, in minutes; null means until the player stops. */
  readonly minutes: number | null;
}

export interface Agenda extends QuizPorts {
  /** Ids of the skill cards that have no instance on this chart. */
  readonly unaskable: Set<string>;
  /** When the session began, milliseconds since 1970-01-01 UTC. */
  readonly began: number;
}

export function createAgenda(ports: QuizPorts): Agenda {
  return {
    ...ports,
    unaskable: new Set(),
    began: ports.now(),
  };
}

/** Returns the next phase according to the log: a question, a line to meet, or the end. */
export function nextPhase(agenda: Agenda): Phase {
  const { log, unaskable } = agenda;
  if (minutesLeft(agenda) === 0) return { at: 'done', why: 'time is up', problem: null };
  for (;;) {
    const { step } = nextIn(agenda, log.peek(), agenda.settings.peek());
    if (!step) return { at: 'done', why: 'nothing left', problem: null };
    if (step.type === 'meet') {
      const first = log.peek().met.size === 0;
      const mirror = MIRRORS[0] as Mirror;
      const changed = changeOf(log.peek(), step.card.id);
      return { at: 'meeting', card: step.card, mirror, first, changed, problem: null };
    }
    const asked = askingPhase(agenda, step.card);
    if (asked) return asked;
    unaskable.add(step.card.id);
  }
}

function nextIn({ cards, unaskable, today }: Agenda, log: LogState, settings: Settings): Next {
  const fits = ({ id }: Card) => !unaskable.has(id);
  return nextStep(cards, log, today(), { ...wishOf(settings), fits });
}

/** @returns null if the card has no instance on this chart */
export function askingPhase(agenda: Agenda, card: Card): Asking | null {
  const settings = agenda.settings.peek();
  const turn = timesAnswered(agenda, card);
  const asker = { ...askerFor(agenda.chart, settings), met: metIn(agenda) };
  const question = questionOf(asker, card, seedFor(card.id, turn));
  if (!question) return null;
  const mirror = mirrorFor(settings, card.id, turn);
  return { at: 'asking', card, question, mirror, ...emptyEntry(question), turn };
}

export function timesAnswered({ log }: Pick<QuizPorts, 'log'>, card: Card): number {
  return log.peek().memories.get(card.id)?.answers ?? 0;
}

/**
 * Returns a function that tells whether a skill may be worked out from a line's number. It may if
 * that number was asked before or is itself worked out; otherwise the question would give the
 * number away. What is worked out is computed only when first needed.
 */
function metIn({ chart, cards, log, settings }: Agenda): (line: Line) => boolean {
  let learned: Learned | null = null;
  return (line) => {
    const id = numberIdOf(chart, line);
    if (log.peek().memories.has(id)) return true;
    learned ??= learnedOf(cards, log.peek(), wishOf(settings.peek()));
    return learned.workedOut.has(id);
  };
}

/**
 * Returns how many cards were answered, and how many are left for today, including new lines. If
 * the player chose a number of minutes, only as many are left as fit into them.
 */
export function progressOf(agenda: Agenda, answered: number): Progress {
  const { log, settings } = agenda;
  const { left: waiting } = nextIn(agenda, log.value, settings.value);
  const minutes = minutesLeft(agenda);
  if (minutes === null) {
    return { answered: answersOn(log.value, agenda.today()).length, left: waiting, waiting };
  }
  const room = minutes === 0 ? 0 : questionsIn(minutes, log.value);
  return { answered, left: Math.min(waiting, room), waiting };
}

/** Returns how many of the chosen minutes are left; null if the player has set no time. */
function minutesLeft({ minutes, began, now }: Agenda): number | null {
  return minutes === null ? null : Math.max(0, minutes - (now() - began) / 60_000);
}
