/**
 * A pattern in placement: the state of its lines in the log, its anchors, and the answers so far.
 */

import { type Card, isLineCard, type LineCard } from '../../cards/index.ts';
import { anchorBound, anchorsOf, type Chart, type PatternId } from '../../charts/index.ts';
import { daysUntilBack, type LogState } from '../../scheduler/index.ts';
import type { Settings } from '../../store/index.ts';
import { stepsADay, wishOf } from '../daily/wish.ts';
import type { SessionPorts } from '../stage/ports.ts';
import { askerFor } from '../stage/questions.ts';
import {
  type LineState,
  type PlacementAnswer,
  type PlacementPlan,
  placementPlan,
} from './placement.ts';

export interface Course {
  readonly pattern: PatternId;
  /** The cards that ask the numbers of the pattern's lines, ordered by ascending start. */
  readonly cards: readonly LineCard[];
  /**
   * The state of each line when the log was last read. It leaves out what placement has written
   * since.
   */
  readonly lines: readonly LineState[];
  /** The positions of the anchors at the current tolerance, as indexes into `cards`. */
  readonly anchors: readonly number[];
  readonly answers: readonly PlacementAnswer[];
}

export interface CourseSources {
  readonly chart: Chart;
  readonly cards: readonly Card[];
  readonly log: LogState;
  readonly settings: Settings;
}

export function courseFor(sources: CourseSources, pattern: PatternId): Course {
  const { chart, log, settings } = sources;
  const cards = numberCards(sources.cards, pattern);
  const bound = anchorBound(askerFor(chart, settings).tolerance);
  const plan = anchorsOf(
    cards.map((card) => card.line),
    bound,
  );
  const lines = cards.map((card) => lineStateOf(card, log));
  return { pattern, cards, lines, anchors: plan.chosen, answers: [] };
}

function numberCards(cards: readonly Card[], pattern: PatternId): readonly LineCard[] {
  return cards
    .filter(isLineCard)
    .filter((card) => card.pattern === pattern && card.kind === 'number')
    .sort((a, b) => a.start - b.start);
}

export function lineStateOf({ id, lineId }: LineCard, log: LogState): LineState {
  if (log.aside.has(lineId)) return 'excluded';
  const memory = log.memories.get(id);
  // A line whose answer was only implied was never asked, so nothing may be inferred from it.
  if (memory) return memory.lastOutcome !== 'off' && memory.answers > 0 ? 'known' : 'excluded';
  return log.met.has(lineId) ? 'excluded' : 'new';
}

export function planOf({ lines, anchors, answers }: Course): PlacementPlan {
  return placementPlan(lines, anchors, answers);
}

/** Rereads the lines that placement has not touched, because another tab may have asked them. */
export function refreshed(course: Course, log: LogState): Course {
  const { proven, implied } = planOf(course);
  const touched = new Set([...proven, ...implied, ...course.answers.map(({ line }) => line)]);
  const lines = course.lines.map((state, n) =>
    touched.has(n) ? state : lineStateOf(course.cards[n] as LineCard, log),
  );
  return { ...course, lines };
}

/** A pattern before placement, as shown in the list of patterns to choose from. */
export interface Choosable {
  readonly pattern: PatternId;
  readonly lines: number;
  readonly anchors: number;
  /** How many lines the player has met or answered. */
  readonly begun: number;
  /** The most questions that placement of this pattern takes; 0 if there is nothing to prove. */
  readonly most: number;
  /**
   * Whether the pattern is chosen by default: either none of its lines was met, or its placement
   * was interrupted.
   */
  readonly wanted: boolean;
}

/** Returns the chart's patterns in this order: those to continue, those never met, the others. */
export function choosable(sources: CourseSources): readonly Choosable[] {
  const { chart, log } = sources;
  const proved = new Set(
    [...log.events].flatMap((one) => (one.type === 'proved' ? [one.card] : [])),
  );
  const all = chart.patterns.map((pattern) => {
    const course = courseFor(sources, pattern);
    const begun = course.cards.filter(
      ({ id, lineId }) => log.memories.has(id) || log.met.has(lineId),
    ).length;
    const { most } = planOf(course);
    const interrupted = most > 0 && course.cards.some(({ id }) => proved.has(id));
    const rank = interrupted ? 0 : begun === 0 && most > 0 ? 1 : most > 0 ? 2 : 3;
    const lines = course.cards.length;
    const { anchors } = course;
    return { pattern, lines, anchors: anchors.length, begun, most, wanted: rank < 2, rank };
  });
  return all.sort((a, b) => a.rank - b.rank).map(({ rank: _, ...one }) => one);
}

/** The result of placement for a pattern. */
export interface PlacedPattern {
  readonly pattern: PatternId;
  /** Whether the pattern has no more questions. */
  readonly finished: boolean;
  readonly proven: readonly LineCard[];
  readonly implied: readonly LineCard[];
  readonly left: readonly LineCard[];
}

export interface Placed {
  /** The patterns with at least one question. */
  readonly patterns: readonly PlacedPattern[];
  readonly proven: number;
  readonly implied: number;
  /**
   * Days from today until the first and the last of these lines come back; null if there are no such
   * lines.
   */
  readonly again: readonly [number, number] | null;
}

/** Returns the result so far. Implied lines count only if they are in the log. */
export function placedBy(
  courses: readonly Course[],
  { cards, ...ports }: SessionPorts & { readonly cards: readonly Card[] },
): Placed {
  const log = ports.log.value;
  const settings = ports.settings.value;
  const today = ports.today();
  const patterns = courses
    .filter(({ answers }) => answers.length > 0)
    .map((one) => placed(one, log));
  const entered = patterns.flatMap(({ proven, implied }) => [...proven, ...implied]);
  const ids = new Set(entered.map(({ id }) => id));
  const steps = stepsADay(settings, log, today);
  const back = daysUntilBack(cards, log, today, wishOf(settings), steps, ids);
  const days = [...back.values()];
  const sum = (of: 'proven' | 'implied') =>
    patterns.reduce((total, pattern) => total + pattern[of].length, 0);
  return {
    patterns,
    proven: sum('proven'),
    implied: sum('implied'),
    again: days.length === 0 ? null : [Math.min(...days), Math.max(...days)],
  };
}

function placed(course: Course, log: LogState): PlacedPattern {
  const { next, proven, implied, left } = planOf(course);
  const cardsAt = (lines: readonly number[]) => lines.map((line) => course.cards[line] as LineCard);
  const written = ({ id }: LineCard) => log.memories.has(id);
  const follow = cardsAt(implied);
  return {
    pattern: course.pattern,
    finished: next === null,
    proven: cardsAt(proven),
    implied: follow.filter(written),
    left: [...cardsAt(left), ...follow.filter((card) => !written(card))],
  };
}
