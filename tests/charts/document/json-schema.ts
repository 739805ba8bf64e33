/** Generates the published JSON Schema of chart files from the schema that reads them. */

import { type JsonSchema, toJsonSchema } from '@valibot/to-json-schema';
import type * as v from 'valibot';
import { chartSchema } from '../../../src/charts/document/schema.ts';
import { divisions, RAILS } from '../../../src/table/index.ts';

const revision = chartSchema.entries.revisions.pipe[0].items[0];
const { condition, measured, priorities, remarks, levels } = revision.entries;
const measuredLine = measured.pipe[0].item;
const { pattern, start: decimal } = measuredLine.pipe[0].entries;

const DEFINITIONS = {
  revision,
  condition,
  measuredLine,
  priority: priorities.pipe[0].item,
  remark: remarks.pipe[0].item,
  levels: levels.wrapped,
  pattern,
  decimal,
};

/** Descriptions of parts, by their path. */
const MEANINGS: Readonly<Record<string, string>> = {
  'properties.id': 'Tells the chart from other charts; the same in all its revisions.',
  'properties.table': 'Playing surface, by its trade name.',
  'properties.startStep': 'Distance between two starts, ten-thousandths of a diamond.',
  'properties.printStep': 'Resolution of printed numbers, ten-thousandths of a diamond.',
  'properties.basis':
    'computed: lines are solved from the condition, and a measured number stands in the place of the solved one. measured: only measured lines are lines.',
  'properties.earlier':
    'Digests of revisions before the first one here, oldest first: 64-bit FNV-1a over the UTF-16 units, low byte first, of a revision as JSON with sorted keys and without its number.',
  'properties.revisions': 'Oldest first; the chart’s numbers are those of the last.',
  '$defs.revision.properties.number': 'Counts from 1 and rises from revision to revision.',
  '$defs.revision.properties.date': 'ISO 8601 calendar date.',
  '$defs.revision.properties.why': 'What changed, and why, in a sentence.',
  '$defs.revision.properties.patterns': 'What the chart teaches; each once.',
  '$defs.revision.properties.measured':
    'Numbers measured on the table or given by hand; each line once. Through the sight.',
  '$defs.revision.properties.priorities': 'When to learn a line or a pattern; each once.',
  '$defs.revision.properties.remarks': 'A sentence about a line; each line once.',
  '$defs.condition.properties.restitution': 'Coefficient of restitution of the cushion.',
  '$defs.condition.properties.noseFriction': 'Friction between ball and cushion nose.',
  '$defs.condition.properties.slideFriction': 'Friction between a sliding ball and the cloth.',
  '$defs.condition.properties.rollFriction':
    'Rolling resistance of the cloth, as a fraction of the ball’s weight.',
  '$defs.condition.properties.spinDecay':
    'How fast the cloth takes off spin about the vertical, rad/s².',
  '$defs.condition.properties.speeds': 'Speed of the ball, m/s; rising from soft to firm.',
  '$defs.measuredLine': 'The number of a start at one speed at least, through the sight.',
  '$defs.priority': 'When a line should be learned; of the whole pattern if start is null.',
  '$defs.levels':
    'Who should hold which lines: three names that differ, and for each line the first level that has it. Lengths of text count UTF-16 units here and everywhere.',
  '$defs.pattern': 'The id of a pattern of the catalogue.',
  '$defs.decimal':
    'Ten-thousandths of a diamond, from 0 to the end of the rail that is meant: 40000 on a short rail, 80000 on a long one.',
};

/** @throws if the schema has no part at a path */
export function chartJsonSchema(): unknown {
  const { $schema, ...made } = toJsonSchema(chartSchema, {
    target: 'draft-2020-12',
    typeMode: 'input',
    // The descriptions tell what JSON Schema cannot (each line once, numbers rise).
    errorMode: 'ignore',
    definitions: DEFINITIONS,
    overrideSchema: ({ valibotSchema, jsonSchema }) => {
      if (valibotSchema.type === 'tuple_with_rest') return oneOrMore(jsonSchema);
      // A tuple in JSON Schema may end early unless it has a minimum length.
      if (valibotSchema.type === 'tuple') return { ...jsonSchema, minItems: lengthOf(jsonSchema) };
      return undefined;
    },
    overrideAction: ({ valibotAction, jsonSchema }) =>
      valibotAction.type === 'iso_date' ? dated(valibotAction, jsonSchema) : undefined,
  });
  const schema = {
    $schema,
    $id: 'https://throughline.example/chart.schema.json',
    title: 'Throughline chart, version 2',
    description:
      'A chart of bank and kick shot numbers for one pool table: its revisions, each with the numbers measured, the condition from which the others are computed, and what its maker says of them. Other keys are ignored.',
    ...made,
  };
  for (const [place, meaning] of Object.entries(MEANINGS))
    partAt(schema, place).description = meaning;
  bound(partAt(schema, '$defs.decimal'));
  return schema;
}

function partAt(schema: object, place: string): Record<string, unknown> {
  let part: unknown = schema;
  for (const key of place.split('.')) part = (part as Record<string, unknown> | undefined)?.[key];
  if (typeof part !== 'object' || part === null) throw new Error(`the schema has no ${place}`);
  return part as Record<string, unknown>;
}

/** A tuple of one item and more of the same is a non-empty list. */
function oneOrMore({ items, prefixItems }: JsonSchema): JsonSchema {
  if (items === undefined) throw new Error('a list without items');
  return { type: 'array', items, minItems: lengthOf({ prefixItems }) };
}

function lengthOf({ prefixItems }: Pick<JsonSchema, 'prefixItems'>): number {
  return prefixItems?.length ?? 0;
}

/** As a pattern, because many validators ignore formats. */
function dated(action: object, jsonSchema: JsonSchema): JsonSchema {
  const { requirement } = action as v.IsoDateAction<string, undefined>;
  return { ...jsonSchema, pattern: requirement.source };
}

/** Limits decimals to the longest rail. */
function bound(decimalSchema: Record<string, unknown>): void {
  decimalSchema.minimum = 0;
  decimalSchema.maximum = Math.max(...RAILS.map(divisions)) * 10_000;
}
