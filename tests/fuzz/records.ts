/** Stored records of this version and of earlier ones. */

import { parseChart, parseChartDraft, parseCondition } from '../../src/charts/index.ts';
import {
  canContinue,
  foldLog,
  type LogEvent,
  parseEvent,
  parseRehearsal,
} from '../../src/scheduler/index.ts';
import { parseSettings } from '../../src/store/index.ts';
import { isSettings } from '../../src/store/settings.ts';
import { storedSnapshot } from '../../src/store/snapshot.ts';
import { CLUB_CLOTH } from '../../src/table/index.ts';
import { clean, same } from './laws.ts';
import {
  CHART_DRAFTS,
  DOCUMENTS,
  EVENTS,
  FIRST_CHARTS,
  HISTORIES,
  REHEARSALS,
  SETTINGS,
  SNAPSHOTS,
} from './seeds.ts';
import { law, refusedWith, type Target, type Verdict } from './target.ts';

/** An accepted value reads the same again, directly and through JSON. */
function steady(value: unknown, read: (data: unknown) => unknown): Verdict {
  clean(value);
  same(read(value), value, 'it reads differently the second time');
  same(read(JSON.parse(JSON.stringify(value))), value, 'it reads differently from JSON');
  return 'taken';
}

function eventOf(data: unknown): LogEvent | null {
  const parsed = parseEvent(data);
  return parsed.ok ? parsed.event : null;
}

function orNull(name: string, share: number, seeds: readonly unknown[], read: Read): Target {
  const take = (data: unknown) => {
    const value = read(data);
    return value === null ? 'refused' : steady(value, read);
  };
  return { name, form: 'value', share, seeds, take };
}
type Read = (data: unknown) => unknown;

const settings: Target = {
  name: 'settings',
  form: 'value',
  share: 6,
  seeds: SETTINGS,
  take: (data) => {
    steady(parseSettings(data), parseSettings);
    return isSettings(data) ? 'taken' : 'refused';
  },
};

/** Any log of valid events can be folded. */
const log: Target = {
  name: 'log of events, folded',
  form: 'value',
  share: 3,
  seeds: HISTORIES,
  take: (data) => {
    const raw: readonly unknown[] = Array.isArray(data) ? data : [data];
    const events = raw.map(eventOf).filter((event) => event !== null);
    const ids = new Set(events.map(({ id }) => id));
    if (ids.size < events.length || events.length === 0) return 'refused';
    const { memories } = foldLog(events);
    for (const { stability, difficulty } of memories.values()) {
      law(Number.isFinite(stability) && stability > 0, 'no stability', stability);
      law(difficulty >= 1 && difficulty <= 10, 'no difficulty', difficulty);
    }
    return 'taken';
  },
};

interface Opening {
  readonly stored: unknown;
  readonly tail: unknown;
}

/** A snapshot that is judged fit to continue can be continued. */
const snapshot: Target = {
  name: 'snapshot',
  form: 'value',
  share: 3,
  seeds: SNAPSHOTS,
  take: (data) => {
    const { stored, tail } = (data ?? {}) as Partial<Opening>;
    const { snapshot: found } = storedSnapshot(stored);
    const events = (Array.isArray(tail) ? tail : []).map(eventOf).filter((one) => one !== null);
    if (new Set(events.map(({ id }) => id)).size < events.length) return 'refused';
    if (!canContinue(found, events)) return 'refused';
    foldLog(events, found);
    return 'taken';
  },
};

const condition: Target = {
  name: 'table condition',
  form: 'value',
  share: 6,
  seeds: [CLUB_CLOTH, { restitution: 0.8 }, { speeds: { soft: 2 } }, {}],
  take: (data) => {
    const parsed = parseCondition(data);
    if (!parsed.ok) return refusedWith(parsed.say);
    clean(parsed.condition);
    same(parseCondition(parsed.condition), parsed, 'it reads differently the second time');
    return 'taken';
  },
};

export const RECORDS: readonly Target[] = [
  orNull('event', 20, EVENTS, eventOf),
  orNull('rehearsal under way', 6, REHEARSALS, parseRehearsal),
  orNull('chart', 4, [...DOCUMENTS, ...FIRST_CHARTS], parseChart),
  orNull('draft of a chart', 4, CHART_DRAFTS, parseChartDraft),
  settings,
  log,
  snapshot,
  condition,
];
