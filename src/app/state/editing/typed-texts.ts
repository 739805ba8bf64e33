/** The texts in the editor's cells that are being typed or that are not numbers. */

import {
  type ChartState,
  type Decimal,
  formatDecimal,
  type LinePlace,
  PATTERNS,
  patternOf,
} from '../../../charts/index.ts';
import { SPEEDS, type Speed } from '../../../table/index.ts';

/** The result of reading a text: a number, null if the text is empty, or why it is not a number. */
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
  /** The cell's number before the typing. The draft keeps it while the text is not a number. */
  readonly before: Decimal | null;
  /** The state of the chart when the text was typed. It tells whether an edit came after that. */
  readonly at: ChartState;
}

export type TypedTexts = ReadonlyMap<string, TypedText>;

/** Returns the cell's name. Messages about a text that is not a number show it. */
export function typedKey({ pattern, start, speed }: TypedCell): string {
  return `${patternOf(pattern).name} from ${formatDecimal(start)}, ${speed}`;
}

export function numberIn({ measured }: ChartState, cell: TypedCell): Decimal | null {
  const { pattern, start, speed } = cell;
  const line = measured.find((one) => one.pattern === pattern && one.start === start);
  return line?.[speed] ?? null;
}

/** Adds a text as the last one typed. */
export function withText(texts: TypedTexts, typed: TypedText): TypedTexts {
  const key = typedKey(typed.cell);
  return new Map([...withoutText(texts, key), [key, typed]]);
}

export function withoutText(texts: TypedTexts, key: string): TypedTexts {
  return new Map([...texts].filter(([one]) => one !== key));
}

/** Returns the texts that are not numbers, in the order in which they were typed. */
export function faultyTexts(texts: TypedTexts): readonly TypedText[] {
  return [...texts.values()].filter(({ isNumber }) => !isNumber);
}

/** Returns the cells with a text that is not a number, in the editor's order. */
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

/**
 * Returns the text that the next undo removes: the newest one typed after the last edit, or the newest
 * of all if no edit is left.
 */
export function textToUndo(
  texts: TypedTexts,
  now: ChartState,
  hasPast: boolean,
): TypedText | undefined {
  return faultyTexts(texts).findLast(({ at }) => at === now || !hasPast);
}
