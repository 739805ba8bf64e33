/** What the players learn: the demo club's chart, by heart or by its anchors. */

import { cardsOf, numberIdOf } from '../src/cards/index.ts';
import {
  anchorBound,
  anchorsOf,
  type ChartDocument,
  computeChart,
  HARBOUR_LANE,
  type Line,
  toDecimal,
} from '../src/charts/index.ts';
import type { InterpolatedLine } from '../src/scheduler/index.ts';

export interface Task {
  readonly id: string;
  readonly after: readonly string[];
}

/** Lines to know on the day, all of the same weight. */
export interface Course {
  readonly tasks: readonly Task[];
  /** Tasks that are lines. */
  readonly lines: readonly string[];
  readonly interpolated: readonly InterpolatedLine[];
}

const TOLERANCE = toDecimal(0.1);

/** Every line by heart, and the same lines by anchors and skills. */
export interface Courses {
  readonly byHeart: Course;
  readonly byAnchors: Course;
}

/** The first six patterns, one line every half diamond. */
export function halves(): Courses {
  return coursesOf(HARBOUR_LANE, 6);
}

/** The first three patterns, one line every quarter. */
export function quarters(): Courses {
  return coursesOf({ ...HARBOUR_LANE, startStep: toDecimal(0.25) }, 3);
}

function coursesOf(document: ChartDocument, first: number): Courses {
  const chart = computeChart(document);
  const patterns = chart.patterns.slice(0, first);
  const cards = cardsOf(chart, TOLERANCE).filter(({ pattern }) => patterns.includes(pattern));
  const numbers = cards.filter(({ kind }) => kind === 'number').map(({ id }) => id);
  const skills = cards.filter(({ kind }) => kind === 'in between');
  const interpolated = patterns.flatMap((pattern) => {
    const lines = chart.lines.filter((line) => line.pattern === pattern);
    const idAt = (n: number): string => numberIdOf(chart, lines[n] as Line);
    return anchorsOf(lines, anchorBound(TOLERANCE)).spans.flatMap(({ from, to, derived }) =>
      derived.map(({ index }): InterpolatedLine => {
        const id = idAt(index);
        const zone = cards.find((card) => card.id === id)?.zone;
        const skill = skills.find((card) => card.pattern === pattern && card.zone === zone);
        if (!skill) throw new Error(`no skill works out ${id}`);
        return { id, weight: 1, anchors: [idAt(from), idAt(to)], skill: skill.id };
      }),
    );
  });
  const spared = new Set(interpolated.map(({ id }) => id));
  const anchors = numbers.filter((id) => !spared.has(id));
  const used = new Set(interpolated.map(({ skill }) => skill));
  const task = (id: string): Task => ({ id, after: [] });
  return {
    byHeart: { tasks: numbers.map(task), lines: numbers, interpolated: [] },
    byAnchors: {
      tasks: [...anchors.map(task), ...skills.filter(({ id }) => used.has(id))],
      lines: anchors,
      interpolated,
    },
  };
}
