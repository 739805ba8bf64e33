/** Chart documents at the border: outside data goes in, a validated document or a sentence comes out. */

import * as v from 'valibot';
import {
  CLUB_CLOTH,
  type Condition,
  divisions,
  SPEEDS,
  TABLES,
  type TableSize,
} from '../table/index.ts';
import { BASES, type ChartDocument, type MeasuredLine, patternOf } from './chart.ts';
import { type Decimal, toDecimal } from './decimal.ts';
import { PATTERNS, type PatternId } from './patterns.ts';

const share = (least: number, most: number) => {
  const limits = `must be a number from ${least} to ${most}`;
  return v.pipe(v.number(limits), v.minValue(least, limits), v.maxValue(most, limits));
};
const text = (most: number) => v.pipe(v.string(), v.minLength(1), v.maxLength(most));
const steps = v.pipe(
  v.picklist([500, 1000, 2500, 5000, 10000]),
  v.transform((units) => units as number as Decimal),
);

/**
 * Limits keep the impact model inside its range: published 0.6–0.98 for restitution, and friction at
 * the nose low enough that the ball stays on the cloth.
 */
const condition = v.object({
  restitution: share(0.5, 1),
  noseFriction: share(0, 0.25),
  slideFriction: share(0.05, 0.5),
  rollFriction: share(0.001, 0.05),
  spinDecay: share(0, 100),
  speeds: v.pipe(
    v.object({ soft: share(0.5, 10), medium: share(0.5, 10), firm: share(0.5, 10) }),
    v.check(
      ({ soft, medium, firm }) => soft < medium && medium < firm,
      'must rise from soft over medium to firm',
    ),
  ),
});

const patternId = v.picklist(PATTERNS.map((pattern) => pattern.id) as [PatternId, ...PatternId[]]);
const decimal = v.pipe(
  v.number(),
  v.safeInteger(),
  // Zero without its sign, which JSON would not keep.
  v.transform((units) => (units + 0) as Decimal),
);

const measuredLine = v.pipe(
  v.object({
    pattern: patternId,
    start: decimal,
    soft: decimal,
    medium: decimal,
    firm: decimal,
  }),
  v.check(isOnRails, 'a start or a number beyond its rail'),
);

function isOnRails({ pattern, start, ...numbers }: MeasuredLine): boolean {
  const { start: from, aim } = patternOf(pattern);
  const within = (value: Decimal, most: number) => value >= 0 && value <= toDecimal(most);
  return (
    within(start, divisions(from.rail)) &&
    SPEEDS.every((speed) => within(numbers[speed], divisions(aim.rail)))
  );
}

/** A chart of all patterns at the finest step, 0.05, has just under 1000 lines. */
const MOST_MEASURED = 2000;

const revision = v.object({
  number: v.pipe(v.number(), v.integer(), v.minValue(1)),
  date: v.pipe(v.string(), v.isoDate()),
  author: text(80),
  why: text(400),
  condition,
  measured: v.exactOptional(
    v.pipe(
      v.array(measuredLine),
      v.maxLength(MOST_MEASURED),
      v.check(
        (lines) =>
          new Set(lines.map(({ pattern, start }) => `${pattern} ${start}`)).size === lines.length,
        'each start of a pattern once',
      ),
    ),
  ),
});

const chartSchema = v.object({
  kind: v.literal('throughline-chart'),
  version: v.literal(1),
  id: v.pipe(v.string(), v.regex(/^[a-z0-9-]{1,64}$/)),
  name: text(80),
  table: v.picklist(Object.keys(TABLES) as [TableSize, ...TableSize[]]),
  patterns: v.pipe(
    v.array(patternId),
    v.check((ids) => new Set(ids).size === ids.length, 'each pattern once'),
  ),
  startStep: steps,
  printStep: steps,
  basis: v.exactOptional(v.picklist(BASES)),
  revisions: v.tupleWithRest([revision], revision),
});

/** A validated chart document, or null if it is not one. */
export function parseChart(data: unknown): ChartDocument | null {
  const result = v.safeParse(chartSchema, data);
  return result.success ? result.output : null;
}

export type ParsedCondition =
  | { readonly ok: true; readonly condition: Condition }
  /** `say`: one sentence that names the field and its limits, or the fields there are. */
  | { readonly ok: false; readonly say: string };

const FIELDS = Object.keys(condition.entries);

/**
 * A table condition from outside, within the limits of a chart's. Fields that are left out are
 * those of `CLUB_CLOTH`; a field that does not exist is an error, for it is likely a misspelling.
 */
export function parseCondition(data: unknown): ParsedCondition {
  if (!isRecord(data)) return refuse(`A condition is an object with any of ${FIELDS.join(', ')}.`);
  const speeds = data.speeds === undefined ? {} : data.speeds;
  if (!isRecord(speeds))
    return refuse(`The field speeds must be an object with any of ${SPEEDS.join(', ')}.`);
  const unknown = strayIn(data, FIELDS) ?? strayIn(speeds, SPEEDS, 'speeds.');
  if (unknown) return refuse(unknown);
  const result = v.safeParse(condition, {
    ...CLUB_CLOTH,
    ...data,
    speeds: { ...CLUB_CLOTH.speeds, ...speeds },
  });
  if (result.success) return { ok: true, condition: result.output };
  const [issue] = result.issues;
  return refuse(`The field ${v.getDotPath(issue)} ${issue.message}.`);
}

function strayIn(data: object, fields: readonly string[], within = ''): string | null {
  const stray = Object.keys(data).find((key) => !fields.includes(key));
  return stray === undefined
    ? null
    : `There is no field ${JSON.stringify(within + stray.slice(0, 40))}; there are ${fields.join(', ')}.`;
}

function refuse(say: string): ParsedCondition {
  return { ok: false, say };
}

function isRecord(data: unknown): data is Readonly<Record<string, unknown>> {
  return typeof data === 'object' && data !== null && !Array.isArray(data);
}
