/**
 * Segments. A segment is a piece of the log, with charts, in the same format as a backup. It is small
 * enough for a phone.
 */

import { toHex } from '../bytes/index.ts';
import {
  type ChartDocument,
  canonical,
  formatChartFile,
  LONGEST_FILE,
  readChartFile,
} from '../charts/index.ts';
import type { LogEvent } from '../scheduler/index.ts';
import {
  type Backup,
  DEFAULT_SETTINGS,
  formatBackup,
  parseBackup,
  type Settings,
} from '../store/index.ts';
import { runsOf } from './event-ids.ts';
import { Refused } from './refused.ts';
import type { FileContents } from './state.ts';
import { damagedWords } from './vault.ts';

/**
 * The most events in a segment. They make about 6 MB of text, which compresses to a twelfth of that.
 */
export const FULL_SEGMENT = 20_000;
/** The longest segment, in characters. Only a single longer event or chart can exceed it. */
const LONGEST = 8_000_000;

export interface Segment {
  readonly events: readonly LogEvent[];
  readonly charts: readonly DigestedChart[];
}

/**
 * A chart as it is sent. If it is longer than a chart file may be, its oldest revisions are left out.
 */
export interface DigestedChart {
  readonly document: ChartDocument;
  /** The first 128 bits of the SHA-256 of `document`, in hex. Equal versions have equal digests. */
  readonly digest: string;
}

export async function digestChart(chart: ChartDocument): Promise<DigestedChart> {
  const document = sendable(chart);
  const bytes = new TextEncoder().encode(canonical(document));
  const hash = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes)).subarray(0, 16);
  return { document, digest: toHex(hash) };
}

function sendable(chart: ChartDocument): ChartDocument {
  if (JSON.stringify(chart).length <= LONGEST_FILE / 2) return chart;
  const read = readChartFile(formatChartFile(chart));
  return read.ok ? read.document : chart;
}

export function contentsOf({ events, charts }: Segment): FileContents {
  return {
    runs: runsOf(events),
    charts: charts.map(({ document, digest }) => [document.id, digest] as const),
  };
}

/**
 * Divides events and charts into segments. Starts a new segment when the current one would get too
 * large. All events come before the charts.
 */
export function cutSegments(
  events: readonly LogEvent[],
  charts: readonly DigestedChart[],
): readonly Segment[] {
  const segments: { events: LogEvent[]; charts: DigestedChart[] }[] = [];
  let length = Number.POSITIVE_INFINITY;
  const roomFor = (more: number, isFull: (count: number) => boolean) => {
    const last = segments.at(-1);
    if (last && length + more <= LONGEST && !isFull(last.events.length)) {
      length += more;
      return last;
    }
    const next = { events: [], charts: [] };
    segments.push(next);
    length = more;
    return next;
  };
  for (const event of events)
    roomFor(JSON.stringify(event).length, (count) => count >= FULL_SEGMENT).events.push(event);
  for (const chart of charts)
    roomFor(JSON.stringify(chart.document).length, () => false).charts.push(chart);
  return segments;
}

/** @param made the time at which the segment is written, in ISO 8601 */
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

/** @throws Refused if `formatSegment` cannot have written this text */
export function parseSegment(name: string, text: string): Backup {
  const parsed = parseBackup(text);
  if (parsed.ok) return parsed.backup;
  if (parsed.code === 'future version') throw new Refused('newer', NEWER);
  throw new Refused('damaged', damagedWords(name));
}

/**
 * Joins backups into one that has each event once.
 * @throws Refused if two backups contradict each other
 */
export function joinBackups(backups: readonly Backup[]): Backup {
  const events = new Map<string, LogEvent>();
  for (const event of backups.flatMap((backup) => backup.events)) {
    const known = events.get(event.id);
    if (known && canonical(known) !== canonical(event))
      throw new Refused('contradicts', contradictionWords(event.id));
    events.set(event.id, event);
  }
  return {
    events: [...events.values()],
    charts: backups.flatMap(({ charts }) => charts),
    settings: backups.at(-1)?.settings ?? DEFAULT_SETTINGS,
    unread: [],
  };
}

function contradictionWords(id: string): string {
  return `The folder tells another story of entry ${id} than this device. Nothing was changed. (It happens if a browser’s profile was copied to a second device.)`;
}
