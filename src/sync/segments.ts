/** Pieces of a log and charts, shaped as backups are, of a size that a phone can handle. */

import { toHex } from '../bytes/index.ts';
import {
  type ChartDocument,
  canonical,
  formatChartFile,
  LONGEST_FILE,
  readChartFile,
} from '../charts/index.ts';
import type { LogEvent } from '../scheduler/index.ts';
import { type Backup, formatBackup, parseBackup, type Settings } from '../store/index.ts';
import { runsOf } from './held.ts';
import { Refused } from './refused.ts';
import type { InFile } from './state.ts';
import { damagedWords } from './vault.ts';

/** Events in a file at most: about 6 MB of text, a twelfth of that when compressed. */
export const FULL = 20_000;
/** Characters; an event or a chart by itself may be longer. */
const LONGEST = 8_000_000;

export interface Segment {
  readonly events: readonly LogEvent[];
  readonly charts: readonly DigestedChart[];
}

/** A chart as it travels: within the length of a chart file, so of a very long one without its oldest. */
export interface DigestedChart {
  readonly document: ChartDocument;
  readonly digest: string;
}

/** SHA-256 of what is sent, its first 128 bits: two versions of a chart are one if it is the same. */
export async function digested(chart: ChartDocument): Promise<DigestedChart> {
  const document = portable(chart);
  const bytes = new TextEncoder().encode(canonical(document));
  const hash = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes)).subarray(0, 16);
  return { document, digest: toHex(hash) };
}

function portable(chart: ChartDocument): ChartDocument {
  if (JSON.stringify(chart).length <= LONGEST_FILE / 2) return chart;
  const read = readChartFile(formatChartFile(chart));
  return read.ok ? read.document : chart;
}

export function inSegment({ events, charts }: Segment): InFile {
  return {
    runs: runsOf(events),
    charts: charts.map(({ document, digest }) => [document.id, digest] as const),
  };
}

/** Cut where a piece would become too much; charts come after all events. */
export function segmentsOf(
  events: readonly LogEvent[],
  charts: readonly DigestedChart[],
): readonly Segment[] {
  const pieces: { events: LogEvent[]; charts: DigestedChart[] }[] = [];
  let length = Number.POSITIVE_INFINITY;
  const piece = (more: number, isFull: (count: number) => boolean) => {
    const last = pieces.at(-1);
    if (last && length + more <= LONGEST && !isFull(last.events.length)) {
      length += more;
      return last;
    }
    const next = { events: [], charts: [] };
    pieces.push(next);
    length = more;
    return next;
  };
  for (const event of events)
    piece(JSON.stringify(event).length, (count) => count >= FULL).events.push(event);
  for (const chart of charts)
    piece(JSON.stringify(chart.document).length, () => false).charts.push(chart);
  return pieces;
}

/** @param made ISO 8601 time */
export function formatSegment(
  { events, charts }: Segment,
  settings: Settings,
  made: string,
): string {
  const documents = charts.map(({ document }) => document);
  return formatBackup({ events, charts: documents, settings, unread: [] }, made);
}

const NEWER =
  'A device of yours has a newer Throughline. Update this one to take in what was learned there.';

/** @throws Refused if it is not what `formatSegment` writes */
export function parseSegment(name: string, text: string): Backup {
  const parsed = parseBackup(text);
  if (parsed.ok) return parsed.backup;
  if (parsed.code === 'future version') throw new Refused('newer', NEWER);
  throw new Refused('damaged', damagedWords(name));
}

/** Pieces as one, each event once. @throws Refused if two tell different things of one event */
export function together(pieces: readonly Backup[], settings: Settings): Backup {
  const events = new Map<string, LogEvent>();
  for (const event of pieces.flatMap((piece) => piece.events)) {
    const known = events.get(event.id);
    if (known && canonical(known) !== canonical(event)) throw contradiction(event.id);
    events.set(event.id, event);
  }
  const last = pieces.at(-1);
  return {
    events: [...events.values()],
    charts: pieces.flatMap(({ charts }) => charts),
    settings: last?.settings ?? settings,
    unread: [],
  };
}

export function contradiction(id: string): Refused {
  return new Refused(
    'contradicts',
    `The folder tells another story of entry ${id} than this device. Nothing was changed. (It happens if a browser’s profile was copied to a second device.)`,
  );
}
