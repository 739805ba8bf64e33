import type { Count, Route, Stroke, Target } from '../../table/index.ts';

/**
 * A pattern, as data. To add a pattern, add an entry to `PATTERNS`. Seen with the foot rail at the
 * top, the start is on the left long rail unless the name says otherwise. Numbers on the first
 * cushion count from the corner nearest the start (docs/numbers.md explains the conventions).
 */
export interface Pattern extends Route {
  readonly id: string;
  /** The name by which players call the pattern. */
  readonly name: string;
  /** The path, in one sentence. */
  readonly path: string;
  /** The first and the last start diamond; both belong to the pattern. */
  readonly starts: readonly [number, number];
  /** The rail to which the same path can kick, and how its diamonds are counted. */
  readonly kicks: Count;
  /** How the ball is struck, if not in the center. */
  readonly stroke?: Stroke;
}

const leftFromFoot: Count = { rail: 'left', from: 'foot' };
const rightFromFoot: Count = { rail: 'right', from: 'foot' };
const rightFromHead: Count = { rail: 'right', from: 'head' };
const footFromLeft: Count = { rail: 'foot', from: 'left' };
const footFromRight: Count = { rail: 'foot', from: 'right' };
const headFromLeft: Count = { rail: 'head', from: 'left' };
const headFromRight: Count = { rail: 'head', from: 'right' };
/**
 * The running side of a three-cushion shot: a tip and a half, a little less than half the radius.
 */
const RUNNING: Stroke = { running: 0.4 };

function pocket(name: Extract<Target, { kind: 'pocket' }>['pocket']): Target {
  return { kind: 'pocket', pocket: name };
}

export const PATTERNS = [
  {
    id: 'foot-to-side',
    name: 'Foot rail to side',
    path: 'From the long rail, off the foot rail, into the side pocket across.',
    start: leftFromFoot,
    aim: footFromLeft,
    cushions: ['foot'],
    target: pocket('right-side'),
    kicks: rightFromFoot,
    starts: [1, 8],
  },
  {
    id: 'foot-to-far-corner',
    name: 'Foot rail to far corner',
    path: 'From the long rail, off the foot rail, the length of the table into the far corner.',
    start: leftFromFoot,
    aim: footFromLeft,
    cushions: ['foot'],
    target: pocket('head-right'),
    kicks: headFromLeft,
    starts: [1, 8],
  },
  {
    id: 'cross-side',
    name: 'Cross-side',
    path: 'From the long rail, off the long rail across, back into the near side pocket.',
    start: leftFromFoot,
    aim: rightFromFoot,
    cushions: ['right'],
    target: pocket('left-side'),
    kicks: leftFromFoot,
    starts: [5, 8],
  },
  {
    id: 'cross-corner',
    name: 'Cross-corner',
    path: 'From the long rail, off the long rail across, back into the near corner.',
    start: leftFromFoot,
    aim: rightFromFoot,
    cushions: ['right'],
    target: pocket('foot-left'),
    kicks: footFromLeft,
    starts: [1, 6],
  },
  {
    id: 'long-rail-to-side',
    name: 'Foot to side off the long rail',
    path: 'From the foot rail, off the long rail, into the side pocket across.',
    start: footFromRight,
    aim: rightFromFoot,
    cushions: ['right'],
    target: pocket('left-side'),
    kicks: leftFromFoot,
    starts: [1, 3.5],
  },
  {
    id: 'long-rail-to-far-corner',
    name: 'Foot to far corner off the long rail',
    path: 'From the foot rail, off the long rail, the length of the table into the far corner.',
    start: footFromRight,
    aim: rightFromFoot,
    cushions: ['right'],
    target: pocket('head-left'),
    kicks: headFromRight,
    starts: [0.5, 3.5],
  },
  {
    id: 'up-and-back',
    name: 'Up and back',
    path: 'From the head rail, off the foot rail, back into the head corner.',
    start: headFromLeft,
    aim: footFromLeft,
    cushions: ['foot'],
    target: pocket('head-right'),
    kicks: headFromLeft,
    starts: [0.5, 3.5],
  },
  {
    id: 'short-long-to-side',
    name: 'Short, long, to side',
    path: 'From the long rail, off the foot rail and the long rail across, into the near side pocket.',
    start: leftFromFoot,
    aim: footFromLeft,
    cushions: ['foot', 'right'],
    target: pocket('left-side'),
    kicks: leftFromFoot,
    starts: [1, 3],
  },
  {
    id: 'short-long-to-corner',
    name: 'Short, long, to corner',
    path: 'From the long rail, off the foot rail and the long rail across, into the near head corner.',
    start: leftFromFoot,
    aim: footFromLeft,
    cushions: ['foot', 'right'],
    target: pocket('head-left'),
    kicks: leftFromFoot,
    starts: [1, 5.5],
  },
  {
    id: 'long-short-to-side',
    name: 'Long, short, to side',
    path: 'From the long rail, off the long rail across and the foot rail, into the near side pocket.',
    start: leftFromFoot,
    aim: rightFromFoot,
    cushions: ['right', 'foot'],
    target: pocket('left-side'),
    kicks: leftFromFoot,
    starts: [5.5, 8],
  },
  {
    id: 'long-short-to-corner',
    name: 'Long, short, to corner',
    path: 'From the head rail, off the long rail and the foot rail, back into the head corner.',
    start: headFromRight,
    aim: rightFromHead,
    cushions: ['right', 'foot'],
    target: pocket('head-left'),
    kicks: leftFromFoot,
    starts: [0.5, 3],
  },
  {
    id: 'three-cushion',
    name: 'Three cushions, long, short, long',
    path: 'With running side, off the long rail across, the foot rail and the near long rail.',
    start: leftFromFoot,
    aim: rightFromFoot,
    cushions: ['right', 'foot', 'left'],
    target: pocket('head-right'),
    kicks: rightFromFoot,
    starts: [4, 8],
    stroke: RUNNING,
  },
] as const satisfies readonly Pattern[];

export type PatternId = (typeof PATTERNS)[number]['id'];

const byId = new Map<string, Pattern>(PATTERNS.map((pattern) => [pattern.id, pattern]));

/**
 * Returns the pattern with an id.
 * @throws if there is no such pattern; check ids from outside with `isPatternId` first
 */
export function patternOf(id: PatternId): Pattern {
  const pattern = byId.get(id);
  if (!pattern) throw new Error(`no pattern ${id}`);
  return pattern;
}

export function isPatternId(id: string): id is PatternId {
  return byId.has(id);
}

/**
 * Returns the pattern as a kick to a ball at a diamond of its rail, in the pattern's own count.
 * @param off the distance from the nose of the rail to the ball's center, in meters; if left out,
 *   the ball is frozen to the rail
 */
export function kickTo(pattern: Pattern, diamond: number, off?: number): Pattern {
  const target = { kind: 'rail', count: pattern.kicks, diamond } as const;
  return { ...pattern, target: off === undefined ? target : { ...target, off } };
}
