/** Generators of histories: events of every type, of two devices; and damaged events. */

import fc from 'fast-check';
import { EFFECTS, KINDS, type Move, OUTCOMES } from '../../src/cards/index.ts';
import {
  CLOCKS,
  clippedWeights,
  compareEvents,
  DEFAULT_WEIGHTS,
  type Instance,
  type LogEvent,
  PICTURES,
} from '../../src/scheduler/index.ts';
import { SPEEDS } from '../../src/table/index.ts';

/** An event without its place in the log. */
type Said = LogEvent extends infer E
  ? E extends LogEvent
    ? Omit<E, 'version' | 'id' | 'device' | 'seq' | 'day' | 'at'>
    : never
  : never;

/** JSON has no −0. */
const numberArb = (least: number, most: number) =>
  fc.double({ min: least, max: most, noNaN: true }).map((value) => value + 0);
const cardArb = fc.constantFrom('p/a', 'p/b', 'q/c', 'q/skill');
const lineArb = fc.constantFrom('p', 'q');
const kindArb = fc.constantFrom(...KINDS);
const outcomeArb = fc.constantFrom(...OUTCOMES);
const speedArb = fc.constantFrom(...SPEEDS);
const msArb = fc.nat(60_000);
const givenArb = fc.oneof(
  fc
    .tuple(numberArb(-4, 8), numberArb(-1, 1))
    .map(([answer, error]) => ({ answer: [answer], errors: [error] })),
  fc.constant({ answer: null, errors: null }),
);
const askedArb: fc.Arbitrary<Instance> = fc.record(
  {
    start: numberArb(-1, 9),
    speed: speedArb,
    aim: numberArb(-1, 9),
    at: numberArb(-1, 9),
    off: numberArb(0, 3),
  },
  { requiredKeys: ['start', 'speed'] },
);

const replyArb = fc
  .tuple(fc.record({ kind: kindArb, outcome: outcomeArb, ms: msArb }), givenArb)
  .map(([reply, given]) => ({ ...reply, ...given }));

const questionArb = fc
  .tuple(
    replyArb,
    fc.record(
      {
        card: cardArb,
        asked: askedArb,
        truth: fc.array(numberArb(-4, 8), { minLength: 1, maxLength: 2 }),
        ranOut: fc.boolean(),
        tolerance: numberArb(0, 1),
      },
      { requiredKeys: ['card', 'ranOut', 'tolerance'] },
    ),
  )
  .map(([reply, rest]) => ({ ...reply, ...rest }));

const answeredArb = fc
  .tuple(replyArb, cardArb, fc.option(askedArb, { nil: undefined }))
  .map(([reply, card, asked]) => ({
    type: 'answered' as const,
    ...reply,
    card,
    ...(asked ? { asked } : {}),
  }));

const judgedArb = fc.record({
  type: fc.constant('answered' as const),
  judged: fc.constant('self' as const),
  card: cardArb,
  kind: kindArb,
  answer: fc.constant(null),
  errors: fc.constant(null),
  outcome: fc.constantFrom('pocketed' as const, 'off' as const),
  ms: msArb,
});

const provedArb = fc
  .tuple(replyArb, cardArb, fc.boolean())
  .map(([reply, card, implied]) => ({ type: 'proved' as const, ...reply, card, implied }));

const drilledArb = fc
  .tuple(
    replyArb,
    fc.record(
      { run: fc.constantFrom('x', 'y'), n: fc.nat(4), asked: askedArb, counts: cardArb },
      { requiredKeys: ['run', 'n', 'asked'] },
    ),
    numberArb(0, 1),
  )
  .map(([reply, rest, tolerance]) => ({
    type: 'drilled' as const,
    ...reply,
    ...rest,
    code: 'cross-side 3 4 5',
    pattern: 'cross-side',
    zone: 'middle',
    tolerance,
  }));

const rehearsedArb = fc.record(
  {
    type: fc.constant('rehearsed' as const),
    counts: fc.boolean(),
    clock: fc.constantFrom(null, ...CLOCKS),
    began: fc.nat(),
    seed: fc.nat(),
    pictures: fc.constantFrom(...PICTURES),
    questions: fc.array(questionArb, { minLength: 1, maxLength: 4 }),
  },
  { requiredKeys: ['type', 'counts', 'clock', 'began', 'questions'] },
);

const saidNumbers = fc.array(numberArb(0, 8), { minLength: 1, maxLength: 2 });
const moveArb: fc.Arbitrary<Move> = fc.record(
  {
    card: cardArb,
    line: lineArb,
    was: cardArb,
    effect: fc.constantFrom(...EFFECTS),
    from: saidNumbers,
    to: fc.option(saidNumbers),
  },
  { requiredKeys: ['card', 'line', 'effect', 'from', 'to'] },
);

const weightsArb = fc
  .array(fc.double({ min: 0.5, max: 2, noNaN: true }), { minLength: 21, maxLength: 21 })
  .map((factors) => clippedWeights(DEFAULT_WEIGHTS.map((one, n) => one * (factors[n] ?? 1))));

/** One generator for each type of event, so that a new type must be added here. */
const BY_TYPE: { readonly [T in LogEvent['type']]: fc.Arbitrary<Extract<Said, { type: T }>> } = {
  answered: fc.oneof(answeredArb, judgedArb),
  // Takes back any of the first events of a history, answers or not.
  'taken back': fc.record({
    type: fc.constant('taken back' as const),
    answered: fc.tuple(fc.constantFrom('a', 'b'), fc.nat(12)).map(([who, n]) => `${who}:${n}`),
  }),
  met: fc.record({ type: fc.constant('met' as const), line: lineArb }),
  proved: provedArb,
  'set aside': fc.record({
    type: fc.constant('set aside' as const),
    line: lineArb,
    aside: fc.boolean(),
  }),
  noted: fc.record({
    type: fc.constant('noted' as const),
    line: lineArb,
    text: fc.oneof(fc.constant(''), fc.string({ maxLength: 40 })),
  }),
  flagged: fc.record({
    type: fc.constant('flagged' as const),
    line: lineArb,
    speed: speedArb,
    number: fc.oneof(fc.constant(null), numberArb(0, 8)),
  }),
  drilled: drilledArb,
  rehearsed: rehearsedArb,
  revised: fc.record({
    type: fc.constant('revised' as const),
    chart: fc.constantFrom('x', 'y'),
    revision: fc.integer({ min: 1, max: 5 }),
    digest: fc.constantFrom('0123456789abcdef', 'fedcba9876543210'),
    moves: fc.array(moveArb, { maxLength: 3 }),
  }),
  'chart used': fc.record({
    type: fc.constant('chart used' as const),
    chart: fc.constantFrom('x', 'y'),
    shares: fc.constantFrom(null, 'x', 'y'),
    level: fc.constantFrom(null, 0 as const, 1 as const, 2 as const),
  }),
  'table shot': fc.record({
    type: fc.constant('table shot' as const),
    chart: fc.constantFrom('x', 'y'),
    pattern: fc.constantFrom('cross-side', 'up-and-back'),
    start: numberArb(0, 8),
    speed: speedArb,
    aim: numberArb(0, 8),
    miss: fc.oneof(fc.constant(null), numberArb(-2, 2)),
  }),
  'weights taken': fc.record({
    type: fc.constant('weights taken' as const),
    weights: fc.option(weightsArb),
  }),
};

const saidArb: fc.Arbitrary<Said> = fc.oneof(
  { arbitrary: BY_TYPE.answered, weight: 4 },
  ...Object.values(BY_TYPE),
);

/** Any history of two devices, whose clocks may disagree, in the order in which it was written. */
export const historyArb: fc.Arbitrary<readonly LogEvent[]> = fc
  .array(
    fc.record({
      said: saidArb,
      device: fc.constantFrom('a', 'b'),
      gap: fc.integer({ min: -1, max: 6 }),
    }),
    { maxLength: 16 },
  )
  .map((items) => {
    let day = 100;
    return items.map(({ said, device, gap }, seq) => {
      day += gap;
      const place = { id: `${device}:${seq}`, device, seq, day, at: day * 86_400_000 + seq };
      return { ...said, version: 1, ...place } as LogEvent;
    });
  });

/** An event with one of its parts, at any depth, removed or replaced. */
export const spoiledArb: fc.Arbitrary<unknown> = fc
  .tuple(
    historyArb.filter((events) => events.length > 0),
    fc.nat(),
    fc.oneof(fc.anything(), fc.constant('leave out')),
  )
  .map(([events, at, other]) => {
    const event = structuredClone(events[at % events.length]) as object;
    const parts = partsOf(event);
    const [owner, key] = parts[at % parts.length] as readonly [Record<string, unknown>, string];
    if (other === 'leave out') delete owner[key];
    else Object.defineProperty(owner, key, { value: other, enumerable: true, configurable: true });
    return event;
  });

/** Every property of an object and of the objects in it. */
function partsOf(value: object): readonly (readonly [object, string])[] {
  return Object.entries(value).flatMap(([key, inner]) => [
    [value, key] as const,
    ...(typeof inner === 'object' && inner !== null ? partsOf(inner) : []),
  ]);
}

/** Numbered in the order of their dates: no clock was wrong. */
export function inTurn(events: readonly LogEvent[]): readonly LogEvent[] {
  return [...events]
    .sort(compareEvents)
    .map((event, seq) => ({ ...event, seq, id: `${event.device}:${seq}` }));
}

/** A list in the order that a seed gives. */
export function shuffled<T>(list: readonly T[], seed: number): readonly T[] {
  const rank = (n: number) => Math.imul((seed ^ (n + 1)) >>> 0, 2_654_435_761) >>> 0;
  return list
    .map((one, n) => ({ one, rank: rank(n) }))
    .sort((a, b) => a.rank - b.rank)
    .map(({ one }) => one);
}
