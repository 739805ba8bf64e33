/** Reads chart documents and drafts from outside data, and migrates old versions. */

import * as v from 'valibot';
import { isRecord } from './condition-schema.ts';
import { type ChartDocument, type ChartState, emptyState } from './document.ts';
import { chartOfVersion1, chartSchema, draftSchema } from './schema.ts';

/** `say` tells what is wrong, in words that follow a subject such as "The file". */
export type ChartRefusal = {
  readonly ok: false;
  readonly code: 'not a chart' | 'future version' | 'damaged';
  readonly say: string;
};
export type ParsedChart = { readonly ok: true; readonly document: ChartDocument } | ChartRefusal;

/** Validation stops at the first issue, because a hostile file may have millions. */
const EARLY = { abortEarly: true } as const;

/**
 * Validates a chart document of this version or an older one. If it is not a chart document, says
 * why.
 */
export function readChart(data: unknown): ParsedChart {
  if (!isRecord(data) || data.kind !== 'throughline-chart')
    return { ok: false, code: 'not a chart', say: 'is not a Throughline chart' };
  if (typeof data.version === 'number' && data.version > 2)
    return { ok: false, code: 'future version', say: 'was made by a newer Throughline' };
  if (data.version !== 1) return checked(data);
  const old = v.safeParse(chartOfVersion1, data, EARLY);
  return old.success ? checked(migrated(old.output)) : damaged(old.issues[0]);
}

function checked(data: unknown): ParsedChart {
  const result = v.safeParse(chartSchema, data, EARLY);
  return result.success ? { ok: true, document: result.output } : damaged(result.issues[0]);
}

function migrated(old: v.InferOutput<typeof chartOfVersion1>): unknown {
  const { patterns, basis = 'computed', revisions, ...rest } = old;
  return {
    ...rest,
    version: 2,
    basis,
    earlier: [],
    revisions: revisions.map((one, n) => ({
      ...emptyState(one.condition),
      ...one,
      // In version 1, revision numbers did not have to rise.
      number: n + 1,
      patterns,
    })),
  };
}

function damaged(issue: v.BaseIssue<unknown>): ParsedChart {
  const where = v.getDotPath(issue)?.slice(0, 80) ?? 'its top';
  return { ok: false, code: 'damaged', say: `is damaged at ${where}` };
}

/** Unsaved changes to a chart. */
export interface ChartDraft {
  /** Digest of the revision from which the changes started. */
  readonly base: string;
  readonly state: ChartState;
}

/** Validates a draft; returns null if it is invalid. */
export function parseChartDraft(data: unknown): ChartDraft | null {
  const result = v.safeParse(draftSchema, data);
  return result.success ? result.output : null;
}

/** Validates a chart document; returns null if it is not one. */
export function parseChart(data: unknown): ChartDocument | null {
  const read = readChart(data);
  return read.ok ? read.document : null;
}
