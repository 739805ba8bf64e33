/**
 * Whether the browser will keep what is stored: the rules, without the browser. A mark outside the
 * database records that answers were here: it tells an emptied database from a new one.
 */

import type { LogState } from '../../../scheduler/index.ts';

/** What a device records outside its database. */
export interface Mark {
  /** Devices whose events were in the log. */
  readonly devices: readonly string[];
  /** How many answers and lines met the log had. */
  readonly steps: number;
  /** The last backup saved here: when, milliseconds since 1970-01-01 UTC, and its steps. */
  readonly backup: { readonly at: number; readonly steps: number } | null;
  /** Whether the app has offered, after the first session, to ask the browser. */
  readonly offered: boolean;
}

export const NO_MARK: Mark = { devices: [], steps: 0, backup: null, offered: false };

/** Parses any text; what cannot be read counts as no mark. */
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

/** Whether answers were here that the log does not have: the browser's data was cleared. */
export function isEmptied(mark: Mark, { devices }: Kept): boolean {
  return mark.steps > 0 && !mark.devices.some((device) => devices.has(device));
}

/** The mark of the current log. An emptied log keeps its mark until the player knows. */
export function markOf(mark: Mark, log: Kept): Mark {
  if (isEmptied(mark, log)) return mark;
  return { ...mark, devices: [...log.devices.keys()], steps: log.steps };
}

/** Bytes, as the browser counts them. */
export interface Room {
  readonly used: number;
  readonly given: number;
}

/**
 * Two years of forty answers a day are about 30,000, of 300 bytes each; sealing holds them twice:
 * 18 MB. With less room than that, a diligent player runs out of it.
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

/** How old the last backup is, and how many answers came since. */
export function backupWords({ backup }: Mark, steps: number, now: number): string {
  if (!backup) return 'No backup was saved on this device yet.';
  const days = Math.floor((now - backup.at) / 86_400_000);
  const age = days < 1 ? 'less than a day ago' : days === 1 ? 'a day ago' : `${days} days ago`;
  const since = steps - backup.steps;
  const more = since > 0 ? `; ${since} ${since === 1 ? 'answer' : 'answers'} since` : '';
  return `The last backup was saved ${age}${more}.`;
}

/** The answers of a first session. Asked earlier, a player would not know what for. */
const FIRST_SESSION = 10;

/** Whether to offer to ask the browser now. */
export function isTimeToOffer(mark: Mark, persisted: boolean | null, steps: number): boolean {
  return persisted === false && !mark.offered && steps >= FIRST_SESSION;
}
