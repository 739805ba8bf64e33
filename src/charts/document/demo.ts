/** The demo charts: charts of an invented club's tables, as its instructor teaches them. */

import { CLUB_CLOTH, CONDITIONS } from '../../table/index.ts';
import { toDecimal } from './decimal.ts';
import { type ChartDocument, emptyState } from './document.ts';
import { PATTERNS } from './patterns.ts';

const FIRST_FOUR = PATTERNS.slice(0, 4).map((pattern) => pattern.id);

export const HARBOUR_LANE: ChartDocument = {
  kind: 'throughline-chart',
  version: 2,
  id: 'harbour-lane-9ft',
  name: 'Harbour Lane, 9 ft league table',
  table: '9ft',
  startStep: toDecimal(0.5),
  printStep: toDecimal(0.1),
  basis: 'computed',
  earlier: [],
  revisions: [
    {
      number: 1,
      date: '2026-09-07',
      author: 'Harbour Lane instruction',
      why: 'First chart of the league table, worn cloth.',
      ...emptyState({ ...CLUB_CLOTH, restitution: 0.84, slideFriction: 0.2 }),
      patterns: FIRST_FOUR,
    },
    {
      number: 2,
      date: '2026-11-02',
      author: 'Harbour Lane instruction',
      why: 'New cloth and livelier cushions: the foot-rail lines had come out long.',
      ...emptyState(CLUB_CLOTH),
      patterns: FIRST_FOUR,
    },
    {
      number: 3,
      date: '2026-11-23',
      author: 'Harbour Lane instruction',
      why: 'The other families join: off the long rail, up and back, two and three cushions. No number moved.',
      ...emptyState(CLUB_CLOTH),
      patterns: PATTERNS.map((pattern) => pattern.id),
    },
  ],
};

export const HARBOUR_LANE_BAR: ChartDocument = {
  kind: 'throughline-chart',
  version: 2,
  id: 'harbour-lane-7ft',
  name: 'Harbour Lane, 7 ft bar table',
  table: '7ft',
  startStep: toDecimal(0.5),
  printStep: toDecimal(0.1),
  basis: 'computed',
  earlier: [],
  revisions: [
    {
      number: 1,
      date: '2026-11-09',
      author: 'Harbour Lane instruction',
      why: 'First chart of the bar table by the window: old cloth, slow cushions.',
      ...emptyState(CONDITIONS['worn and slow']),
      patterns: FIRST_FOUR,
    },
  ],
};
