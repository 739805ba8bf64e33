/** What a player has typed, pointed at or chosen so far, before calling it. Pure. */

import { fieldsOf, parseAnswer, type Question } from '../../cards/index.ts';
import { type Decimal, formatDecimal, toDecimal, type VerdictKind } from '../../charts/index.ts';

export interface Entry {
  /** One text per field: a number as typed, or a verdict's name. */
  readonly texts: readonly string[];
  readonly field: number;
  readonly problem: string | null;
  /** The player pointed at the current number: the next digit begins a new one. */
  readonly pointed?: boolean;
}

/** The actions on an entry, by the pad, by keys, or at the rail. */
export interface Answering {
  /** A digit, a sign or a decimal mark at the end of the current field. */
  readonly type: (character: string) => void;
  readonly erase: () => void;
  readonly flipSign: () => void;
  readonly goTo: (field: number) => void;
  /** Puts a number that the player pointed at in a field, diamonds. */
  readonly point: (field: number, diamond: number) => void;
  readonly choose: (verdict: VerdictKind) => void;
  /** Calls the answer; moves to the next field if there is one without a text. */
  readonly submit: () => Promise<void>;
  /** Shows the answer; null where the player may not ask for it. */
  readonly showMe: (() => Promise<void>) | null;
}

/** The longest text of a field, characters. */
const LONGEST = 8;

/** The actions that change an entry and write nothing. */
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

/** Editing clears the problem and keeps everything else. */
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
  // The pad's own minus, so that erasing and typing can continue from it.
  const text = formatDecimal(toDecimal(diamond)).replace('−', '-');
  return { ...edited(entry, field, () => text), pointed: true };
}

export function chosen(entry: Entry, verdict: VerdictKind): Entry {
  return edited(entry, 0, () => verdict);
}

/** The number in a field, for the mark on the rail; null if it cannot be read. */
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

/** The values if all fields can be read; otherwise the entry with the problem, or at the next field. */
export function readEntry(question: Question, entry: Entry): ReadEntry {
  const parsed = parseAnswer(question, entry.texts);
  if (parsed.ok) return parsed;
  const untouched = parsed.field > entry.field && parsed.error === 'empty';
  const problem = untouched ? null : parsed.say;
  return { ok: false, entry: { texts: entry.texts, field: parsed.field, problem } };
}
