/**
 * Backups. A backup is one JSON file with all of a player's data. It is either accepted as a whole or
 * refused as a whole. It leaves out an unfinished rehearsal, which belongs to the device on which its
 * clock runs.
 */

import { type ChartDocument, readChart } from '../charts/index.ts';
import { type LogEvent, parseEvent } from '../scheduler/index.ts';
import { isSettings, parseSettings, type Settings } from './settings.ts';

const KIND = 'throughline-backup';
const VERSION = 1;
/** The longest backup, in characters: ten times the size of a log with 100,000 answers. */
const LARGEST = 400_000_000;

export interface Backup {
  readonly events: readonly LogEvent[];
  readonly charts: readonly ChartDocument[];
  readonly settings: Settings;
  /** Stored records that this version cannot read, with their keys. They are kept unchanged. */
  readonly unread: readonly UnreadRecord[];
}

export interface UnreadRecord {
  readonly key: string;
  readonly record: unknown;
}

export type BackupError =
  | 'too large'
  | 'not readable'
  | 'not a backup'
  | 'future version'
  | 'damaged'
  | 'contradicts';

export type BackupRefused = {
  readonly ok: false;
  readonly code: BackupError;
  readonly say: string;
};
export type ParsedBackup = { readonly ok: true; readonly backup: Backup } | BackupRefused;

/** @param made the time at which the backup is made, in ISO 8601 */
export function formatBackup({ events, ...rest }: Backup, made: string): string {
  const list = events.map((event) => JSON.stringify(event)).join(',');
  return `${backupHead(made)}${list}${backupEnd(rest)}`;
}

/** Returns the text before the list of events. A long list is written in batches. */
export function backupHead(made: string): string {
  return `${JSON.stringify({ kind: KIND, version: VERSION, made }).slice(0, -1)},"events":[`;
}

/** Returns the text after the list of events. */
export function backupEnd({ charts, settings, unread }: Omit<Backup, 'events'>): string {
  return `],${JSON.stringify({ charts, settings, unread }).slice(1)}`;
}

export function parseBackup(text: string): ParsedBackup {
  if (text.length > LARGEST) return refuse('too large');
  const data = readJson(text);
  if (data === undefined) return refuse('not readable');
  if (!isRecord(data) || data.kind !== KIND) return refuse('not a backup');
  const version = data.version;
  if (typeof version === 'number' && version > VERSION) return refuse('future version');
  if (version !== VERSION) return refuse('not a backup');
  return parseContents(data);
}

function parseContents(data: Readonly<Record<string, unknown>>): ParsedBackup {
  const { events: rawEvents, charts: rawCharts, settings, unread = [] } = data;
  if (!Array.isArray(rawEvents) || !Array.isArray(rawCharts)) return refuse('damaged');
  const events = parseEvents(rawEvents);
  if (!events.ok) return events;
  const charts = parseCharts(rawCharts);
  if (!charts.ok) return charts;
  if (isFuture(settings)) return refuse('future version');
  if (!isSettings(settings)) return refuse('damaged', 'settings');
  if (!isUnread(unread)) return refuse('damaged', 'unread records');
  const carried = unread.map(({ key, record }) => ({ key, record }));
  return {
    ok: true,
    backup: {
      events: events.list,
      charts: charts.list,
      settings: parseSettings(settings),
      unread: carried,
    },
  };
}

type ParsedList<T> = { readonly ok: true; readonly list: readonly T[] } | BackupRefused;

function parseEvents(raw: readonly unknown[]): ParsedList<LogEvent> {
  const list: LogEvent[] = [];
  const seen = new Set<string>();
  for (const [index, record] of raw.entries()) {
    const parsed = parseEvent(record);
    if (!parsed.ok && parsed.code === 'future version') return refuse('future version');
    if (!parsed.ok || seen.has(parsed.event.id)) return refuse('damaged', `answer ${index + 1}`);
    seen.add(parsed.event.id);
    list.push(parsed.event);
  }
  return { ok: true, list };
}

function parseCharts(raw: readonly unknown[]): ParsedList<ChartDocument> {
  const list: ChartDocument[] = [];
  for (const [index, document] of raw.entries()) {
    const read = readChart(document);
    if (!read.ok && read.code === 'future version') return refuse('future version');
    if (!read.ok) return refuse('damaged', `chart ${index + 1}`);
    list.push(read.document);
  }
  return { ok: true, list };
}

export function refuse(code: BackupError, where = ''): BackupRefused {
  return { ok: false, code, say: `${SENTENCES[code](where)} Nothing was changed.` };
}

const SENTENCES: Readonly<Record<BackupError, (where: string) => string>> = {
  'too large': () => 'That file is too large to be a backup.',
  'not readable': () => 'That file is cut off or is not a backup: it cannot be read to its end.',
  'not a backup': () => 'That file is not a Throughline backup.',
  'future version': () => 'That backup was made by a newer Throughline. Update this one first.',
  damaged: (where) => `That backup is damaged${where ? ` (${where})` : ''}.`,
  contradicts: () => 'That backup tells another story of an answer that is on this device.',
};

function isFuture(data: unknown): boolean {
  return isRecord(data) && typeof data.version === 'number' && data.version > VERSION;
}

function isUnread(data: unknown): data is readonly UnreadRecord[] {
  if (!Array.isArray(data)) return false;
  const fits = (one: unknown): boolean =>
    isRecord(one) &&
    typeof one.key === 'string' &&
    one.key.length <= 100 &&
    isFlat(one.record, DEEPEST);
  return data.every(fits) && new Set(data.map(({ key }) => key)).size === data.length;
}

/**
 * How many levels deep an unread record may be nested. A browser that copies a record of 10,000
 * levels overflows its stack.
 */
const DEEPEST = 100;

function isFlat(value: unknown, levels: number): boolean {
  if (typeof value !== 'object' || value === null) return true;
  return levels > 0 && Object.values(value).every((inner) => isFlat(inner, levels - 1));
}

/**
 * Returns the records that a backup can contain, one for each key. It drops values that JSON cannot
 * express; no version of the app writes such values.
 */
export function portable(unread: readonly UnreadRecord[]): readonly UnreadRecord[] {
  const fitting = unread.filter(
    ({ key, record }) => key.length <= 100 && isWritable(record) && isFlat(record, DEEPEST),
  );
  return [...new Map(fitting.map((one) => [one.key, one])).values()];
}

function isWritable(record: unknown): boolean {
  try {
    return JSON.stringify(record) !== undefined;
  } catch {
    // The record contains itself, is nested too deep, or contains a BigInt.
    return false;
  }
}

function readJson(text: string): unknown {
  try {
    return JSON.parse(text) as unknown;
  } catch (error) {
    if (error instanceof SyntaxError) return undefined;
    throw error;
  }
}

function isRecord(data: unknown): data is Readonly<Record<string, unknown>> {
  return typeof data === 'object' && data !== null && !Array.isArray(data);
}
