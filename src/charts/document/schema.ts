/** The shape of chart documents and drafts in outside data, with all their limits. */

import * as v from 'valibot';
import { divisions, SPEEDS, TABLES, type TableSize } from '../../table/index.ts';
import { conditionSchema } from './condition-schema.ts';
import { type Decimal, toDecimal } from './decimal.ts';
import {
  BASES,
  hasNumber,
  type LinePlace,
  type MeasuredLine,
  type Place,
  PRIORITIES,
  placeKey,
} from './document.ts';
import { LONGEST_REMARK, MOST_LINES, MOST_REVISIONS } from './limits.ts';
import { PATTERNS, type PatternId, patternOf } from './patterns.ts';

const text = (most: number) => v.pipe(v.string(), v.minLength(1), v.maxLength(most));

const patternId = v.picklist(PATTERNS.map((pattern) => pattern.id) as [PatternId, ...PatternId[]]);
const decimal = v.pipe(
  v.number(),
  v.safeInteger(),
  // Turns −0 into 0, because JSON does not keep the sign.
  v.transform((units) => (units + 0) as Decimal),
);
const place = { pattern: patternId, start: decimal };

const TWICE = 'names a start of a pattern twice';
const OFF_RAIL = 'has a start or a number beyond its rail';

function eachOnce(entries: readonly Place[]): boolean {
  return new Set(entries.map(placeKey)).size === entries.length;
}

function within(value: Decimal, most: number): boolean {
  return value >= 0 && value <= toDecimal(most);
}

function startsOnRail({ pattern, start }: LinePlace): boolean {
  return within(start, divisions(patternOf(pattern).start.rail));
}

function isOnRails(line: MeasuredLine): boolean {
  const rail = divisions(patternOf(line.pattern).aim.rail);
  return startsOnRail(line) && SPEEDS.every((speed) => within(line[speed] ?? (0 as Decimal), rail));
}

const measuredLine = v.pipe(
  v.object({
    ...place,
    soft: v.exactOptional(decimal),
    medium: v.exactOptional(decimal),
    firm: v.exactOptional(decimal),
  }),
  v.check(isOnRails, OFF_RAIL),
  v.check((line) => hasNumber(line), 'has a line of no number'),
);

const priorityEntry = v.pipe(
  v.object({ pattern: patternId, start: v.nullable(decimal), priority: v.picklist(PRIORITIES) }),
  v.check(({ pattern, start }) => start === null || startsOnRail({ pattern, start }), OFF_RAIL),
);

const remark = v.pipe(
  v.object({ ...place, text: text(LONGEST_REMARK) }),
  v.check((one) => startsOnRail(one), OFF_RAIL),
);

const levelEntry = v.pipe(
  v.object({ ...place, level: v.picklist([0, 1, 2]) }),
  v.check((line) => startsOnRail(line), OFF_RAIL),
);

const levels = v.object({
  names: v.pipe(
    v.tuple([text(40), text(40), text(40)]),
    v.check((names) => new Set(names).size === 3, 'names two levels alike'),
  ),
  lines: v.pipe(
    v.array(levelEntry),
    v.maxLength(MOST_LINES),
    v.check((lines) => eachOnce(lines), TWICE),
  ),
});

const state = {
  condition: conditionSchema,
  patterns: v.pipe(
    v.array(patternId),
    v.maxLength(PATTERNS.length, 'names a pattern twice'),
    v.check((ids) => new Set(ids).size === ids.length, 'names a pattern twice'),
  ),
  measured: v.pipe(
    v.array(measuredLine),
    v.maxLength(MOST_LINES),
    v.check((lines) => eachOnce(lines), TWICE),
  ),
  priorities: v.pipe(
    v.array(priorityEntry),
    v.maxLength(MOST_LINES),
    v.check((entries) => eachOnce(entries), TWICE),
  ),
  remarks: v.pipe(
    v.array(remark),
    v.maxLength(MOST_LINES),
    v.check((remarks) => eachOnce(remarks), TWICE),
  ),
  levels: v.nullable(levels),
};

const steps = v.pipe(
  v.picklist([500, 1000, 2500, 5000, 10000]),
  v.transform((units) => units as number as Decimal),
);
const digest = v.pipe(v.string(), v.regex(/^[0-9a-f]{16}$/));

const signature = {
  number: v.pipe(v.number(), v.safeInteger(), v.minValue(1)),
  date: v.pipe(v.string(), v.isoDate()),
  author: text(80),
  why: text(400),
};

const revision = v.object({ ...signature, ...state });

const head = {
  kind: v.literal('throughline-chart'),
  id: v.pipe(v.string(), v.regex(/^[a-z0-9-]{1,64}$/)),
  name: text(80),
  table: v.picklist(Object.keys(TABLES) as [TableSize, ...TableSize[]]),
  startStep: steps,
  printStep: steps,
};

export const chartSchema = v.object({
  ...head,
  version: v.literal(2),
  basis: v.picklist(BASES),
  earlier: v.pipe(v.array(digest), v.maxLength(MOST_REVISIONS)),
  revisions: v.pipe(
    v.tupleWithRest([revision], revision),
    v.maxLength(MOST_REVISIONS),
    v.check(
      (all) => all.every(({ number }, n) => n === 0 || number > (all[n - 1]?.number ?? number)),
      'has revisions out of order',
    ),
  ),
});

const revisionOfVersion1 = v.object({
  ...signature,
  condition: conditionSchema,
  measured: v.exactOptional(state.measured),
});

/**
 * Chart documents of version 1. There the patterns belonged to the document, and measured lines had
 * all three numbers.
 */
export const chartOfVersion1 = v.object({
  ...head,
  version: v.literal(1),
  patterns: state.patterns,
  basis: v.exactOptional(v.picklist(BASES)),
  revisions: v.tupleWithRest([revisionOfVersion1], revisionOfVersion1),
});

export const draftSchema = v.object({ base: digest, state: v.object(state) });
