/** Measures the box of a room: its name, its caption, and its sub-folders in rows. */

import type { Room } from './rooms.ts';

export interface Chip {
  readonly name: string;
  /** x and y of the upper left corner, relative to the box. */
  readonly x: number;
  readonly y: number;
  readonly width: number;
}

export interface Size {
  readonly width: number;
  readonly height: number;
  readonly caption: readonly string[];
  readonly chips: readonly Chip[];
}

/** What each room contains. */
export const CAPTIONS: Readonly<Record<string, string>> = {
  'main.tsx': 'wires clock, chance, storage, workers and page together',
  app: 'the screens: a folder for each feature, above what they share',
  workers: 'background work, and the page’s side of it',
  quiz: 'sessions, and the question and answer they share',
  sync: 'several devices, one encrypted folder',
  store: 'IndexedDB: log, charts, settings, backup',
  scheduler: 'events, memory, what to ask',
  cards: 'questions, answers, grades, replays',
  figure: 'the table and the plots, in SVG',
  shots: 'what test shots tell about a table',
  charts: 'patterns, documents, numbers, files',
  table: 'geometry, impacts, pockets, solver',
  bytes: 'byte strings, deflate, bounded reading',
};

export const CHIP = 24;
export const TITLE = 24;
const LINE = 17;
const GAP = 6;
const PADDING = 12;
/** Characters in a line of a caption. */
const LONGEST_LINE = 36;
const LONGEST_WORD = 8;
/** Longer rows of chips are folded. */
const WIDEST_ROW = 640;

/** Width of a letter in the widest common system fonts. */
const LETTER = 7.2;

export function measured(room: Room): Size {
  const rows = [...room.parts].reverse().flatMap(folded);
  const across = Math.max(0, ...rows.map(widthOf));
  const words = CAPTIONS[room.name] ?? '';
  const caption = wrapped(words, Math.max(LONGEST_LINE, Math.floor(across / LETTER)));
  const letters = Math.max(room.name.length * 1.3, ...caption.map(({ length }) => length));
  const width = Math.max(across, letters * LETTER) + 2 * PADDING;
  const top = PADDING + TITLE + caption.length * LINE + (rows.length > 0 ? GAP : 0);
  const chips = rows.flatMap((row, n) => chipsIn(row, width, top + n * (CHIP + GAP)));
  const height = top + rows.length * (CHIP + GAP) + PADDING - GAP / 2;
  return { width: Math.ceil(width), height: Math.ceil(height), caption, chips };
}

function chipWidth(name: string): number {
  return name.length * LETTER + 18;
}

function widthOf(row: readonly string[]): number {
  return row.reduce((sum, name) => sum + chipWidth(name) + GAP, -GAP);
}

/** Splits a row into as few rows as fit, of about equal length. */
function folded(row: readonly string[]): readonly (readonly string[])[] {
  const count = Math.ceil(widthOf(row) / WIDEST_ROW);
  const each = Math.ceil(row.length / count);
  return Array.from({ length: count }, (_, n) => row.slice(n * each, (n + 1) * each));
}

function chipsIn(row: readonly string[], width: number, y: number): readonly Chip[] {
  let x = (width - widthOf(row)) / 2;
  return row.map((name) => {
    const chip = { name, x, y, width: chipWidth(name) };
    x += chip.width + GAP;
    return chip;
  });
}

/** Splits a text into lines of about equal length. */
function wrapped(text: string, most: number): readonly string[] {
  const count = Math.ceil(text.length / most);
  return filled(text, Math.ceil(text.length / count) + LONGEST_WORD / 2);
}

function filled(text: string, most: number): readonly string[] {
  const lines: string[] = [];
  for (const word of text.split(' ').filter(Boolean)) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= most)
      lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}
