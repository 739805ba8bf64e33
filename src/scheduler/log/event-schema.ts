/**
 * The schemas of stored events, one for each type. All lengths are bounded, because a log may come from
 * outside the app.
 */

import * as v from 'valibot';
import { EFFECTS } from '../../cards/index.ts';
import { areWeights } from '../memory/memory.ts';
import {
  between,
  clock,
  diamond,
  duration,
  instance,
  instant,
  kind,
  MOST_QUESTIONS,
  name,
  numbers,
  outcome,
  pictures,
  question,
  seed,
  speed,
  text,
  tolerance,
  whole,
} from './event-parts.ts';

/** The latest version of stored events. `parseEvent` migrates older ones and refuses newer ones. */
export const EVENT_VERSION = 1;

const id = v.pipe(v.string(), v.regex(/^[a-z0-9]{1,32}:[0-9]{1,15}$/));

const base = {
  version: v.literal(EVENT_VERSION),
  id,
  device: v.pipe(v.string(), v.regex(/^[a-z0-9]{1,32}$/)),
  seq: whole(0, Number.MAX_SAFE_INTEGER),
  day: whole(0, 200_000),
  at: instant,
};

const given = { kind, answer: numbers, errors: numbers, outcome, ms: duration };

/**
 * The most moves in an event: three cards for each line of the largest chart
 * (charts/document/schema.ts).
 */
export const MOST_MOVES = 6000;

const said = v.pipe(v.array(between(-99, 99)), v.maxLength(4));
const move = v.object({
  card: name,
  line: name,
  was: v.exactOptional(name),
  effect: v.picklist(EFFECTS),
  from: said,
  to: v.nullable(said),
});

export const eventSchema = v.variant('type', [
  v.object({
    ...base,
    ...given,
    type: v.literal('answered'),
    card: name,
    judged: v.exactOptional(v.literal('self')),
    asked: v.exactOptional(instance),
  }),
  v.object({ ...base, type: v.literal('taken back'), answered: id }),
  v.object({ ...base, type: v.literal('met'), line: name }),
  v.object({ ...base, ...given, type: v.literal('proved'), card: name, implied: v.boolean() }),
  v.object({ ...base, type: v.literal('set aside'), line: name, aside: v.boolean() }),
  v.object({ ...base, type: v.literal('noted'), line: name, text: text(0, 500) }),
  v.object({
    ...base,
    type: v.literal('flagged'),
    line: name,
    speed,
    number: v.nullable(diamond),
  }),
  v.object({
    ...base,
    ...given,
    type: v.literal('drilled'),
    run: text(1, 64),
    code: name,
    n: whole(0, Number.MAX_SAFE_INTEGER),
    pattern: name,
    zone: text(0, 200),
    asked: instance,
    tolerance,
    counts: v.exactOptional(name),
  }),
  v.object({
    ...base,
    type: v.literal('rehearsed'),
    counts: v.boolean(),
    clock,
    began: instant,
    seed: v.exactOptional(seed),
    pictures: v.exactOptional(pictures),
    questions: v.pipe(v.array(question), v.minLength(1), v.maxLength(MOST_QUESTIONS)),
  }),
  v.object({
    ...base,
    type: v.literal('revised'),
    chart: name,
    revision: whole(1, Number.MAX_SAFE_INTEGER),
    digest: v.pipe(v.string(), v.regex(/^[0-9a-f]{16}$/)),
    moves: v.pipe(v.array(move), v.maxLength(MOST_MOVES)),
  }),
  v.object({
    ...base,
    type: v.literal('chart used'),
    chart: name,
    shares: v.nullable(name),
    level: v.nullable(v.picklist([0, 1, 2])),
  }),
  v.object({
    ...base,
    type: v.literal('table shot'),
    chart: name,
    pattern: name,
    start: diamond,
    speed,
    aim: diamond,
    miss: v.nullable(between(-8, 8)),
  }),
  v.object({
    ...base,
    type: v.literal('weights taken'),
    weights: v.nullable(
      v.pipe(
        v.array(v.number()),
        v.check((weights) => areWeights(weights)),
      ),
    ),
  }),
]);
