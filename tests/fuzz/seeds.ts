/** Valid inputs of every kind and version, from fixtures and the generators of other tests. */

import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import {
  type ChartDocument,
  formatCompact,
  HARBOUR_LANE,
  HARBOUR_LANE_BAR,
  lastRevision,
  stateOf,
} from '../../src/charts/index.ts';
import { foldLog, type LogEvent, sealable } from '../../src/scheduler/index.ts';
import { DEFAULT_SETTINGS, formatBackup } from '../../src/store/index.ts';
import { anyDocument } from '../charts/documents.ts';
import { historyArb } from '../scheduler/histories.ts';

const fixture = (path: string): unknown => JSON.parse(readFileSync(path, 'utf8'));

/** Every run has the same seeds; only their mutations differ. */
const SEED = 7;
const sample = <T>(arbitrary: fc.Arbitrary<T>, numRuns: number): readonly T[] =>
  fc.sample(arbitrary, { seed: SEED, numRuns });

export const DOCUMENTS: readonly ChartDocument[] = [
  HARBOUR_LANE,
  HARBOUR_LANE_BAR,
  // Only short ones: long ones are slow to mutate and to read.
  ...sample(anyDocument, 60)
    .filter((document) => formatCompact(document).length < 2500)
    .slice(0, 10),
];
export const FIRST_CHARTS = fixture(
  'tests/charts/document/fixtures/charts-v1.json',
) as readonly unknown[];

export const HISTORIES: readonly (readonly LogEvent[])[] = sample(historyArb, 60).filter(
  ({ length }) => length > 4,
);
const firstLog = fixture('tests/scheduler/log/fixtures/first-log.json') as {
  readonly events?: readonly unknown[];
};

/** Events of each type, with and without every optional field. */
export const EVENTS: readonly unknown[] = [
  ...HISTORIES.flat().filter((event, n, all) => {
    const shape = shapeOf(event);
    return all.findIndex((one) => shapeOf(one) === shape) === n;
  }),
  ...(Array.isArray(firstLog) ? firstLog : (firstLog.events ?? [])).slice(0, 5),
];

function shapeOf(event: LogEvent): string {
  return `${event.type} ${Object.keys(event).sort().join()}`;
}

export const FIRST_BACKUP = readFileSync('tests/store/fixtures/first-backup.json', 'utf8');

export const BACKUPS: readonly string[] = [
  FIRST_BACKUP,
  ...HISTORIES.slice(0, 10).map((events, n) =>
    formatBackup(
      {
        events,
        charts: DOCUMENTS.slice(n, n + 2),
        settings: { ...DEFAULT_SETTINGS, use: { 'cross-side': 'often' } },
        unread: [{ key: `z:${n}`, record: { version: 9, id: `z:${n}`, type: 'from the future' } }],
      },
      '2026-11-30T10:00:00.000Z',
    ),
  ),
];

export const SETTINGS: readonly unknown[] = [
  DEFAULT_SETTINGS,
  { version: 1 },
  { version: 1, theme: 'dark', kinds: ['window'], use: { 'cross-side': 'seldom', later: 'often' } },
  {
    ...DEFAULT_SETTINGS,
    author: 'Ada',
    occasion: { name: 'League final', day: 20_800, minutes: 20 },
  },
];

export const CHART_DRAFTS: readonly unknown[] = DOCUMENTS.map((document) => ({
  base: '0123456789abcdef',
  state: stateOf(lastRevision(document)),
}));

/** A snapshot of old events, and the events after them. */
export const SNAPSHOTS: readonly unknown[] = HISTORIES.flatMap((events) => {
  const days = events.map(({ day }) => day);
  const old = sealable(foldLog(events), Math.max(...days) + 1, 1);
  if (!old) return [];
  const { snapshot, sealed } = old;
  const ids = new Set(sealed.map(({ id }) => id));
  const tail = events.filter(({ id }) => !ids.has(id));
  return [{ stored: { serial: 1, upTo: 1, snapshot }, tail }];
});

const [question] = HISTORIES.flat().flatMap((event) =>
  event.type === 'rehearsed' ? event.questions : [],
);

export const REHEARSALS: readonly unknown[] = [
  {
    version: 1,
    id: 'abc',
    spec: { patterns: ['cross-side'], kinds: ['number'], count: 10, clock: 30, counts: true },
    ...{ naming: 'through', tolerance: 0.1, pictures: 'all', seed: 5, cards: ['p/a', 'p/b'] },
    ...{ chart: HARBOUR_LANE.id, began: 1_795_000_000_000, answers: question ? [question] : [] },
  },
];

/** As an older version stored it; this version does not read it. */
export const PLAN = {
  version: 1,
  wish: 'x',
  reply: {
    plan: { today: 100, day: 110, ask: ['p/a', 'p/b'] },
    forecast: { expected: 3, low: 2, high: 4, of: 5 },
    ...{ curve: [{ day: 100, held: 1 }], load: [{ day: 100, answers: 4 }], enough: true },
    ...{ answersNeeded: null, drop: ['p/c'] },
  },
};
