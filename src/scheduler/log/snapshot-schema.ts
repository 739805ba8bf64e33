/**
 * Checks whether a stored snapshot is intact. If any part is damaged, the snapshot is discarded and all
 * events are folded again. So no damage on the disk can keep the app from opening.
 */

import * as v from 'valibot';
import { KINDS, OUTCOMES } from '../../cards/index.ts';
import { areWeights } from '../memory/memory.ts';
import { speed } from './event-parts.ts';
import type { LogEvent } from './events.ts';
import { parseEvent } from './parse-event.ts';
import { SNAPSHOT_VERSION, type Snapshot } from './state.ts';

const finite = v.pipe(v.number(), v.finite());
const whole = v.pipe(v.number(), v.safeInteger());
/** A list of numbers. A snapshot has about 10,000 of these; `v.array` would take twice as long. */
const numbers = v.custom<readonly number[]>(
  (data) => Array.isArray(data) && data.every(Number.isFinite),
);
const weights = v.pipe(
  numbers,
  v.check((list) => areWeights(list)),
);

function byId<S extends v.GenericSchema>(schema: S) {
  return v.map(v.string(), schema);
}

function event<T extends LogEvent['type']>(...types: readonly T[]) {
  return v.custom<Extract<LogEvent, { type: T }>>((data) => {
    const parsed = parseEvent(data);
    return parsed.ok && (types as readonly string[]).includes(parsed.event.type);
  });
}

const memory = v.object({
  stability: v.pipe(v.number(), v.finite(), v.gtValue(0)),
  difficulty: v.pipe(v.number(), v.minValue(1), v.maxValue(10)),
  firstDay: whole,
  lastDay: whole,
  lastOutcome: v.picklist(OUTCOMES),
  answers: whole,
  missesInARow: whole,
  lastStep: whole,
  told: v.nullable(v.object({ answer: v.nullable(numbers), errors: v.nullable(numbers) })),
  recent: v.array(v.object({ day: whole, errors: numbers })),
});

const moved = v.object({
  line: v.string(),
  from: numbers,
  to: numbers,
  elsewhere: v.boolean(),
  day: whole,
  since: whole,
  memory: v.nullable(memory),
  shown: v.boolean(),
});

const tallies = v.pipe(
  v.object({ right: numbers, all: numbers }),
  v.check(
    ({ right, all }) =>
      right.length === all.length && right.every((one, n) => one >= 0 && one <= (all[n] as number)),
  ),
);

const fold = v.object({
  memories: byId(memory),
  met: byId(v.object({ day: whole, step: whole })),
  times: v.map(v.picklist(KINDS), numbers),
  aside: v.set(v.string()),
  notes: byId(v.string()),
  flags: byId(v.object({ speed, number: finite, day: whole })),
  moved: byId(moved),
  shifts: byId(v.object({ from: numbers, to: v.nullable(numbers) })),
  numbers: byId(v.nullable(numbers)),
  uses: byId(
    v.object({ shares: v.nullable(v.string()), level: v.nullable(v.picklist([0, 1, 2])) }),
  ),
  shots: v.array(event('table shot')),
  trials: v.object({
    kinds: v.map(v.picklist(KINDS), tallies),
    patterns: byId(v.object({ right: finite, expected: finite })),
    days: v.nullable(v.object({ first: whole, last: whole, came: whole })),
  }),
  steps: whole,
});

const schema = v.object({
  version: v.literal(SNAPSHOT_VERSION),
  events: whole,
  before: whole,
  weights,
  ownWeights: v.nullable(weights),
  devices: byId(whole),
  takenBack: v.set(v.string()),
  shownAgain: v.array(event('drilled', 'rehearsed', 'proved')),
  fold,
}) satisfies v.GenericSchema<unknown, Snapshot>;

export function isSnapshot(stored: unknown): stored is Snapshot {
  return v.is(schema, stored);
}
