/**
 * Whether the browser will keep what is stored: rules without the browser. A mark outside the
 * database remembers that answers were here, so that an emptied database is told from a new one.
 */

import type { LogState } from '../../../scheduler/index.ts';

/** What a device remembers beside its database. */
export interface Mark {
  /** Devices whose events were in the log. */
  readonly devices: readonly string[];
  /** Answers and lines met that were in it. */
  readonly steps: number;
  /** The last backup saved here: when, in milliseconds since 1970-01-01 UTC, and how much it held. */
  readonly backup: { readonly at: number; readonly steps: number } | null;
  /** Was the player offered, after the first session, to ask the browser. */
  readonly offered: boolean;
}

export const NO_MARK: Mark = { devices: [], steps: 0, backup: null, offered: false };

/** Whatever lies there: what cannot be read is as if there were nothing. */
export function parseMark(text: string | null): Mark {
  const { devices, steps, backup, offered } = fieldsOf(text);
  if (!Array.isArray(devices) || !devices.every((one) => typeof one === 'string')) return NO_MARK;
  if (!isCount(steps)) return NO_MARK;
  const { at, steps: held } = (backup ?? {}) as { at?: unknown; steps?: unknown };
  const saved = isCount(at) && isCount(held) ? { at, steps: held } : null;
  return { devices, steps, backup: saved, offered: offered === true };
}

function fieldsOf(text: string | null): Readonly<Record<string, unknown>> {
  try {
    const data: unknown = JSON.parse(text ?? 'null');
    return typeof data === 'object' && data !== null ? (data as Record<string, unknown>) : {};
  } catch (error) {
    if (error instanceof SyntaxError) return {};
    throw error;
  }
}

function isCount(data: unknown): data is number {
  return Number.isSafeInteger(data) && (data as number) >= 0;
}

type Kept = Pick<LogState, 'devices' | 'steps'>;

/** Were answers here, of which the log has nothing: the browser's data was cleared. */
export function isEmptied(mark: Mark, { devices }: Kept): boolean {
  return mark.steps > 0 && !mark.devices.some((device) => devices.has(device));
}

/** The mark of a log as it is. What was emptied stays marked until the player has been told. */
export function markOf(mark: Mark, log: Kept): Mark {
  if (isEmptied(mark, log)) return mark;
  return { ...mark, devices: [...log.devices.keys()], steps: log.steps };
}

/** Bytes, as the browser reckons them. */
export interface Room {
  readonly used: number;
  readonly given: number;
}

/**
 * Two years of forty answers a day are about 30,000, of 300 bytes each, and lie twice on the disk
 * while they are sealed: 18 MB. With less than that, a diligent player meets the end of it.
 */
export const LOW_BYTES = 20_000_000;

export function isLow({ used, given }: Room): boolean {
  return given - used < LOW_BYTES;
}

/** "640 kB", "3.2 MB", "12 GB". */
export function sizeWords(bytes: number): string {
  const [unit, name] = UNITS.find(([size]) => bytes >= size) ?? [1000, 'kB'];
  const size = bytes / unit;
  return `${size < 9.95 && unit > 1000 ? size.toFixed(1) : Math.round(size)} ${name}`;
}

const UNITS = [
  [1e9, 'GB'],
  [1e6, 'MB'],
  [1000, 'kB'],
] as const;

/** How old the last backup is, and what came since. */
export function backupWords({ backup }: Mark, steps: number, now: number): string {
  if (!backup) return 'No backup was saved on this device yet.';
  const days = Math.floor((now - backup.at) / 86_400_000);
  const age = days < 1 ? 'less than a day ago' : days === 1 ? 'a day ago' : `${days} days ago`;
  const since = steps - backup.steps;
  const more = since > 0 ? `; ${since} ${since === 1 ? 'answer' : 'answers'} since` : '';
  return `The last backup was saved ${age}${more}.`;
}

/** As many answers as a first session has; asked earlier, a player would not know what for. */
const FIRST_SESSION = 10;

/** Is it time to offer that the browser be asked. */
export function isTimeToOffer(mark: Mark, persisted: boolean | null, steps: number): boolean {
  return persisted === false && !mark.offered && steps >= FIRST_SESSION;
}
