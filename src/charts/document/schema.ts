/** Chart documents at the border: outside data goes in, a validated document or a sentence comes out. */

import * as v from 'valibot';
import { divisions, SPEEDS, TABLES, type TableSize } from '../../table/index.ts';
import { conditionSchema, isRecord } from './condition-schema.ts';
import { type Decimal, toDecimal } from './decimal.ts';
import {
  BASES,
  type ChartDocument,
  type ChartState,
  emptyState,
  type LinePlace,
  type MeasuredLine,
  PRIORITIES,
  patternOf,
} from './document.ts';
import { PATTERNS, type PatternId } from './patterns.ts';

const text = (most: number) => v.pipe(v.string(), v.minLength(1), v.maxLength(most));
const steps = v.pipe(
  v.picklist([500, 1000, 2500, 5000, 10000]),
  v.transform((units) => units as number as Decimal),
);

const patternId = v.picklist(PATTERNS.map((pattern) => pattern.id) as [PatternId, ...PatternId[]]);
const decimal = v.pipe(
  v.number(),
  v.safeInteger(),
  // Zero without its sign, which JSON would not keep.
  v.transform((units) => (units + 0) as Decimal),
);
const place = { pattern: patternId, start: decimal };

const TWICE = 'names a start of a pattern twice';

function eachOnce(
  entries: readonly { readonly pattern: PatternId; readonly start: Decimal | null }[],
): boolean {
  return (
    new Set(entries.map(({ pattern, start }) => `${pattern} ${start}`)).size === entries.length
  );
}

function within(value: Decimal, most: number): boolean {
  return value >= 0 && value <= toDecimal(most);
}

function startsOnRail({ pattern, start }: LinePlace): boolean {
  return within(start, divisions(patternOf(pattern).start.rail));
}

const OFF_RAIL = 'has a start or a number beyond its rail';

const measuredLine = v.pipe(
  v.object({
    ...place,
    soft: v.exactOptional(decimal),
    medium: v.exactOptional(decimal),
    firm: v.exactOptional(decimal),
  }),
  v.check(isOnRails, OFF_RAIL),
  v.check((line) => SPEEDS.some((speed) => line[speed] !== undefined), 'has a line of no number'),
);

function isOnRails(line: MeasuredLine): boolean {
  const rail = divisions(patternOf(line.pattern).aim.rail);
  return startsOnRail(line) && SPEEDS.every((speed) => within(line[speed] ?? (0 as Decimal), rail));
}

/** Characters of a remark at most. */
export const LONGEST_REMARK = 200;
/** A chart of all patterns at the finest step, 0.05, has just under 1000 lines. */
export const MOST_LINES = 2000;
/** More revisions than a chart has ever seen; a link or a file of more is not a chart. */
export const MOST_REVISIONS = 500;

const level = v.picklist([0, 1, 2]);
const levels = v.object({
  names: v.pipe(
    v.tuple([text(40), text(40), text(40)]),
    v.check((names) => new Set(names).size === 3, 'names two levels alike'),
  ),
  lines: v.pipe(
    v.array(
      v.pipe(
        v.object({ ...place, level }),
        v.check((line) => startsOnRail(line), OFF_RAIL),
      ),
    ),
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
    v.array(
      v.pipe(
        v.object({
          pattern: patternId,
          start: v.nullable(decimal),
          priority: v.picklist(PRIORITIES),
        }),
        v.check(
          ({ pattern, start }) => start === null || startsOnRail({ pattern, start }),
          OFF_RAIL,
        ),
      ),
    ),
    v.maxLength(MOST_LINES),
    v.check((entries) => eachOnce(entries), TWICE),
  ),
  remarks: v.pipe(
    v.array(
      v.pipe(
        v.object({ ...place, text: text(LONGEST_REMARK) }),
        v.check((remark) => startsOnRail(remark), OFF_RAIL),
      ),
    ),
    v.maxLength(MOST_LINES),
    v.check((remarks) => eachOnce(remarks), TWICE),
  ),
  levels: v.nullable(levels),
};

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

/** Version 1: patterns belonged to the document, and measured lines had all three numbers. */
const firstVersion = v.object({
  ...head,
  version: v.literal(1),
  patterns: state.patterns,
  basis: v.exactOptional(v.picklist(BASES)),
  revisions: v.tupleWithRest(
    [
      v.object({
        ...signature,
        condition: conditionSchema,
        measured: v.exactOptional(state.measured),
      }),
    ],
    v.object({
      ...signature,
      condition: conditionSchema,
      measured: v.exactOptional(state.measured),
    }),
  ),
});

function migrated(old: v.InferOutput<typeof firstVersion>): unknown {
  const { patterns, basis = 'computed', revisions, ...rest } = old;
  return {
    ...rest,
    version: 2,
    basis,
    earlier: [],
    revisions: revisions.map((one, n) => ({
      ...emptyState(one.condition),
      ...one,
      // It did not have to rise; now it does.
      number: n + 1,
      patterns,
    })),
  };
}

/** `say`: what is wrong with it, as the end of a sentence that begins with the thing. */
export type ChartRefusal = {
  readonly ok: false;
  readonly code: 'not a chart' | 'future version' | 'damaged';
  readonly say: string;
};
export type ParsedChart = { readonly ok: true; readonly document: ChartDocument } | ChartRefusal;

/** One thing that is wrong is enough: a hostile file has millions. */
const EARLY = { abortEarly: true } as const;

/** A validated chart document of this version or an older one, or why it is none. */
export function readChart(data: unknown): ParsedChart {
  if (!isRecord(data) || data.kind !== 'throughline-chart')
    return { ok: false, code: 'not a chart', say: 'is not a Throughline chart' };
  if (typeof data.version === 'number' && data.version > 2)
    return { ok: false, code: 'future version', say: 'was made by a newer Throughline' };
  if (data.version !== 1) return checked(data);
  const old = v.safeParse(firstVersion, data, EARLY);
  return old.success ? checked(migrated(old.output)) : damaged(old.issues[0]);
}

function checked(data: unknown): ParsedChart {
  const result = v.safeParse(chartSchema, data, EARLY);
  return result.success ? { ok: true, document: result.output } : damaged(result.issues[0]);
}

function damaged(issue: v.BaseIssue<unknown>): ParsedChart {
  const where = v.getDotPath(issue)?.slice(0, 80) ?? 'its top';
  return { ok: false, code: 'damaged', say: `is damaged at ${where}` };
}

/** Changes of a chart that are not saved. */
export interface ChartDraft {
  /** Digest of the revision that they began from. */
  readonly base: string;
  readonly state: ChartState;
}

const draftSchema = v.object({ base: digest, state: v.object(state) });

/** A validated draft; null if it cannot be read. */
export function parseChartDraft(data: unknown): ChartDraft | null {
  const result = v.safeParse(draftSchema, data);
  return result.success ? result.output : null;
}

/** A validated chart document, or null if it is not one. */
export function parseChart(data: unknown): ChartDocument | null {
  const read = readChart(data);
  return read.ok ? read.document : null;
}
