/** The demo chart: an invented club's league table, as its instructor teaches it. */

import { CLUB_CLOTH } from '../table/index.ts';
import type { ChartDocument } from './chart.ts';
import { toDecimal } from './decimal.ts';
import { PATTERNS } from './patterns.ts';

export const HARBOUR_LANE: ChartDocument = {
  kind: 'throughline-chart',
  version: 1,
  id: 'harbour-lane-9ft',
  name: 'Harbour Lane, 9 ft league table',
  table: '9ft',
  patterns: PATTERNS.map((pattern) => pattern.id),
  startStep: toDecimal(0.5),
  printStep: toDecimal(0.1),
  revisions: [
    {
      number: 1,
      date: '2026-09-07',
      author: 'Harbour Lane instruction',
      why: 'First chart of the league table, worn cloth.',
      condition: { ...CLUB_CLOTH, restitution: 0.84, slideFriction: 0.2 },
    },
    {
      number: 2,
      date: '2026-11-02',
      author: 'Harbour Lane instruction',
      why: 'New cloth and livelier cushions: the foot-rail lines had come out long.',
      condition: CLUB_CLOTH,
    },
    {
      number: 3,
      date: '2026-11-23',
      author: 'Harbour Lane instruction',
      why: 'The other families join: off the long rail, up and back, two and three cushions. No number moved.',
      condition: CLUB_CLOTH,
    },
  ],
};
