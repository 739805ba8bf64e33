/** What a player has typed, pointed at or chosen before submitting it as the answer. Pure. */

import { fieldsOf, parseAnswer, type Question } from '../../cards/index.ts';
import { type Decimal, formatDecimal, toDecimal, type VerdictKind } from '../../charts/index.ts';

export interface Entry {
  /** One text per field: either a number as typed, or the name of a verdict. */
  readonly texts: readonly string[];
  readonly field: number;
  readonly problem: string | null;
  /**
   * Whether the player set the current number by pointing. The next digit then begins a new number.
   */
  readonly pointed?: boolean;
}

/** The actions on an entry. They come from the number pad, from the keyboard, or from the rail. */
export interface Answering {
  /** Adds a digit, a sign or a decimal mark at the end of the current field. */
  readonly type: (character: string) => void;
  readonly erase: () => void;
  readonly flipSign: () => void;
  readonly goTo: (field: number) => void;
  /** Fills a field with a number that the player pointed at, in diamonds. */
  readonly point: (field: number, diamond: number) => void;
  readonly choose: (verdict: VerdictKind) => void;
  /**
   * Submits the entry as the answer. If a further field is still empty, it moves to that field
   * instead.
   */
  readonly submit: () => Promise<void>;
  /** Shows the answer; null where the player may not ask for it. */
  readonly showMe: (() => Promise<void>) | null;
}

/** The maximum length of a field's text, in characters. */
const LONGEST = 8;

/** The actions that only change the entry and write nothing to the disk. */
export type Editing = Omit<Answering, 'submit' | 'showMe'>;

/** @param edit applies a change to the entry on the screen, if there is one */
export function editing(edit: (change: (entry: Entry) => Entry) => void): Editing {
  return {
    type: (character) => edit((entry) => typed(entry, character)),
    erase: () => edit(erased),
    flipSign: () => edit(signFlipped),
    goTo: (field) => edit((entry) => ({ ...entry, field })),
    point: (field, diamond) => edit((entry) => pointedAt(entry, field, diamond)),
    choose: (verdict) => edit((entry) => chosen(entry, verdict)),
  };
}

export function emptyEntry(question: Question): Entry {
  return { texts: fieldsOf(question).map(() => ''), field: 0, problem: null };
}

/** Changes the text of a field and clears the problem. The other texts stay. */
function edited(entry: Entry, field: number, change: (text: string) => string): Entry {
  const texts = entry.texts.map((text, n) => (n === field ? change(text) : text));
  return { texts, field, problem: null, pointed: false };
}

export function typed(entry: Entry, character: string): Entry {
  return edited(entry, entry.field, (text) =>
    (entry.pointed ? character : text + character).slice(0, LONGEST),
  );
}

export function erased(entry: Entry): Entry {
  return edited(entry, entry.field, (text) => text.slice(0, -1));
}

export function signFlipped(entry: Entry): Entry {
  return edited(entry, entry.field, (text) => (text.startsWith('-') ? text.slice(1) : `-${text}`));
}

export function pointedAt(entry: Entry, field: number, diamond: number): Entry {
  // Uses the minus sign of the number pad, so that the player can erase and continue typing.
  const text = formatDecimal(toDecimal(diamond)).replace('−', '-');
  return { ...edited(entry, field, () => text), pointed: true };
}

export function chosen(entry: Entry, verdict: VerdictKind): Entry {
  return edited(entry, 0, () => verdict);
}

/**
 * Returns the number in a field, for the mark on the rail; null if the text is not a valid number.
 */
export function numberIn(question: Question, entry: Entry, field: number): number | null {
  const bounds = fieldsOf(question)[field];
  const value = Number((entry.texts[field] ?? '').replace(',', '.') || Number.NaN);
  if (!bounds || !Number.isFinite(value)) return null;
  const units = toDecimal(value);
  return bounds.least <= units && units <= bounds.most ? value : null;
}

export type ReadEntry =
  | { readonly ok: true; readonly values: readonly Decimal[] }
  | { readonly ok: false; readonly entry: Entry };

/**
 * Returns the values if all fields are valid. Otherwise returns the entry, moved to the first field
 * that is not valid. The entry then has a problem, unless that field is a later one that is empty.
 */
export function readEntry(question: Question, entry: Entry): ReadEntry {
  const parsed = parseAnswer(question, entry.texts);
  if (parsed.ok) return parsed;
  const untouched = parsed.field > entry.field && parsed.error === 'empty';
  const problem = untouched ? null : parsed.say;
  return { ok: false, entry: { texts: entry.texts, field: parsed.field, problem } };
}
