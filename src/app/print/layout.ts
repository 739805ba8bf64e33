/** The layout of printed paper. Lengths are millimeters of paper. */

export interface Size {
  readonly width: number;
  readonly height: number;
}

/** A4: ISO 216. Letter: size A of ANSI/ASME Y14.1, 8.5 × 11 in. Both upright. */
export const PAPERS = {
  A4: { width: 210, height: 297 },
  Letter: { width: 215.9, height: 279.4 },
} as const satisfies Readonly<Record<string, Size>>;
export type PaperName = keyof typeof PAPERS;
export const PAPER_NAMES = Object.keys(PAPERS) as readonly PaperName[];

/** Territories that print on Letter (from memory of CLDR's paperSize); all others print on A4. */
const LETTER = new Set('BZ CA CL CO CR GT MX NI PA PH PR SV US VE'.split(' '));

/** The paper of a language tag's territory; A4 without a territory. */
export function paperOf(language: string): PaperName {
  const territory = language.split('-').find((part) => /^[A-Z]{2}$/.test(part));
  return territory && LETTER.has(territory) ? 'Letter' : 'A4';
}

/** Scales that are easy to use: a millimeter of paper stands for this many of the table. */
export const SCALES = [10, 12, 15, 20, 25, 30, 40, 50, 60, 75, 100, 150] as const;
export type Scale = (typeof SCALES)[number];

/** The largest scale at which something fits its room; null if it fits at none. */
export function largestScale(sizeAt: (scale: Scale) => Size, room: Size): Scale | null {
  const fitting = SCALES.find((scale) => {
    const { width, height } = sizeAt(scale);
    return width <= room.width && height <= room.height;
  });
  return fitting ?? null;
}

/** Printers leave the last few millimeters of paper white. */
export const MARGIN = 10;

/** Room around the figure of a page: above it, below it, and to its right. */
const ABOVE = 17;
const BELOW = 28;
const BESIDE = 60;

/** The room for the figure of a full page. */
export function pageRoom(paper: PaperName): Size {
  const { width, height } = PAPERS[paper];
  return {
    width: width - 2 * MARGIN - BESIDE,
    height: height - 2 * MARGIN - ABOVE - BELOW,
  };
}

/** Panels of a folding sheet, in landscape: two rows of four. */
export const COLUMNS = 4;
const ROWS = 2;

/** Margins at the edge of the paper and at a fold. */
const EDGE = 8.5;
const FOLD = 3.5;

export function panelSize(paper: PaperName): Size {
  const { width, height } = PAPERS[paper];
  return { width: height / COLUMNS, height: width / ROWS };
}

/** The printable part of a panel, the same in all, so that nothing is cut. */
export function panelInside(paper: PaperName): Size {
  const { width, height } = panelSize(paper);
  return { width: width - EDGE - FOLD, height: height - EDGE - FOLD };
}

/** The room for a panel's figure, with numbers beside it, the name above and words below. */
export function pocketRoom(paper: PaperName): Size {
  const { width, height } = panelInside(paper);
  return { width: width - 27, height: height - 38 };
}

export interface PanelPlace {
  readonly row: 'upper' | 'lower';
  /** Counted from the left of the sheet, from 0. */
  readonly column: number;
  /** Printed upside down. */
  readonly turned: boolean;
}

/**
 * The place of a sheet's nth panel in reading order, from 0. The lower row is the front of the
 * folded strip, read from left to right. The upper row folds over the back and hangs upside down, so
 * it is printed upside down, and its right end is read first.
 */
export function panelPlace(n: number): PanelPlace {
  if (!Number.isInteger(n) || n < 0 || n >= ROWS * COLUMNS) {
    throw new RangeError(`no panel ${n} on a sheet`);
  }
  if (n < COLUMNS) return { row: 'lower', column: n, turned: false };
  return { row: 'upper', column: ROWS * COLUMNS - 1 - n, turned: true };
}

/** Panels of a sheet besides its cover. */
export const PATTERNS_A_SHEET = ROWS * COLUMNS - 1;

/** Splits things, in order, into lots of at most this many. */
export function lotsOf<T>(things: readonly T[], most: number): readonly (readonly T[])[] {
  if (!(most >= 1)) throw new RangeError(`no lots of ${most}`);
  const count = Math.ceil(things.length / most);
  return Array.from({ length: count }, (_, n) => things.slice(n * most, (n + 1) * most));
}

/** Rows beside a page's figure; rows in a column, and columns, of a page without a figure. */
const BESIDE_ROWS = 22;
const COLUMN_ROWS = 34;
const PAGE_COLUMNS = 3;

/** The rows beside the figure, and those of each further page by column. */
export function spreadRows<T>(rows: readonly T[]): {
  readonly beside: readonly T[];
  readonly further: readonly (readonly (readonly T[])[])[];
} {
  return {
    beside: rows.slice(0, BESIDE_ROWS),
    further: lotsOf(lotsOf(rows.slice(BESIDE_ROWS), COLUMN_ROWS), PAGE_COLUMNS),
  };
}
