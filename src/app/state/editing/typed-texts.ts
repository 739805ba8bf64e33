/** Texts in the editor's cells: those being typed, and those that are not numbers. */

import {
  type ChartState,
  type Decimal,
  formatDecimal,
  type LinePlace,
  PATTERNS,
  patternOf,
} from '../../../charts/index.ts';
import { SPEEDS, type Speed } from '../../../table/index.ts';

/** What a text was read as: a number, null for an empty text, or why it is not one. */
export type TypedNumber =
  | { readonly ok: true; readonly number: Decimal | null }
  | { readonly ok: false; readonly say: string };

export interface TypedCell extends LinePlace {
  readonly speed: Speed;
}

export interface TypedText {
  readonly cell: TypedCell;
  readonly text: string;
  readonly isNumber: boolean;
  /** What the cell held before it was typed into, and holds while its text is not a number. */
  readonly before: Decimal | null;
  /** The chart's state once the text was typed: tells whether an edit came after it. */
  readonly at: ChartState;
}

export type TypedTexts = ReadonlyMap<string, TypedText>;

/** The cell's name; messages about a text that is not a number show it. */
export function typedKey({ pattern, start, speed }: TypedCell): string {
  return `${patternOf(pattern).name} from ${formatDecimal(start)}, ${speed}`;
}

export function numberIn({ measured }: ChartState, cell: TypedCell): Decimal | null {
  const { pattern, start, speed } = cell;
  const line = measured.find((one) => one.pattern === pattern && one.start === start);
  return line?.[speed] ?? null;
}

/** Adds a text as the one typed last. */
export function withText(texts: TypedTexts, typed: TypedText): TypedTexts {
  const key = typedKey(typed.cell);
  return new Map([...withoutText(texts, key), [key, typed]]);
}

export function withoutText(texts: TypedTexts, key: string): TypedTexts {
  return new Map([...texts].filter(([one]) => one !== key));
}

/** Texts that are not numbers, in the order they were typed. */
export function faultyTexts(texts: TypedTexts): readonly TypedText[] {
  return [...texts.values()].filter(({ isNumber }) => !isNumber);
}

/** Cells whose text is not a number, in the order of the editor. */
export function faultyCells(texts: TypedTexts): readonly TypedCell[] {
  const pattern = (cell: TypedCell) => PATTERNS.findIndex(({ id }) => id === cell.pattern);
  return faultyTexts(texts)
    .map(({ cell }) => cell)
    .sort(
      (a, b) =>
        pattern(a) - pattern(b) ||
        a.start - b.start ||
        SPEEDS.indexOf(a.speed) - SPEEDS.indexOf(b.speed),
    );
}

/** The text that the next undo removes: one typed after the last edit, or any once no edit is left. */
export function textToUndo(
  texts: TypedTexts,
  now: ChartState,
  hasPast: boolean,
): TypedText | undefined {
  return faultyTexts(texts).findLast(({ at }) => at === now || !hasPast);
}
