/** Texts in the editor's cells, as they are typed or as they were left because they are no number. */

import {
  type ChartState,
  type Decimal,
  formatDecimal,
  type LinePlace,
  PATTERNS,
  patternOf,
} from '../../charts/index.ts';
import { SPEEDS, type Speed } from '../../table/index.ts';

export interface TypedCell extends LinePlace {
  readonly speed: Speed;
}

export interface TypedText {
  readonly cell: TypedCell;
  readonly text: string;
  readonly isNumber: boolean;
  /** What the cell held before it was typed into; a text that is no number leaves it at that. */
  readonly before: Decimal | null;
  /** The chart as it was when the text was typed: it tells which of two changes came later. */
  readonly at: ChartState;
}

export type TypedTexts = ReadonlyMap<string, TypedText>;

/** As the cell is named, for it is told where one holds no number. */
export function typedKey({ pattern, start, speed }: TypedCell): string {
  return `${patternOf(pattern).name} from ${formatDecimal(start)}, ${speed}`;
}

export function numberIn({ measured }: ChartState, cell: TypedCell): Decimal | null {
  const { pattern, start, speed } = cell;
  const line = measured.find((one) => one.pattern === pattern && one.start === start);
  return line?.[speed] ?? null;
}

/** With a text as the one that was typed last. */
export function withText(texts: TypedTexts, typed: TypedText): TypedTexts {
  const key = typedKey(typed.cell);
  return new Map([...withoutText(texts, key), [key, typed]]);
}

export function withoutText(texts: TypedTexts, key: string): TypedTexts {
  return new Map([...texts].filter(([one]) => one !== key));
}

/** Those that are no number, in the order in which they were typed. */
export function faultyTexts(texts: TypedTexts): readonly TypedText[] {
  return [...texts.values()].filter(({ isNumber }) => !isNumber);
}

/** Those that are no number, in the order in which they stand in the editor. */
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

/** The text that the next undo takes back: one that was typed after the last change, or all that is left. */
export function textToUndo(
  texts: TypedTexts,
  now: ChartState,
  hasPast: boolean,
): TypedText | undefined {
  return faultyTexts(texts).findLast(({ at }) => at === now || !hasPast);
}
