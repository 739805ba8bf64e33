import type { Count, Rail, Route, Target } from '../table/index.ts';

/**
 * The patterns, as data: adding one is one entry. Seen with the foot rail at the top; the start is
 * on the left long rail unless the name says otherwise. Numbers on the first cushion count from the
 * corner nearest the start side (the conventions are written out in README.md).
 */
export interface Pattern extends Route {
  readonly id: string;
  /** What the players call it. */
  readonly name: string;
  /** One sentence that says the path. */
  readonly path: string;
  /** First and last start diamond, inclusive. */
  readonly starts: readonly [number, number];
}

const leftFromFoot: Count = { rail: 'left', from: 'foot' };
const rightFromFoot: Count = { rail: 'right', from: 'foot' };
const footFromLeft: Count = { rail: 'foot', from: 'left' };

function pocket(name: Extract<Target, { kind: 'pocket' }>['pocket']): Target {
  return { kind: 'pocket', pocket: name };
}

function off(rail: Rail): readonly [Rail] {
  return [rail];
}

export const PATTERNS = [
  {
    id: 'foot-to-side',
    name: 'Foot rail to side',
    path: 'From the long rail, off the foot rail, into the side pocket across.',
    start: leftFromFoot,
    aim: footFromLeft,
    cushions: off('foot'),
    target: pocket('right-side'),
    starts: [1, 8],
  },
  {
    id: 'foot-to-far-corner',
    name: 'Foot rail to far corner',
    path: 'From the long rail, off the foot rail, the length of the table into the far corner.',
    start: leftFromFoot,
    aim: footFromLeft,
    cushions: off('foot'),
    target: pocket('head-right'),
    starts: [1, 8],
  },
  {
    id: 'cross-side',
    name: 'Cross-side',
    path: 'From the long rail, off the long rail across, back into the near side pocket.',
    start: leftFromFoot,
    aim: rightFromFoot,
    cushions: off('right'),
    target: pocket('left-side'),
    starts: [5, 8],
  },
  {
    id: 'cross-corner',
    name: 'Cross-corner',
    path: 'From the long rail, off the long rail across, back into the near corner.',
    start: leftFromFoot,
    aim: rightFromFoot,
    cushions: off('right'),
    target: pocket('foot-left'),
    starts: [1, 6],
  },
] as const satisfies readonly Pattern[];

export type PatternId = (typeof PATTERNS)[number]['id'];
