/**
 * Cards: what a chart asks. A card's id depends only on what the card asks. So memory survives when
 * the chart is computed again or a line's number is corrected.
 */

import {
  anchorBound,
  anchorsIn,
  type Chart,
  type Decimal,
  formatDecimal,
  isPatternId,
  type Line,
  type Pattern,
  type PatternId,
  PRIORITIES,
  patternOf,
  placeKey,
  prioritiesIn,
  toNumber,
} from '../charts/index.ts';
import type { Route, Target } from '../table/index.ts';
import { betweensOf } from './known.ts';
import { type LineKind, SKILL_KINDS, type SkillKind } from './question.ts';
import { ZONES, type Zone, zoneBounds, zoneOf } from './zone.ts';

interface CardBase {
  readonly id: string;
  /**
   * The id of the card's line. Cards of the same line are introduced together and are not asked one
   * right after another. A skill counts as a separate line.
   */
  readonly lineId: string;
  readonly pattern: PatternId;
  readonly zone: Zone;
  /** Index of the line's priority among the three; lines with priority 0 are learned first. */
  readonly priority: number;
  /**
   * Ids of the cards that the player must know before this one is asked; empty if it may be asked
   * first.
   */
  readonly after: readonly string[];
}

/** Asks for one line's number, its window, or how far to trust it. */
export interface LineCard extends CardBase {
  readonly kind: LineKind;
  readonly start: Decimal;
  readonly line: Line;
  /** What a player can interpolate the line's number from; null if the line is an anchor. */
  readonly interpolation: Interpolation | null;
}

/**
 * How a player can work out a line between two anchors. A player who knows both anchors and has the
 * skill also knows the line.
 */
export interface Interpolation {
  /** Ids of the two anchors' number cards. */
  readonly anchors: readonly [string, string];
  /** Id of the skill of working out a number between two anchors. */
  readonly skill: string;
}

/** Asks a new question of one kind, in one zone of a pattern, at each turn. */
export interface SkillCard extends CardBase {
  readonly kind: SkillKind;
}

export type Card = LineCard | SkillCard;

export function isLineCard(card: Card): card is LineCard {
  return 'line' in card;
}

/**
 * Returns all cards of a chart: the cards of its lines in the order in which they are introduced,
 * then its skills. Lines come in the order of the chart's priorities. Within a priority, fewer
 * cushions come first, then anchors before the lines between them, then whole diamonds before
 * halves. Last, the middle of a pattern comes before its ends, where lines are steep or flat and
 * seldom needed.
 * @param tolerance decides which lines are anchors, and so when a skill may first be asked
 */
export function cardsOf(chart: Chart, tolerance: Decimal): readonly Card[] {
  const spans = spansOf(chart, tolerance);
  const rankOf = ranking(chart);
  const lines = inOrderOfMeeting(chart.lines, (line) => [
    rankOf(line),
    cushionsOf(line),
    spanAround(spans, line) ? 1 : 0,
    roundness(line.start),
    fromMiddle(line),
  ]);
  const skills = skillCards(chart, spans, rankOf);
  const asked = new Set(skills.map(({ id }) => id));
  const interpolationOf = (line: Line): Interpolation | null => {
    const span = spanAround(spans, line);
    const skill = skillId(
      chart,
      line.pattern,
      zoneOf(patternOf(line.pattern), line.start),
      BETWEEN,
    );
    if (!span || !asked.has(skill)) return null;
    return { anchors: [numberIdOf(chart, span[0]), numberIdOf(chart, span[1])], skill };
  };
  return [
    ...lines.flatMap((line) => lineCards(chart, line, rankOf(line), interpolationOf(line))),
    ...skills,
  ];
}

/**
 * Sorts lines by their ranks: the first rank that differs decides. Computes each line's ranks once.
 */
function inOrderOfMeeting(
  lines: readonly Line[],
  ranksOf: (line: Line) => readonly number[],
): readonly Line[] {
  return lines
    .map((line) => ({ line, ranks: ranksOf(line) }))
    .sort((a, b) => {
      const n = a.ranks.findIndex((rank, at) => rank !== b.ranks[at]);
      return n < 0 ? 0 : (a.ranks[n] ?? 0) - (b.ranks[n] ?? 0);
    })
    .map(({ line }) => line);
}

const BETWEEN = 'in between' satisfies SkillKind;

/** Two neighboring anchors of a pattern that have starts between them. */
type Span = readonly [Line, Line];
type Spans = ReadonlyMap<PatternId, readonly Span[]>;

function spansOf(chart: Chart, tolerance: Decimal): Spans {
  const of = (pattern: PatternId): readonly Span[] => {
    const { lines, plan } = anchorsIn(chart, pattern, anchorBound(tolerance));
    return plan.spans.map(({ from, to }) => [lines[from] as Line, lines[to] as Line]);
  };
  return new Map(chart.patterns.map((pattern) => [pattern, of(pattern)]));
}

/** Returns the anchors on either side of a line; undefined if the line is an anchor. */
function spanAround(spans: Spans, { pattern, start }: Line): Span | undefined {
  return spans.get(pattern)?.find(([low, high]) => low.start < start && start < high.start);
}

/**
 * Returns the part of an id that stands for the chart's naming. In the other naming a number means
 * a different point, so it has a different card with its own memory.
 */
function suffixOf({ naming }: Chart): string {
  return naming === 'through' ? '' : `/${naming}`;
}

/** Returns the id of a line in the log, used for its cards, notes and flags. */
export function lineIdOf(chart: Chart, line: Line): string {
  const { shared, document } = chart;
  return lineIdIn(shared?.lines.has(placeKey(line)) ? shared.chart : document.id, chart, line);
}

function lineIdIn(chartId: string, chart: Chart, line: Line): string {
  const start = formatDecimal(line.start, 0);
  return `${chartId}/${line.pattern}/${start}/${targetId(patternOf(line.pattern))}${suffixOf(chart)}`;
}

/** Returns the pattern that a card's id names; null if this version has no such pattern. */
export function patternIn(cardId: string): PatternId | null {
  // Folding a long log does this often, so parts behind the pattern are not cut out.
  for (let from = 0, to = 0; to >= 0; from = to + 1) {
    to = cardId.indexOf('/', from);
    const part = cardId.slice(from, to < 0 ? undefined : to);
    if (isPatternId(part)) return part;
  }
  return null;
}

/**
 * Returns the id of a line's number card. The player must know that card before the line's other
 * cards and skills.
 */
export function numberIdOf(chart: Chart, line: Line): string {
  return `${lineIdOf(chart, line)}/medium/number`;
}

function lineCards(
  chart: Chart,
  line: Line,
  priority: number,
  interpolation: Interpolation | null,
): readonly Card[] {
  const lineId = lineIdOf(chart, line);
  const { pattern, start } = line;
  const zone = zoneOf(patternOf(pattern), start);
  const number = numberIdOf(chart, line);
  const card = (kind: LineKind, after: readonly string[]): LineCard => {
    // How far to trust a line depends on the table, even if another chart shares the line's number.
    const owner = kind === 'trust' ? lineIdIn(chart.document.id, chart, line) : lineId;
    const id = `${owner}/medium/${kind}`;
    return { kind, id, lineId, pattern, zone, priority, start, line, interpolation, after };
  };
  const cards = [card('number', []), card('window', [number])];
  return patternOf(pattern).target.kind === 'pocket' ? [...cards, card('trust', [number])] : cards;
}

function skillId(chart: Chart, pattern: PatternId, zone: Zone, kind: SkillKind): string {
  const owner = chart.shared?.chart ?? chart.document.id;
  return `${owner}/${pattern}/${zone}/${kind}${suffixOf(chart)}`;
}

function skillCards(chart: Chart, spans: Spans, rankOf: (line: Line) => number): readonly Card[] {
  return chart.patterns.flatMap((pattern) => {
    const needs = needsOf(chart, pattern, spans.get(pattern) ?? []);
    return SKILL_KINDS.flatMap((kind) =>
      ZONES.flatMap((zone): SkillCard[] => {
        const needed = needs[kind](zone);
        if (needed.length === 0) return [];
        const id = skillId(chart, pattern, zone, kind);
        const after = needed.map((line) => numberIdOf(chart, line));
        const priority = Math.min(...needed.map(rankOf));
        return [{ kind, id, lineId: id, pattern, zone, priority, after }];
      }),
    );
  });
}

/**
 * For each skill and zone, the lines with the numbers that the skill builds on; empty if there is
 * nothing to ask.
 */
type Needs = Readonly<Record<SkillKind, (zone: Zone) => readonly Line[]>>;

function needsOf(chart: Chart, id: PatternId, spans: readonly Span[]): Needs {
  const pattern = patternOf(id);
  const within = (start: Decimal, zone: Zone) => zoneOf(pattern, start) === zone;
  const betweens = betweensOf(chart, id, 'medium');
  const middleOf = <T>(list: readonly T[]): readonly T[] =>
    list.slice(Math.floor(list.length / 2)).slice(0, 1);
  const beside = (zone: Zone) =>
    middleOf(betweens.filter((between) => within(between.start, zone))).flatMap((between) =>
      between.known.flatMap((known) => known.line ?? []),
    );
  return {
    arrival: beside,
    'in between': (zone) => anchorsAround(pattern, spans, zone),
    'rail ball': beside,
    'off the rail': beside,
  };
}

/** Returns the anchors of all spans that reach into a zone. */
function anchorsAround(pattern: Pattern, spans: readonly Span[], zone: Zone): readonly Line[] {
  const [from, to] = zoneBounds(pattern, zone);
  const used = spans
    .filter(([low, high]) => Math.max(low.start, from) < Math.min(high.start, to))
    .flat();
  return [...new Set(used)].sort((a, b) => a.start - b.start);
}

function targetId(route: Route): string {
  const target: Target = route.target;
  if (target.kind === 'pocket') return target.pocket;
  const { count, diamond, off } = target;
  const stands = off === undefined ? '' : `-off-${off}`;
  return `${count.rail}-from-${count.from}-${diamond}${stands}`;
}

/** Returns a function that gives the index of a line's priority among the three. */
function ranking({ state }: Chart): (line: Line) => number {
  const priorityOf = prioritiesIn(state);
  return (line) => PRIORITIES.indexOf(priorityOf(line));
}

function cushionsOf(line: Line): number {
  return patternOf(line.pattern).cushions.length;
}

/** Returns the distance from a line's start to the middle of its pattern's starts, in diamonds. */
function fromMiddle(line: Line): number {
  const [first, last] = patternOf(line.pattern).starts;
  return Math.abs(toNumber(line.start) - (first + last) / 2);
}

/** Returns 0 for whole diamonds, 1 for halves and 2 for all other starts. */
function roundness(start: Decimal): number {
  if (start % 10_000 === 0) return 0;
  return start % 5_000 === 0 ? 1 : 2;
}
