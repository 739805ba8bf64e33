/** A pattern in placement: its lines as they stand in the log, its anchors, and its answers so far. */

import { type Card, isLineCard, type LineCard } from '../../cards/index.ts';
import { anchorBound, anchorsOf, type Chart, type PatternId } from '../../charts/index.ts';
import { dueDay, type LogState } from '../../scheduler/index.ts';
import type { Settings } from '../../store/index.ts';
import { askerFor } from '../stage/questions.ts';
import {
  type PlacementAnswer,
  type PlacementPlan,
  placementPlan,
  type Standing,
} from './placement.ts';

export interface Course {
  readonly pattern: PatternId;
  /** The number cards of the pattern's lines, by ascending start. */
  readonly cards: readonly LineCard[];
  /** How each stood when it was last looked at; what placement has written since is left out. */
  readonly lines: readonly Standing[];
  /** Positions of the anchors at the tolerance in force. */
  readonly anchors: readonly number[];
  readonly answers: readonly PlacementAnswer[];
}

/** What courses are made from. */
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
  const lines = cards.map((card) => standingOf(card, log));
  return { pattern, cards, lines, anchors: plan.chosen, answers: [] };
}

function numberCards(cards: readonly Card[], pattern: PatternId): readonly LineCard[] {
  return cards
    .filter(isLineCard)
    .filter((card) => card.pattern === pattern && card.kind === 'number')
    .sort((a, b) => a.start - b.start);
}

export function standingOf({ id, lineId }: LineCard, log: LogState): Standing {
  if (log.aside.has(lineId)) return 'apart';
  const memory = log.memories.get(id);
  // One that only followed from others was never asked: nothing follows from it in turn.
  if (memory) return memory.lastOutcome !== 'off' && memory.answers > 0 ? 'known' : 'apart';
  return log.met.has(lineId) ? 'apart' : 'new';
}

export function planOf({ lines, anchors, answers }: Course): PlacementPlan {
  return placementPlan(lines, anchors, answers);
}

/** The course with its untouched lines looked at again: another tab may have asked them. */
export function lookAgain(course: Course, log: LogState): Course {
  const { proven, implied } = planOf(course);
  const touched = new Set([...proven, ...implied, ...course.answers.map(({ line }) => line)]);
  const lines = course.lines.map((standing, n) =>
    touched.has(n) ? standing : standingOf(course.cards[n] as LineCard, log),
  );
  return { ...course, lines };
}

/** How a pattern stands before placement, for the list to choose from. */
export interface Choosable {
  readonly pattern: PatternId;
  readonly lines: number;
  readonly anchors: number;
  /** Lines that are in memory or met already. */
  readonly begun: number;
  /** Questions it takes at most; 0 if there is nothing to prove. */
  readonly most: number;
  /** Chosen unless the player says otherwise: nothing of it was met, or placement was broken off. */
  readonly wanted: boolean;
}

/** The chart's patterns: those to go on with, those of which nothing was met, then the others. */
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
    const brokenOff = most > 0 && course.cards.some(({ id }) => proved.has(id));
    const rank = brokenOff ? 0 : begun === 0 && most > 0 ? 1 : most > 0 ? 2 : 3;
    const lines = course.cards.length;
    const { anchors } = course;
    return { pattern, lines, anchors: anchors.length, begun, most, wanted: rank < 2, rank };
  });
  return all.sort((a, b) => a.rank - b.rank).map(({ rank: _, ...one }) => one);
}

/** What placement has made of a pattern. */
export interface PlacedPattern {
  readonly pattern: PatternId;
  /** Nothing more is asked of it. */
  readonly finished: boolean;
  readonly proven: readonly LineCard[];
  readonly implied: readonly LineCard[];
  readonly left: readonly LineCard[];
}

export interface Placed {
  /** Those in which something was asked. */
  readonly patterns: readonly PlacedPattern[];
  readonly proven: number;
  readonly implied: number;
  /** Days from today until the first and the last of them are asked again; null if there are none. */
  readonly again: readonly [number, number] | null;
}

/** What has come of the courses so far. Of what follows, only what is in the log counts. */
export function placedBy(
  courses: readonly Course[],
  log: LogState,
  today: number,
  targetRecall: number,
): Placed {
  const patterns = courses
    .filter(({ answers }) => answers.length > 0)
    .map((one) => placed(one, log));
  const entered = patterns.flatMap(({ proven, implied }) => [...proven, ...implied]);
  const days = entered.flatMap(({ id }) => {
    const memory = log.memories.get(id);
    return memory ? [Math.max(0, dueDay(memory, targetRecall, log.model) - today)] : [];
  });
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
