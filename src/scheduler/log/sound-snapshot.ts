/**
 * Is a stored snapshot whole. It is a cache: one with a single part that does not fit is thrown away
 * and everything is folded anew, so nothing that was done to the disk can stop the app from opening.
 */

import { OUTCOMES } from '../../cards/index.ts';
import { SPEEDS } from '../../table/index.ts';
import { areWeights } from '../memory/memory.ts';
import { parseEvent } from './events.ts';
import { SNAPSHOT_VERSION, type Snapshot } from './snapshot.ts';

type Check = (value: unknown) => boolean;

/** Sound ones, for it is asked again with each event that reaches back into one. */
const known = new WeakSet<object>();

export function isSound(stored: unknown): stored is Snapshot {
  if (typeof stored !== 'object' || stored === null) return false;
  if (known.has(stored)) return true;
  const sound = SNAPSHOT(stored);
  if (sound) known.add(stored);
  return sound;
}

const number: Check = Number.isFinite;
const whole: Check = Number.isSafeInteger;
const text: Check = (value) => typeof value === 'string';
const yesOrNo: Check = (value) => typeof value === 'boolean';
const numbers: Check = (value) => Array.isArray(value) && value.every(Number.isFinite);
const weights: Check = (value) => numbers(value) && areWeights(value as readonly number[]);

function orNull(check: Check): Check {
  return (value) => value === null || check(value);
}

function among(options: readonly unknown[]): Check {
  return (value) => options.includes(value);
}

function listOf(check: Check): Check {
  return (value) => Array.isArray(value) && value.every(check);
}

function setOf(check: Check): Check {
  return (value) => value instanceof Set && [...value].every(check);
}

function mapOf(check: Check): Check {
  return (value) =>
    value instanceof Map && [...value].every(([key, one]) => text(key) && check(one));
}

function record(checks: Readonly<Record<string, Check>>): Check {
  const all = Object.entries(checks);
  return (value) => {
    if (typeof value !== 'object' || value === null) return false;
    return all.every(([key, check]) => check((value as Readonly<Record<string, unknown>>)[key]));
  };
}

function event(...types: readonly string[]): Check {
  return (value) => {
    const parsed = parseEvent(value);
    return parsed.ok && types.includes(parsed.event.type);
  };
}

const memory = record({
  stability: (value) => number(value) && (value as number) > 0,
  difficulty: (value) => number(value) && (value as number) >= 1 && (value as number) <= 10,
  firstDay: whole,
  lastDay: whole,
  lastOutcome: among(OUTCOMES),
  answers: whole,
  missesInARow: whole,
  lastStep: whole,
  told: orNull(record({ answer: orNull(numbers), errors: orNull(numbers) })),
  recent: listOf(record({ day: whole, errors: numbers })),
});

const SNAPSHOT = record({
  // Asked for late: the two modules import each other.
  version: (value) => value === SNAPSHOT_VERSION,
  events: whole,
  before: whole,
  weights,
  ownWeights: orNull(weights),
  devices: mapOf(whole),
  takenBack: setOf(text),
  shownAgain: listOf(event('drilled', 'rehearsed', 'proved')),
  fold: record({
    memories: mapOf(memory),
    met: mapOf(record({ day: whole, step: whole })),
    times: mapOf(numbers),
    aside: setOf(text),
    notes: mapOf(text),
    flags: mapOf(record({ speed: among(SPEEDS), number, day: whole })),
    moved: mapOf(
      record({
        ...{ line: text, from: numbers, to: numbers, elsewhere: yesOrNo, day: whole },
        ...{ since: whole, memory: orNull(memory), shown: yesOrNo },
      }),
    ),
    shifts: mapOf(record({ from: numbers, to: orNull(numbers) })),
    numbers: mapOf(orNull(numbers)),
    uses: mapOf(record({ shares: orNull(text), level: among([null, 0, 1, 2]) })),
    shots: listOf(event('table shot')),
    steps: whole,
  }),
});
