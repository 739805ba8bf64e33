/** Plays days with the chooser, for its tests. */

import { type Card, KINDS, type Outcome } from '../../../src/cards/index.ts';
import {
  addToLog,
  foldLog,
  type LogEvent,
  type LogState,
  type NextStep,
  nextStep,
  type Wish,
} from '../../../src/scheduler/index.ts';
import { answer, base, said } from '../making.ts';

/** What a new player wants. */
export const WISH: Wish = {
  kinds: KINDS,
  anchorsOnly: true,
  meetFirst: true,
  newLinesADay: null,
  day: null,
  worth: () => 1,
};

export const FIRST_DAY = 100;

export interface Played {
  readonly step: NextStep;
  readonly day: number;
  /** The log before the step. */
  readonly log: LogState;
}

export interface Playing {
  readonly before?: readonly LogEvent[];
  /** How many steps the player has time for. */
  readonly most?: number;
  readonly outcome?: (card: Card, n: number) => Outcome;
}

/** Plays a day, until the chooser has nothing left or the time is up. */
export function play(
  cards: readonly Card[],
  day: number,
  wish: Wish,
  { before = [], most = Number.POSITIVE_INFINITY, outcome = () => 'pocketed' }: Playing = {},
): { readonly played: readonly Played[]; readonly events: readonly LogEvent[] } {
  let log = foldLog(before);
  const played: Played[] = [];
  const events = [...before];
  while (played.length < most) {
    const { step } = nextStep(cards, log, day, wish);
    if (!step) break;
    const event = eventOf(step, events.length, day, outcome(step.card, played.length));
    played.push({ step, day, log });
    events.push(event);
    log = addToLog(log, event);
  }
  return { played, events };
}

/** Plays days from FIRST_DAY on with every answer right. */
export function learn(
  cards: readonly Card[],
  days: number,
  wish: Wish,
  most = 40,
): readonly LogEvent[] {
  let before: readonly LogEvent[] = [];
  for (let day = FIRST_DAY; day < FIRST_DAY + days; day++)
    before = play(cards, day, wish, { before, most }).events;
  return before;
}

function eventOf(step: NextStep, seq: number, day: number, outcome: Outcome): LogEvent {
  const { type, card } = step;
  if (type === 'meet') return said(base(seq, day), 'met', { line: card.lineId });
  return { ...answer(seq, card.id, day), kind: card.kind, outcome };
}
