/** What to ask next: a function of the log alone, so a reload returns to the same card. */

import { type Card, isLineCard, isSkill, type LineCard } from '../../cards/index.ts';
import type { LogEvent } from '../log/events.ts';
import { isStep, lastEvent } from '../log/last-event.ts';
import type { CardMemory, LogState } from '../log/state.ts';
import type { MemoryModel } from '../memory/memory.ts';
import { type Learning, learnedOf } from './learned.ts';

export interface QueueSettings extends Learning {
  readonly targetRecall: number;
  readonly newLinesPerDay: number;
  /** Show and explain a new line before it is first asked. */
  readonly meetFirst: boolean;
  /**
   * Today's plan for a day that counts. Without one, or with that of another day, due cards are
   * asked.
   */
  readonly plan?: TodaysPlan | null;
}

/** Cards to ask on a day, most urgent first. */
export interface TodaysPlan {
  readonly today: number;
  readonly ask: readonly string[];
  /** The next day after it on which something is to be asked; null if there is none. */
  readonly next: Due | null;
}

/** A day with something to do, and how many cards. */
export interface Due {
  readonly inDays: number;
  readonly count: number;
}

/** Show a new line, or ask a card. */
export type NextStep =
  | { readonly type: 'meet'; readonly card: LineCard }
  | { readonly type: 'ask'; readonly card: Card };

/** A card just missed or a line just met is asked after at least this many other steps, if any. */
export const APART = 2;

/** A card that was off this often in a row on one day waits until the next. */
const ENOUGH_MISSES = 3;

/** Skills asked for the first time a day. */
const NEW_SKILLS = 2;

/** First windows and verdicts a day are limited as if at least so many new lines were met a day. */
const FEWEST_LINES = 3;

/** The study-day on which a card falls due; a card answered off is due the same day. */
export function dueDay(memory: CardMemory, targetRecall: number, model: MemoryModel): number {
  if (memory.lastOutcome !== 'off') return memory.lastDay + model.interval(memory, targetRecall);
  return memory.missesInARow < ENOUGH_MISSES ? memory.lastDay : memory.lastDay + 1;
}

export interface Agenda {
  /** Cards to ask today: fallen due, or of lines met and not yet asked. Most forgotten first. */
  readonly due: readonly Card[];
  /** First cards of lines that may be met today, patterns in turn. */
  readonly fresh: readonly LineCard[];
}

/** Today's work on a set of cards. */
export function agendaFor(
  all: readonly Card[],
  log: LogState,
  today: number,
  settings: QueueSettings,
): Agenda {
  const { cards } = learnedOf(all, log, settings);
  const introduced = introducedLines(all.filter(isLineCard), log);
  if (settings.plan?.today === today)
    return agendaOfPlan(cards, log, today, settings, introduced, settings.plan.ask);
  const due = cards
    .filter((card) => isDue(card, log, today, settings, introduced))
    // Equally forgotten cards keep their order: a window before how far to trust it.
    .map((card) => ({ card, hold: holdOf(card, log, today) }))
    .sort((a, b) => a.hold - b.hold)
    .map(({ card }) => card);
  const placed = placedSince(all, log, today);
  // A day after today: the day boundary was moved after they were met.
  const newToday = [...introduced].filter(
    ([line, day]) => day >= today && !placed.has(line),
  ).length;
  const room = Math.max(0, settings.newLinesPerDay - newToday);
  const fresh = cards.filter(
    (card): card is LineCard =>
      isLineCard(card) && card.after.length === 0 && !introduced.has(card.lineId),
  );
  return {
    due: fewFirsts(withoutSiblings(due, cards, log, today), cards, log, today, settings),
    fresh: inTurn(fresh, cards, introduced).slice(0, room),
  };
}

/**
 * Today's work by a plan: its cards that were not asked today, lines met and not asked yet, cards
 * off today, and cards that moved. In the plan's order, cards outside it first.
 */
function agendaOfPlan(
  cards: readonly Card[],
  log: LogState,
  today: number,
  settings: QueueSettings,
  introduced: ReadonlyMap<string, number>,
  ask: readonly string[],
): Agenda {
  const ranks = new Map(ask.map((id, n) => [id, n]));
  const rankOf = ({ id }: Card): number => ranks.get(id) ?? -1;
  const due = cards.filter((card) => isDueByPlan(card, log, today, settings, introduced, ranks));
  const fresh = cards.filter(
    (card): card is LineCard =>
      isLineCard(card) && isFirstOfLine(card) && !introduced.has(card.lineId) && ranks.has(card.id),
  );
  return {
    due: withoutSiblings(
      due.sort((a, b) => rankOf(a) - rankOf(b)),
      cards,
      log,
      today,
    ),
    fresh: fresh.sort((a, b) => rankOf(a) - rankOf(b)),
  };
}

/** Is a card asked today by a plan that gives its cards these ranks. */
export function isDueByPlan(
  card: Card,
  log: LogState,
  today: number,
  settings: QueueSettings,
  introduced: ReadonlyMap<string, number>,
  ranks: ReadonlyMap<string, number>,
): boolean {
  const memory = log.memories.get(card.id);
  const begun = !memory && isDue(card, log, today, settings, introduced);
  if (!memory)
    return begun && (isFirstOfLine(card) || log.moved.has(card.id) || ranks.has(card.id));
  // Days after today, from a clock that was ahead, count as today.
  if (memory.lastDay >= today) return dueDay(memory, settings.targetRecall, log.model) <= today;
  return ranks.has(card.id);
}

/**
 * The next step of a session; null when nothing is left for today. While cards of other patterns
 * are due, no two cards of a pattern follow each other. A new line of another pattern comes before
 * such a repetition, too.
 */
export function nextStep(
  cards: readonly Card[],
  log: LogState,
  today: number,
  settings: QueueSettings,
): NextStep | null {
  const { due, fresh } = agendaFor(cards, log, today, settings);
  const last = lastPattern(cards, log, today);
  const other = due.filter((card) => card.pattern !== last);
  const otherFresh = fresh.find((card) => card.pattern !== last);
  const rested = other.filter((card) => stepsSince(card, log) >= APART);
  const meet = settings.meetFirst ? 'meet' : 'ask';
  const ask = (card: Card): NextStep =>
    settings.meetFirst && isLineCard(card) && movedUnseen(card, log)
      ? { type: 'meet', card }
      : { type: 'ask', card };
  if (rested.length > 0) return ask(fromFullest(rested, due));
  if (otherFresh) return { type: meet, card: otherFresh };
  if (other.length > 0) return ask(mostRested(other, log));
  const same = due.find((card) => stepsSince(card, log) >= APART);
  if (same) return ask(same);
  if (fresh[0]) return { type: meet, card: fresh[0] };
  return due.length > 0 ? ask(mostRested(due, log)) : null;
}

/** Its number moved, and the new one was not shown yet. Verdicts are asked without being shown. */
function movedUnseen(card: LineCard, { moved }: LogState): boolean {
  return card.kind !== 'trust' && moved.get(card.id)?.shown === false;
}

/**
 * Limits first askings a day, in the order of the cards: two skills, and twice as many windows and
 * verdicts as new lines. They keep up with the day's lines, and a placement that proves dozens of
 * lines is not followed by a flood.
 */
function fewFirsts(
  due: readonly Card[],
  cards: readonly Card[],
  log: LogState,
  today: number,
  { newLinesPerDay }: QueueSettings,
): readonly Card[] {
  const most = firstsADay(newLinesPerDay);
  const skills = firsts(due, cards, log, today, most.skill, (card) => isSkill(card.kind));
  const further = firsts(due, cards, log, today, most.further, isFurther);
  return due.filter(
    (card) =>
      log.memories.has(card.id) ||
      log.moved.has(card.id) ||
      isFirstOfLine(card) ||
      skills.has(card) ||
      further.has(card),
  );
}

/** How many skills, and how many windows and verdicts, are asked for the first time on a day. */
export function firstsADay(newLinesPerDay: number) {
  return { skill: NEW_SKILLS, further: 2 * Math.max(FEWEST_LINES, newLinesPerDay) };
}

export function isFirstOfLine(card: Card): boolean {
  return card.after.length === 0;
}

export function isFurther(card: Card): boolean {
  return isLineCard(card) && !isFirstOfLine(card);
}

/** The fitting cards that may be asked for the first time today. */
function firsts(
  due: readonly Card[],
  cards: readonly Card[],
  log: LogState,
  today: number,
  most: number,
  fits: (card: Card) => boolean,
): ReadonlySet<Card> {
  const wanted = new Set(due);
  const sort = cards.filter(fits);
  const begun = sort.filter(({ id }) => log.memories.get(id)?.firstDay === today).length;
  const waiting = sort.filter((card) => wanted.has(card) && !log.memories.has(card.id));
  return new Set(waiting.slice(0, Math.max(0, most - begun)));
}

/**
 * One card of a line a day: an answer shows the line's numbers, and with them its siblings'. A card
 * that moved comes first, then one that is being forgotten, the most forgotten before others, then
 * one never asked. The others wait until tomorrow.
 */
export function withoutSiblings(
  due: readonly Card[],
  cards: readonly Card[],
  log: LogState,
  today: number,
): readonly Card[] {
  const chosen = new Map<string, string>();
  const choose = (card: Card): void => {
    if (!chosen.has(card.lineId)) chosen.set(card.lineId, card.id);
  };
  for (const card of due) if (log.moved.has(card.id)) choose(card);
  for (const card of cards) if (log.memories.get(card.id)?.lastDay === today) choose(card);
  for (const card of due) if (log.memories.has(card.id)) choose(card);
  for (const card of due) choose(card);
  return due.filter((card) => chosen.get(card.lineId) === card.id);
}

export function isDue(
  card: Card,
  log: LogState,
  today: number,
  settings: QueueSettings,
  introduced: ReadonlyMap<string, number>,
): boolean {
  const memory = log.memories.get(card.id);
  if (memory) {
    // Days after today, from a clock that was ahead, count as today.
    const ahead = Math.max(0, memory.lastDay - today);
    return dueDay(memory, settings.targetRecall, log.model) - ahead <= today;
  }
  if (card.after.length === 0) return introduced.has(card.lineId) || log.moved.has(card.id);
  // A further card of a line waits until the day after the first card was asked, and until that was
  // right. A skill waits so for all its lines.
  return card.after.every((id) => {
    const first = log.memories.get(id);
    return first !== undefined && first.lastOutcome !== 'off' && first.firstDay < today;
  });
}

/** Lines met or asked so far, with the first study-day. */
export function introducedLines(
  cards: readonly Card[],
  log: LogState,
): ReadonlyMap<string, number> {
  const lines = new Map<string, number>();
  for (const card of cards) {
    const days = [
      lines.get(card.lineId),
      log.met.get(card.lineId)?.day,
      log.memories.get(card.id)?.firstDay,
      log.moved.get(card.id)?.since,
    ].filter((day) => day !== undefined);
    if (days.length > 0) lines.set(card.lineId, Math.min(...days));
  }
  return lines;
}

/** Lines proven in placement since a day: they do not count as the day's new lines. */
export function placedSince(all: readonly Card[], log: LogState, day: number): ReadonlySet<string> {
  const proved = new Set<string>();
  for (let n = log.events.length - 1; n >= 0; n--) {
    const event = log.events[n] as LogEvent;
    if (event.day < day) break;
    if (event.type === 'proved' && event.outcome !== 'off') proved.add(event.card);
  }
  if (proved.size === 0) return proved;
  return new Set(all.filter(({ id }) => proved.has(id)).map(({ lineId }) => lineId));
}

export function holdOf(card: Card, log: LogState, today: number): number {
  const memory = log.memories.get(card.id);
  return memory ? log.model.recall(memory, today - memory.lastDay) : 0;
}

/** New lines by priority, then patterns in turn: those with the fewest lines met come first. */
function inTurn(
  fresh: readonly LineCard[],
  cards: readonly Card[],
  introduced: ReadonlyMap<string, number>,
): readonly LineCard[] {
  const met = groupByPattern(
    cards.filter((card) => card.kind === 'number' && introduced.has(card.lineId)),
  );
  const ranked = [...groupByPattern(fresh)].flatMap(([pattern, group]) =>
    group.map((card, n) => ({ card, rank: (met.get(pattern)?.length ?? 0) + n })),
  );
  return ranked
    .sort((a, b) => a.card.priority - b.card.priority || a.rank - b.rank)
    .map(({ card }) => card);
}

function groupByPattern<C extends Card>(cards: readonly C[]): ReadonlyMap<string, readonly C[]> {
  const groups = new Map<string, C[]>();
  for (const card of cards) {
    const group = groups.get(card.pattern);
    if (group) group.push(card);
    else groups.set(card.pattern, [card]);
  }
  return groups;
}

/**
 * The most forgotten card. But if one pattern has more than half of the cards that are left, a card
 * of it, or its cards would have to follow each other at the end.
 */
function fromFullest(rested: readonly Card[], due: readonly Card[]): Card {
  const [first] = rested as readonly [Card];
  for (const group of groupByPattern(due).values()) {
    const pattern = group[0]?.pattern;
    if (2 * group.length > due.length)
      return rested.find((card) => card.pattern === pattern) ?? first;
  }
  return first;
}

function lastPattern(cards: readonly Card[], log: LogState, today: number): string | null {
  const last = lastEvent(log, today, isStep);
  if (!last) return null;
  const shown = cards.find((card) =>
    last.type === 'answered' ? card.id === last.card : card.lineId === last.line,
  );
  return shown?.pattern ?? null;
}

export function stepsSince(card: Card, log: LogState): number {
  const answered = log.memories.get(card.id)?.lastStep ?? -1;
  const met = log.met.get(card.lineId)?.step ?? -1;
  const last = Math.max(answered, met);
  return last < 0 ? Number.POSITIVE_INFINITY : log.steps - 1 - last;
}

export function mostRested(cards: readonly Card[], log: LogState): Card {
  return cards.reduce((best, card) =>
    stepsSince(card, log) > stepsSince(best, log) ? card : best,
  );
}
