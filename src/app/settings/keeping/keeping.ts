/**
 * The rules for whether the browser will keep what is stored, without calls to the browser. A mark
 * outside the database records that answers were here. It tells an emptied database from a new one.
 */

import type { LogState } from '../../../scheduler/index.ts';

/** What a device records outside its database. */
export interface Mark {
  /** The ids of the devices whose events were in the log. */
  readonly devices: readonly string[];
  /** How many answers the log had, plus how many lines met. */
  readonly steps: number;
  /**
   * The last backup saved here: its time in milliseconds since 1970-01-01 UTC, and how many steps
   * the log had then.
   */
  readonly backup: { readonly at: number; readonly steps: number } | null;
  /**
   * Whether the app has offered to ask the browser for lasting storage. It offers that after the
   * first session.
   */
  readonly offered: boolean;
}

export const NO_MARK: Mark = { devices: [], steps: 0, backup: null, offered: false };

/** Parses any text. Text that cannot be read counts as no mark. */
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

/**
 * Returns whether the mark counts answers that the log lacks, because the browser's data was
 * cleared.
 */
export function isEmptied(mark: Mark, { devices }: Kept): boolean {
  return mark.steps > 0 && !mark.devices.some((device) => devices.has(device));
}

/**
 * Returns the mark of the current log. For an emptied log it returns the old mark, until the player
 * knows.
 */
export function markOf(mark: Mark, log: Kept): Mark {
  if (isEmptied(mark, log)) return mark;
  return { ...mark, devices: [...log.devices.keys()], steps: log.steps };
}

/**
 * The storage that is used and the storage that is allowed, in bytes as the browser counts them.
 */
export interface Room {
  readonly used: number;
  readonly given: number;
}

/**
 * Forty answers a day for two years make about 30,000 answers of 300 bytes each. During
 * the act of sealing the log they are stored twice, which takes 18 MB. With less room, a diligent
 * player may run out.
 */
export const LOW_BYTES = 20_000_000;

export function isLow({ used, given }: Room): boolean {
  return given - used < LOW_BYTES;
}

/** Returns a size such as "640 kB", "3.2 MB" or "12 GB". */
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

/** Says how old the last backup is, and how many answers came after it. */
export function backupWords({ backup }: Mark, steps: number, now: number): string {
  if (!backup) return 'No backup was saved on this device yet.';
  const days = Math.floor((now - backup.at) / 86_400_000);
  const age = days < 1 ? 'less than a day ago' : days === 1 ? 'a day ago' : `${days} days ago`;
  const since = steps - backup.steps;
  const more = since > 0 ? `; ${since} ${since === 1 ? 'answer' : 'answers'} since` : '';
  return `The last backup was saved ${age}${more}.`;
}

/**
 * How many answers a first session has. Before that, a player would not know why to ask the
 * browser.
 */
const FIRST_SESSION = 10;

/** Returns whether it is time to offer to ask the browser for lasting storage. */
export function isTimeToOffer(mark: Mark, persisted: boolean | null, steps: number): boolean {
  return persisted === false && !mark.offered && steps >= FIRST_SESSION;
}
