/** The layout of printed paper. Lengths are millimeters of paper. */

export interface Size {
  readonly width: number;
  readonly height: number;
}

/**
 * The sizes of upright paper. A4 is from ISO 216; Letter is size A of ANSI/ASME Y14.1, 8.5 × 11 in.
 */
export const PAPERS = {
  A4: { width: 210, height: 297 },
  Letter: { width: 215.9, height: 279.4 },
} as const satisfies Readonly<Record<string, Size>>;
export type PaperName = keyof typeof PAPERS;
export const PAPER_NAMES = Object.keys(PAPERS) as readonly PaperName[];

/** Territories that print on Letter (from memory of CLDR's paperSize); all others print on A4. */
const LETTER = new Set('BZ CA CL CO CR GT MX NI PA PH PR SV US VE'.split(' '));

/** Returns the paper of the territory in a language tag; A4 if the tag has no territory. */
export function paperOf(language: string): PaperName {
  const territory = language.split('-').find((part) => /^[A-Z]{2}$/.test(part));
  return territory && LETTER.has(territory) ? 'Letter' : 'A4';
}

/** Scales that are easy to use. One millimeter of paper is this many millimeters of the table. */
export const SCALES = [10, 12, 15, 20, 25, 30, 40, 50, 60, 75, 100, 150] as const;
export type Scale = (typeof SCALES)[number];

/** Returns the largest scale at which something fits its room; null if it fits at none. */
export function largestScale(sizeAt: (scale: Scale) => Size, room: Size): Scale | null {
  const fitting = SCALES.find((scale) => {
    const { width, height } = sizeAt(scale);
    return width <= room.width && height <= room.height;
  });
  return fitting ?? null;
}

/** The margin of a page. Printers leave the last few millimeters of paper white. */
export const MARGIN = 10;

/** The room to leave around the figure of a page: above it, below it, and to its right. */
const ABOVE = 17;
const BELOW = 28;
const BESIDE = 60;

/** Returns the room for the figure of a full page. */
export function pageRoom(paper: PaperName): Size {
  const { width, height } = PAPERS[paper];
  return {
    width: width - 2 * MARGIN - BESIDE,
    height: height - 2 * MARGIN - ABOVE - BELOW,
  };
}

/** The panels of a folding sheet in landscape: two rows of four. */
export const COLUMNS = 4;
const ROWS = 2;

/** The margins of a panel at the edge of the paper, and at a fold. */
const EDGE = 8.5;
const FOLD = 3.5;

export function panelSize(paper: PaperName): Size {
  const { width, height } = PAPERS[paper];
  return { width: height / COLUMNS, height: width / ROWS };
}

/**
 * Returns the printable part of a panel. It is the same in all panels, so that nothing is cut off.
 */
export function panelInside(paper: PaperName): Size {
  const { width, height } = panelSize(paper);
  return { width: width - EDGE - FOLD, height: height - EDGE - FOLD };
}

/**
 * Returns the room for a panel's figure. It leaves room for numbers beside it, the name above and
 * words below.
 */
export function pocketRoom(paper: PaperName): Size {
  const { width, height } = panelInside(paper);
  return { width: width - 27, height: height - 38 };
}

export interface PanelPlace {
  readonly row: 'upper' | 'lower';
  /** The number of the column, counted from 0 at the left of the sheet. */
  readonly column: number;
  /** Whether the panel is printed upside down. */
  readonly turned: boolean;
}

/**
 * Returns the place of a sheet's nth panel in reading order, counted from 0. The lower row is the
 * front of the folded strip and is read from left to right. The upper row folds over the back and
 * hangs upside down, so it is printed upside down, and its right end is read first.
 */
export function panelPlace(n: number): PanelPlace {
  if (!Number.isInteger(n) || n < 0 || n >= ROWS * COLUMNS) {
    throw new RangeError(`no panel ${n} on a sheet`);
  }
  if (n < COLUMNS) return { row: 'lower', column: n, turned: false };
  return { row: 'upper', column: ROWS * COLUMNS - 1 - n, turned: true };
}

/** How many panels of a sheet are left after its cover. */
export const PATTERNS_A_SHEET = ROWS * COLUMNS - 1;

/** Splits things, in order, into groups of at most `most` things. */
export function lotsOf<T>(things: readonly T[], most: number): readonly (readonly T[])[] {
  if (!(most >= 1)) throw new RangeError(`no lots of ${most}`);
  const count = Math.ceil(things.length / most);
  return Array.from({ length: count }, (_, n) => things.slice(n * most, (n + 1) * most));
}

/**
 * How many rows fit beside a page's figure. On a page without a figure: how many rows fit in a
 * column, and how many columns fit.
 */
const BESIDE_ROWS = 22;
const COLUMN_ROWS = 34;
const PAGE_COLUMNS = 3;

/** Returns the rows beside the figure, and the rows of each further page by column. */
export function spreadRows<T>(rows: readonly T[]): {
  readonly beside: readonly T[];
  readonly further: readonly (readonly (readonly T[])[])[];
} {
  return {
    beside: rows.slice(0, BESIDE_ROWS),
    further: lotsOf(lotsOf(rows.slice(BESIDE_ROWS), COLUMN_ROWS), PAGE_COLUMNS),
  };
}
