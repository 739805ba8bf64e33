/**
 * The state of the queue on a day, updated event by event: which cards are due, by pattern and in
 * order, and which lines may be met. It gives the same as `agendaFor` (queue.ts), by its rules.
 */

import { type Card, isLineCard, isSkill, type LineCard } from '../../cards/index.ts';
import type { LogState } from '../log/state.ts';
import { touchedSince } from '../log/touched.ts';
import { type Learned, learnedOf } from './learned.ts';
import {
  firstsADay,
  holdOf,
  introducedLines,
  isDue,
  isDueByPlan,
  isFirstOfLine,
  isFurther,
  placedSince,
  type QueueSettings,
  withoutSiblings,
} from './queue.ts';
import { insert, remove } from './sorted.ts';

/** A card that is due. The lesser key comes first; of equal keys, the lesser number. */
export interface Entry {
  readonly card: Card;
  readonly n: number;
  readonly key: number;
  /** The limit on first askings a day that it falls under. */
  readonly limit: Limit | null;
}

type Limit = 'skill' | 'further';
const LIMITS: readonly Limit[] = ['skill', 'further'];

interface Numbered<C extends Card> {
  readonly card: C;
  readonly n: number;
}

/** A line: the cards of it that are learned, all its cards, and the one that is due. */
interface Line {
  readonly learned: Numbered<Card>[];
  readonly all: LineCard[];
  entry: Entry | null;
}

export interface QueueState {
  readonly log: LogState;
  readonly today: number;
  readonly settings: QueueSettings;
  readonly learned: Learned;
  readonly ranks: ReadonlyMap<string, number> | null;
  readonly lines: ReadonlyMap<string, Line>;
  readonly lineOf: ReadonlyMap<string, string>;
  /** By card: the lines of the cards that wait for it. */
  readonly waiting: ReadonlyMap<string, readonly string[]>;
  readonly introduced: Map<string, number>;
  readonly placed: ReadonlySet<string>;
  /** Due cards by pattern, in order. */
  readonly due: Map<string, Entry[]>;
  /**
   * First askings in the order of the cards; those that today has room for; how many there were.
   */
  readonly firsts: Readonly<Record<Limit, Entry[]>>;
  readonly allowed: Record<Limit, readonly Entry[]>;
  readonly begun: Record<Limit, number>;
  /** Lines not met when the day was first looked at, by pattern, in the order of the cards. */
  readonly fresh: ReadonlyMap<string, readonly Numbered<LineCard>[]>;
  /** By pattern: lines met so far whose number is asked. Then: lines new today, lines not met. */
  readonly met: Map<string, number>;
  newToday: number;
  unmet: number;
}

export function queueStateOf(
  cards: readonly Card[],
  log: LogState,
  today: number,
  settings: QueueSettings,
): QueueState {
  const learned = learnedOf(cards, log, settings);
  const plan = settings.plan?.today === today ? settings.plan : null;
  const introduced = new Map(introducedLines(cards.filter(isLineCard), log));
  const placed = placedSince(cards, log, today);
  const fresh = freshOf(learned.cards, introduced);
  const state: QueueState = {
    log,
    today,
    settings,
    learned,
    ranks: plan && new Map(plan.ask.map((id, n) => [id, n])),
    lines: linesOf(cards, learned.cards),
    lineOf: new Map(cards.map(({ id, lineId }) => [id, lineId])),
    waiting: waitingOf(learned.cards),
    introduced,
    placed,
    due: new Map(),
    firsts: { skill: [], further: [] },
    allowed: { skill: [], further: [] },
    begun: { skill: 0, further: 0 },
    fresh,
    met: new Map(),
    newToday: [...introduced].filter(([line, day]) => isNewToday(day, line, today, placed)).length,
    unmet: [...fresh.values()].reduce((sum, list) => sum + list.length, 0),
  };
  for (const { card } of [...state.lines.values()].flatMap((line) => line.learned)) {
    if (card.kind === 'number' && introduced.has(card.lineId)) addTo(state.met, card.pattern, 1);
  }
  for (const line of state.lines.values()) {
    countBegun(state, line, 1);
    line.entry = entryOf(state, line);
    if (line.entry) listFor(state, line.entry).push(line.entry);
  }
  for (const list of state.due.values()) list.sort(inOrder);
  for (const limit of LIMITS) state.firsts[limit].sort(byNumber);
  allow(state);
  return state;
}

/** Does a log continue from this state by answers and met lines alone. */
export function continues(
  { log, today, settings, learned, lineOf }: QueueState,
  next: LogState,
  day: number,
  wanted: QueueSettings,
): boolean {
  const touched = touchedSince(next.touched, log.touched);
  const same =
    touched !== null &&
    day === today &&
    next.model === log.model &&
    next.moved.size + log.moved.size === 0 &&
    settings.targetRecall === wanted.targetRecall &&
    settings.newLinesPerDay === wanted.newLinesPerDay &&
    settings.kinds === wanted.kinds &&
    settings.anchorsOnly === wanted.anchorsOnly &&
    (settings.plan ?? null) === (wanted.plan ?? null);
  if (!same || learned.workedOut.size === 0) return same;
  // If a line that was worked out is now learned by heart, other cards wait for other things.
  const lines = new Set([...learned.workedOut.keys()].map((id) => lineOf.get(id)));
  return touched.every((id) => !lines.has(lineOf.get(id) ?? id));
}

/** Applies the events of a log since this state. */
export function updated(state: QueueState, log: LogState): QueueState {
  const { lines, lineOf, waiting } = state;
  const touched = new Set<string>();
  for (const id of touchedSince(log.touched, state.log.touched) ?? []) {
    touched.add(lineOf.get(id) ?? id);
    for (const line of waiting.get(id) ?? []) touched.add(line);
  }
  if (touched.size === 0) return { ...state, log };
  for (const id of touched) {
    const line = lines.get(id);
    if (line) removeLine(state, line);
  }
  const now = { ...state, log };
  for (const id of touched) {
    const line = lines.get(id);
    if (line) addLine(now, id, line);
  }
  allow(now);
  return now;
}

/** Room for lines that are met today. */
export function roomForFresh({ settings, newToday, unmet }: QueueState): number {
  return Math.min(unmet, Math.max(0, settings.newLinesPerDay - newToday));
}

export function inOrder(a: Entry, b: Entry): number {
  return a.key - b.key || a.n - b.n;
}

function byNumber(a: Entry, b: Entry): number {
  return a.n - b.n;
}

function linesOf(all: readonly Card[], learned: readonly Card[]): ReadonlyMap<string, Line> {
  const lines = new Map<string, Line>();
  const lineOf = (id: string): Line => {
    const line = lines.get(id) ?? { learned: [], all: [], entry: null };
    lines.set(id, line);
    return line;
  };
  for (const card of all) if (isLineCard(card)) lineOf(card.lineId).all.push(card);
  for (const [n, card] of learned.entries()) lineOf(card.lineId).learned.push({ card, n });
  return lines;
}

function waitingOf(cards: readonly Card[]): ReadonlyMap<string, readonly string[]> {
  const waiting = new Map<string, string[]>();
  for (const { after, lineId } of cards)
    for (const id of after) {
      const lines = waiting.get(id);
      if (lines) lines.push(lineId);
      else waiting.set(id, [lineId]);
    }
  return waiting;
}

function freshOf(cards: readonly Card[], introduced: ReadonlyMap<string, number>) {
  const fresh = new Map<string, Numbered<LineCard>[]>();
  for (const [n, card] of cards.entries()) {
    if (!isLineCard(card) || !isFirstOfLine(card) || introduced.has(card.lineId)) continue;
    const list = fresh.get(card.pattern);
    if (list) list.push({ card, n });
    else fresh.set(card.pattern, [{ card, n }]);
  }
  return fresh;
}

function isNewToday(day: number, line: string, today: number, placed: ReadonlySet<string>) {
  return day >= today && !placed.has(line);
}

function addTo(counts: Map<string, number>, key: string, by: number): void {
  counts.set(key, (counts.get(key) ?? 0) + by);
}

/** The card of a line to be asked today. */
function entryOf(state: QueueState, { learned }: Line): Entry | null {
  const { log, today, settings, introduced, ranks } = state;
  const entries = learned.flatMap(({ card, n }): readonly Entry[] => {
    if (ranks) {
      const due = isDueByPlan(card, log, today, settings, introduced, ranks);
      return due ? [{ card, n, key: ranks.get(card.id) ?? -1, limit: null }] : [];
    }
    if (!isDue(card, log, today, settings, introduced)) return [];
    return [{ card, n, key: holdOf(card, log, today), limit: limitOf(card, log) }];
  });
  if (entries.length === 0) return null;
  const due = entries.sort(inOrder).map(({ card }) => card);
  const own = learned.map(({ card }) => card);
  const [chosen] = withoutSiblings(due, own, log, today);
  return entries.find(({ card }) => card === chosen) ?? null;
}

function limitOf(card: Card, log: LogState): Limit | null {
  if (log.memories.has(card.id) || log.moved.has(card.id) || isFirstOfLine(card)) return null;
  return isSkill(card.kind) ? 'skill' : 'further';
}

function countBegun({ log, today, begun }: QueueState, { learned }: Line, by: number): void {
  for (const { card } of learned) {
    const limit = isSkill(card.kind) ? 'skill' : isFurther(card) ? 'further' : null;
    if (limit && log.memories.get(card.id)?.firstDay === today) begun[limit] += by;
  }
}

function listFor({ due, firsts }: QueueState, { card, limit }: Entry): Entry[] {
  if (limit) return firsts[limit];
  const list = due.get(card.pattern) ?? [];
  due.set(card.pattern, list);
  return list;
}

function removeLine(state: QueueState, line: Line): void {
  countBegun(state, line, -1);
  const { entry } = line;
  if (!entry) return;
  remove(listFor(state, entry), entry, entry.limit ? byNumber : inOrder);
  line.entry = null;
}

function addLine(state: QueueState, id: string, line: Line): void {
  introduce(state, id, line);
  countBegun(state, line, 1);
  line.entry = entryOf(state, line);
  if (!line.entry) return;
  insert(listFor(state, line.entry), line.entry, line.entry.limit ? byNumber : inOrder);
}

function introduce(state: QueueState, id: string, line: Line): void {
  const { introduced, log, today, placed, met } = state;
  const before = introduced.get(id);
  const day = introducedLines(line.all, log).get(id);
  if (day === undefined || day === before) return;
  introduced.set(id, day);
  if (before !== undefined && isNewToday(before, id, today, placed)) state.newToday -= 1;
  if (isNewToday(day, id, today, placed)) state.newToday += 1;
  if (before !== undefined) return;
  for (const { card } of line.learned) {
    if (card.kind === 'number') addTo(met, card.pattern, 1);
    if (isLineCard(card) && isFirstOfLine(card)) state.unmet -= 1;
  }
}

/** Allows as many first askings as the day has room for, in order. */
function allow(state: QueueState): void {
  const { firsts, allowed, begun, settings, due } = state;
  const most = firstsADay(settings.newLinesPerDay);
  for (const limit of LIMITS) {
    const before = allowed[limit];
    const now = firsts[limit].slice(0, Math.max(0, most[limit] - begun[limit]));
    const listOf = (entry: Entry) => listFor({ ...state, due }, { ...entry, limit: null });
    for (const one of before) if (!now.includes(one)) remove(listOf(one), one, inOrder);
    for (const one of now) if (!before.includes(one)) insert(listOf(one), one, inOrder);
    allowed[limit] = now;
  }
}
