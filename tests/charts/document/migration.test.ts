/** Chart documents in an old version, as they were written then. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { computeChart, HARBOUR_LANE, lastRevision, readChart } from '../../../src/charts/index.ts';
import { MEASURED_BAR_TABLE } from '../measured.ts';

const [computed, measured] = JSON.parse(
  readFileSync('tests/charts/document/fixtures/charts-v1.json', 'utf8'),
);

describe('charts of the first version', () => {
  it('are read with their numbers', () => {
    const [first, second] = [readChart(computed), readChart(measured)];
    if (!first.ok || !second.ok) throw new Error('not read');
    // The numbers depend only on the last revision, which has not changed since.
    expect(computeChart(first.document).lines).toEqual(computeChart(HARBOUR_LANE).lines);
    expect(second.document).toEqual(MEASURED_BAR_TABLE);
    expect(first.document.revisions.map(({ why }) => why)).toEqual(
      computed.revisions.map(({ why }: { why: string }) => why),
    );
    expect(lastRevision(first.document)).toMatchObject({
      measured: [],
      priorities: [],
      remarks: [],
      levels: null,
    });
  });

  it('are refused with a reason if they are damaged', () => {
    expect(readChart({ ...computed, table: '12ft' })).toEqual({
      ok: false,
      code: 'damaged',
      say: 'is damaged at table',
    });
    expect(readChart({ ...computed, version: 0 })).toMatchObject({ ok: false, code: 'damaged' });
    expect(readChart({ ...computed, version: 3 })).toMatchObject({ code: 'future version' });
    expect(readChart({ ...computed, kind: 'recipe' })).toMatchObject({ code: 'not a chart' });
  });
});
