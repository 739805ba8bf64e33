import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import Ajv2020 from 'ajv/dist/2020.js';
import fc from 'fast-check';
import * as v from 'valibot';
import { describe, expect, it } from 'vitest';
import { chartSchema } from '../../../src/charts/document/schema.ts';
import {
  CHART_SCHEMA,
  type ChartDocument,
  formatChartFile,
  HARBOUR_LANE,
  readChartFile,
} from '../../../src/charts/index.ts';
import { anyDocument } from '../documents.ts';
import { MEASURED_BAR_TABLE } from '../measured.ts';
import { chartJsonSchema } from './json-schema.ts';

const path = `public/${CHART_SCHEMA}`;
if (process.env.THROUGHLINE_WRITE_SCHEMA)
  writeFileSync(path, `${JSON.stringify(chartJsonSchema(), null, 2)}\n`);
const published = JSON.parse(existsSync(path) ? readFileSync(path, 'utf8') : 'null') as object;

/** An independent validator of JSON Schema 2020-12; strict, so that a misspelled keyword throws. */
const validate = new Ajv2020({
  strict: true,
  strictTypes: false,
  strictTuples: false,
  validateFormats: false,
}).compile(published);

describe('the published JSON Schema of a chart', () => {
  it('is the one generated from the reader (npm run schema)', () => {
    expect(published).toEqual(JSON.parse(JSON.stringify(chartJsonSchema())));
  });

  it('accepts every chart that is written', () => {
    for (const document of [HARBOUR_LANE, MEASURED_BAR_TABLE]) {
      expect(validate(JSON.parse(formatChartFile(document)))).toBe(true);
    }
    fc.assert(
      fc.property(anyDocument, (document) => {
        expect(validate(JSON.parse(formatChartFile(document)))).toBe(true);
      }),
    );
  });

  it('refuses every shape that the reader refuses, and nothing that the reader accepts', () => {
    let refused = 0;
    fc.assert(
      fc.property(anySpoiled, (data) => {
        const { issues = [] } = v.safeParse(chartSchema, data);
        const wrongShape = issues.some(({ type }) => type !== 'check');
        const valid = validate(data);
        if (wrongShape) expect(valid).toBe(false);
        if (!valid) expect(readChartFile(JSON.stringify(data)).ok).toBe(false);
        if (!valid) refused += 1;
      }),
      { numRuns: 1000 },
    );
    expect(refused).toBeGreaterThan(300);
  });

  it.each([
    ['no revision', { revisions: [] }],
    ['a future version', { version: 3 }],
    ['an unknown table', { table: '12ft' }],
    ['an unknown step', { startStep: 700 }],
  ])('refuses %s', (_name, change) => {
    expect(validate({ ...HARBOUR_LANE, ...change })).toBe(false);
  });
});

const junk = fc.constantFrom<unknown>(
  ...[null, true, 0, -1, 0.5, 1e300, 2 ** 53, 90_000, '', 'x', '2026-13-01', 'a'.repeat(500)],
  ...[[], [null], {}, { pattern: 'cross-side' }, [[0]]],
);

/** A chart's data with one value replaced or removed. */
const anySpoiled: fc.Arbitrary<unknown> = fc
  .tuple(anyDocument, fc.nat(), fc.option(junk, { nil: undefined }))
  .map(([document, which, instead]) => spoiled(document, which, instead));

function spoiled(document: ChartDocument, which: number, instead: unknown): unknown {
  const data: unknown = JSON.parse(JSON.stringify(document));
  const places = placesIn(data);
  const [holder, key] = places[which % places.length] ?? [{}, ''];
  if (instead === undefined && Array.isArray(holder)) holder.splice(Number(key), 1);
  else if (instead === undefined) delete holder[key];
  else holder[key] = structuredClone(instead);
  return data;
}

type Holder = Record<string, unknown>;

/** Every value of some data, as its holder and its key there. */
function placesIn(data: unknown): readonly (readonly [Holder, string])[] {
  if (typeof data !== 'object' || data === null) return [];
  return Object.entries(data).flatMap(([key, value]) => [
    [data as Holder, key] as const,
    ...placesIn(value),
  ]);
}
