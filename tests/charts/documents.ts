/** Generators of chart documents: every field, every pattern, any text, in stored order. */

import fc from 'fast-check';
import { BASES } from '../../src/charts/document/document.ts';
import {
  type ChartDocument,
  type ChartState,
  type Decimal,
  inOrder,
  type Level,
  type LinePlace,
  type MeasuredLine,
  PATTERNS,
  type PatternId,
  PRIORITIES,
  patternOf,
  placeKey,
  type Revision,
} from '../../src/charts/index.ts';
import { type Condition, divisions, TABLES, type TableSize } from '../../src/table/index.ts';

/** Characters with a meaning in some format, and halves of a surrogate pair. */
const AWKWARD = [...'\'"=+-@,;|\\/{}[]<>&%#\t\r\n\0 \u2028\ufeff\u0301\ud83d\ude00é−＝'];
const unit = fc.oneof(
  { weight: 4, arbitrary: fc.constantFrom(...'abcdefgh 0123456789.') },
  { weight: 2, arbitrary: fc.constantFrom(...AWKWARD) },
  { weight: 1, arbitrary: fc.nat(0xffff).map((code) => String.fromCharCode(code)) },
);

/** Text of any UTF-16 units, lone surrogates included, of at most this length. */
export function anyText(most: number): fc.Arbitrary<string> {
  return fc
    .array(unit, { minLength: 1, maxLength: most })
    .map((units) => units.join('').slice(0, most));
}

export const anyPattern: fc.Arbitrary<PatternId> = fc.constantFrom(...PATTERNS.map(({ id }) => id));

/** A number on a rail: mostly as people write it, sometimes to the ten-thousandth. */
function onRail(most: 4 | 8): fc.Arbitrary<Decimal> {
  return fc.oneof(
    { weight: 5, arbitrary: fc.nat(most * 20).map((half) => (half * 500) as Decimal) },
    { weight: 1, arbitrary: fc.nat(most * 10_000).map((units) => units as Decimal) },
  );
}

function startOf(pattern: PatternId): fc.Arbitrary<Decimal> {
  return onRail(divisions(patternOf(pattern).start.rail));
}

export const anyPlace: fc.Arbitrary<LinePlace> = anyPattern.chain((pattern) =>
  startOf(pattern).map((start) => ({ pattern, start })),
);

/** Numbers for at least one speed. */
export const anyMeasured: fc.Arbitrary<MeasuredLine> = anyPlace.chain((place) => {
  const number = onRail(divisions(patternOf(place.pattern).aim.rail));
  return fc
    .record({ soft: number, medium: number, firm: number }, { requiredKeys: [] })
    .filter((numbers) => Object.keys(numbers).length > 0)
    .map((numbers) => ({ ...place, ...numbers }));
});

const anyPriority = fc
  .tuple(anyPlace, fc.boolean(), fc.constantFrom(...PRIORITIES))
  .map(([{ pattern, start }, whole, priority]) => ({
    pattern,
    start: whole ? null : start,
    priority,
  }));

const anyLevels = fc.record({
  names: fc
    .uniqueArray(anyText(40), { minLength: 3, maxLength: 3 })
    .map((names) => names as unknown as readonly [string, string, string]),
  lines: eachOnce(
    fc
      .tuple(anyPlace, fc.constantFrom<Level>(0, 1, 2))
      .map(([place, level]) => ({ ...place, level })),
  ),
});

type Entry = { readonly pattern: PatternId; readonly start: Decimal | null };

function eachOnce<T extends Entry>(entry: fc.Arbitrary<T>): fc.Arbitrary<T[]> {
  return fc.uniqueArray(entry, {
    maxLength: 30,
    selector: (one) => placeKey(one as LinePlace),
  });
}

/** Without −0, which JSON does not have. */
const share = (min: number, max: number) =>
  fc.double({ min, max, noNaN: true }).map((value) => value + 0);

/** The whole range that a chart may have (charts/document/condition-schema.ts). */
const anyCondition: fc.Arbitrary<Condition> = fc.record({
  restitution: share(0.5, 1),
  noseFriction: share(0, 0.25),
  slideFriction: share(0.05, 0.5),
  rollFriction: share(0.001, 0.05),
  spinDecay: share(0, 100),
  speeds: fc
    .uniqueArray(share(0.5, 10), { minLength: 3, maxLength: 3 })
    .map((speeds) => [...speeds].sort((a, b) => a - b))
    .map(([soft = 0, medium = 0, firm = 0]) => ({ soft, medium, firm })),
});

export const anyState: fc.Arbitrary<ChartState> = fc
  .record({
    condition: anyCondition,
    patterns: fc.uniqueArray(anyPattern, { maxLength: PATTERNS.length }),
    measured: eachOnce(anyMeasured),
    priorities: eachOnce(anyPriority),
    remarks: eachOnce(
      fc.tuple(anyPlace, anyText(200)).map(([place, text]) => ({ ...place, text })),
    ),
    levels: fc.option(anyLevels),
  })
  .map(inOrder);

const padded = (value: number, places: number) => String(value).padStart(places, '0');
const anyDate = fc
  .tuple(fc.nat(9999), fc.integer({ min: 1, max: 12 }), fc.integer({ min: 1, max: 28 }))
  .map(([year, month, day]) => `${padded(year, 4)}-${padded(month, 2)}-${padded(day, 2)}`);

const anySigned = fc
  .tuple(fc.record({ date: anyDate, author: anyText(80), why: anyText(400) }), anyState)
  .map(([signature, state]) => ({ ...signature, ...state }));

const anyDigest = fc
  .bigInt({ min: 0n, max: 2n ** 64n - 1n })
  .map((digest) => digest.toString(16).padStart(16, '0'));

const anyStep = fc.constantFrom(500, 1000, 2500, 5000, 10000).map((step) => step as Decimal);

const anyId = fc
  .array(fc.constantFrom(...'abcdefghijklmnopqrstuvwxyz0123456789-'), {
    minLength: 1,
    maxLength: 64,
  })
  .map((letters) => letters.join(''));

/** Revisions whose numbers rise, by one or by more. */
const anyRevisions = fc
  .array(fc.tuple(anySigned, fc.integer({ min: 1, max: 40 })), { minLength: 1, maxLength: 4 })
  .map((steps) => {
    let number = 0;
    return steps.map(([signed, rise]): Revision => {
      number += rise;
      return { number, ...signed };
    }) as unknown as ChartDocument['revisions'];
  });

export const anyDocument: fc.Arbitrary<ChartDocument> = fc.record({
  kind: fc.constant('throughline-chart' as const),
  version: fc.constant(2 as const),
  id: anyId,
  name: anyText(80),
  table: fc.constantFrom(...(Object.keys(TABLES) as TableSize[])),
  startStep: anyStep,
  printStep: anyStep,
  basis: fc.constantFrom(...BASES),
  earlier: fc.array(anyDigest, { maxLength: 5 }),
  revisions: anyRevisions,
});
