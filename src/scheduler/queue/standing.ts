/**
 * How cards stand on a day, kept up to date event by event: which are due, by pattern and in order,
 * and which lines may be met. The same as `agendaFor` says (queue.ts), of which the rules are.
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

/** A card that is due. Of two the lesser key comes first, of equal ones the lesser number. */
export interface Entry {
  readonly card: Card;
  readonly n: number;
  readonly key: number;
  /** It is a first asking, of which there are so many a day. */
  readonly limit: Limit | null;
}

type Limit = 'skill' | 'further';
const LIMITS: readonly Limit[] = ['skill', 'further'];

interface Numbered<C extends Card> {
  readonly card: C;
  readonly n: number;
}

/** What is known of a line: its cards that are learned, and all; what of it is due. */
interface Line {
  readonly learned: Numbered<Card>[];
  readonly all: LineCard[];
  entry: Entry | null;
}

export interface Standing {
  readonly log: LogState;
  readonly today: number;
  readonly settings: QueueSettings;
  readonly learned: Learned;
  readonly ranks: ReadonlyMap<string, number> | null;
  readonly lines: ReadonlyMap<string, Line>;
  readonly lineOf: ReadonlyMap<string, string>;
  /** Lines of cards that wait for a card. */
  readonly waiting: ReadonlyMap<string, readonly string[]>;
  readonly introduced: Map<string, number>;
  readonly placed: ReadonlySet<string>;
  /** Due, by pattern, in order. */
  readonly due: Map<string, Entry[]>;
  /** First askings in the order of the cards, those of them that today has room for, and how many were. */
  readonly firsts: Readonly<Record<Limit, Entry[]>>;
  readonly allowed: Record<Limit, readonly Entry[]>;
  readonly begun: Record<Limit, number>;
  /** Lines not met, by pattern, in the order of the cards; among them some that were met since. */
  readonly fresh: ReadonlyMap<string, readonly Numbered<LineCard>[]>;
  /** Lines met so far, by pattern, of those whose number is asked; and how many are new today. */
  readonly met: Map<string, number>;
  newToday: number;
  unmet: number;
}

export function standingOf(
  cards: readonly Card[],
  log: LogState,
  today: number,
  settings: QueueSettings,
): Standing {
  const learned = learnedOf(cards, log, settings);
  const plan = settings.plan?.today === today ? settings.plan : null;
  const introduced = new Map(introducedLines(cards.filter(isLineCard), log));
  const placed = placedSince(cards, log, today);
  const fresh = freshOf(learned.cards, introduced);
  const standing: Standing = {
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
  for (const { card } of [...standing.lines.values()].flatMap((line) => line.learned)) {
    if (card.kind === 'number' && introduced.has(card.lineId)) addTo(standing.met, card.pattern, 1);
  }
  for (const line of standing.lines.values()) {
    countBegun(standing, line, 1);
    line.entry = entryOf(standing, line);
    if (line.entry) listFor(standing, line.entry).push(line.entry);
  }
  for (const list of standing.due.values()) list.sort(inOrder);
  for (const limit of LIMITS) standing.firsts[limit].sort(byNumber);
  allow(standing);
  return standing;
}

/** Does a log go on from what is stood on, by answers and met lines alone. */
export function goesOn(
  { log, today, settings, learned, lineOf }: Standing,
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
  // A line that was worked out and is learned by heart from now on changes what others wait for.
  const lines = new Set([...learned.workedOut.keys()].map((id) => lineOf.get(id)));
  return touched.every((id) => !lines.has(lineOf.get(id) ?? id));
}

/** Takes in what a log has told since. */
export function caughtUp(standing: Standing, log: LogState): Standing {
  const { lines, lineOf, waiting } = standing;
  const touched = new Set<string>();
  for (const id of touchedSince(log.touched, standing.log.touched) ?? []) {
    touched.add(lineOf.get(id) ?? id);
    for (const line of waiting.get(id) ?? []) touched.add(line);
  }
  if (touched.size === 0) return { ...standing, log };
  for (const id of touched) {
    const line = lines.get(id);
    if (line) takeOut(standing, line);
  }
  const now = { ...standing, log };
  for (const id of touched) {
    const line = lines.get(id);
    if (line) putIn(now, id, line);
  }
  allow(now);
  return now;
}

/** Room for lines that are met today. */
export function roomForFresh({ settings, newToday, unmet }: Standing): number {
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

/** What of a line is to be asked today. */
function entryOf(standing: Standing, { learned }: Line): Entry | null {
  const { log, today, settings, introduced, ranks } = standing;
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

function countBegun({ log, today, begun }: Standing, { learned }: Line, by: number): void {
  for (const { card } of learned) {
    const limit = isSkill(card.kind) ? 'skill' : isFurther(card) ? 'further' : null;
    if (limit && log.memories.get(card.id)?.firstDay === today) begun[limit] += by;
  }
}

function listFor({ due, firsts }: Standing, { card, limit }: Entry): Entry[] {
  if (limit) return firsts[limit];
  const list = due.get(card.pattern) ?? [];
  due.set(card.pattern, list);
  return list;
}

function takeOut(standing: Standing, line: Line): void {
  countBegun(standing, line, -1);
  const { entry } = line;
  if (!entry) return;
  remove(listFor(standing, entry), entry, entry.limit ? byNumber : inOrder);
  line.entry = null;
}

function putIn(standing: Standing, id: string, line: Line): void {
  introduce(standing, id, line);
  countBegun(standing, line, 1);
  line.entry = entryOf(standing, line);
  if (!line.entry) return;
  insert(listFor(standing, line.entry), line.entry, line.entry.limit ? byNumber : inOrder);
}

function introduce(standing: Standing, id: string, line: Line): void {
  const { introduced, log, today, placed, met } = standing;
  const before = introduced.get(id);
  const day = introducedLines(line.all, log).get(id);
  if (day === undefined || day === before) return;
  introduced.set(id, day);
  if (before !== undefined && isNewToday(before, id, today, placed)) standing.newToday -= 1;
  if (isNewToday(day, id, today, placed)) standing.newToday += 1;
  if (before !== undefined) return;
  for (const { card } of line.learned) {
    if (card.kind === 'number') addTo(met, card.pattern, 1);
    if (isLineCard(card) && isFirstOfLine(card)) standing.unmet -= 1;
  }
}

/** Lets the first of the first askings in, as many as the day has room for. */
function allow(standing: Standing): void {
  const { firsts, allowed, begun, settings, due } = standing;
  const most = firstsADay(settings.newLinesPerDay);
  for (const limit of LIMITS) {
    const before = allowed[limit];
    const now = firsts[limit].slice(0, Math.max(0, most[limit] - begun[limit]));
    const listOf = (entry: Entry) => listFor({ ...standing, due }, { ...entry, limit: null });
    for (const one of before) if (!now.includes(one)) remove(listOf(one), one, inOrder);
    for (const one of now) if (!before.includes(one)) insert(listOf(one), one, inOrder);
    allowed[limit] = now;
  }
}
