import type { Table } from './geometry.ts';

/** Standard acceleration of free fall, m/s² (ISO 80000-3). */
export const GRAVITY = 9.80665;

const INCH = 0.0254;
const DEGREE = Math.PI / 180;

/** The named speeds of a chart, from soft to firm. */
export const SPEEDS = ['soft', 'medium', 'firm'] as const;
export type Speed = (typeof SPEEDS)[number];

/**
 * How a table plays.
 * Published ranges: cloth sliding friction 0.15–0.4, rolling 0.005–0.015, cushion restitution
 * 0.6–0.9 (Alciatore, physics FAQ). Mathavan, Jackson & Parkin 2010 measured a nose friction of
 * 0.14 on a snooker table.
 */
export interface Condition {
  /** Coefficient of restitution of the cushion (energetic), 0–1. */
  readonly restitution: number;
  /** Coulomb friction between ball and cushion nose. */
  readonly noseFriction: number;
  /** Coulomb friction between a sliding ball and the cloth. */
  readonly slideFriction: number;
  /** Rolling resistance of the cloth, as a fraction of the ball's weight. */
  readonly rollFriction: number;
  /** How fast the cloth slows the spin about the vertical axis, rad/s² (5–15, from memory). */
  readonly spinDecay: number;
  /** Speed of the ball as it leaves the start of its line, m/s. */
  readonly speeds: Readonly<Record<Speed, number>>;
}

/**
 * Widths of the pocket mouths from tip to tip, in meters. `standard` is the middle of the WPA's
 * ranges (corner 4.5–4.625 in, side 5–5.125 in). The other two are common practice, without a
 * source.
 */
export const POCKET_SIZES = {
  tight: { cornerMouth: 4.25 * INCH, sideMouth: 4.75 * INCH },
  standard: { cornerMouth: 4.5625 * INCH, sideMouth: 5.0625 * INCH },
  generous: { cornerMouth: 5 * INCH, sideMouth: 5.5 * INCH },
} as const satisfies Readonly<Record<string, Pick<Table, 'cornerMouth' | 'sideMouth'>>>;
export type PocketSize = keyof typeof POCKET_SIZES;

/**
 * WPA equipment specifications: the ball is 2 1/4 in wide, the sights are 3 11/16 in behind the
 * nose, and the nose is at 63.5 % of the ball's diameter.
 */
const COMMON = {
  ballRadius: 1.125 * INCH,
  sightSetback: 3.6875 * INCH,
  noseHeight: 0.635,
  ...POCKET_SIZES.standard,
  // WPA equipment specifications: cut angles 142° and 104°, each ± 1°.
  cornerCut: 142 * DEGREE,
  sideCut: 104 * DEGREE,
  // The middle of the WPA's ranges 1–2.25 in and 0–0.375 in (the ranges are from memory).
  cornerShelf: 1.625 * INCH,
  sideShelf: 0.1875 * INCH,
  // No published figure is known; this size is from memory.
  tipRadius: 0.15 * INCH,
} as const;

function tableOf(lengthInches: number, widthInches: number): Table {
  return { ...COMMON, length: lengthInches * INCH, width: widthInches * INCH };
}

/**
 * Playing surfaces, measured from nose to nose (WPA and CSI equipment specifications; the 8 ft size
 * is common practice).
 */
export const TABLES = {
  '9ft': tableOf(100, 50),
  pro8ft: tableOf(92, 46),
  csi8ft: tableOf(90, 45),
  '8ft': tableOf(88, 44),
  '7ft': tableOf(80, 40),
} as const satisfies Readonly<Record<string, Table>>;
export type TableSize = keyof typeof TABLES;

export function withPockets(table: Table, size: PocketSize): Table {
  return { ...table, ...POCKET_SIZES[size] };
}

/**
 * The default condition. It is inside the published ranges and was chosen because it gives credible
 * charts. Its soft and medium speeds are 5 and 7 mph, from Alciatore's named speeds; firm is 4.6
 * m/s.
 */
export const CLUB_CLOTH: Condition = {
  restitution: 0.88,
  noseFriction: 0.15,
  slideFriction: 0.17,
  rollFriction: 0.01,
  spinDecay: 10,
  speeds: { soft: 2.235, medium: 3.129, firm: 4.6 },
};

/**
 * Conditions to start from, ordered from fast to slow. They are made up, but inside the published
 * ranges.
 */
export const CONDITIONS = {
  'slick new cloth': {
    ...CLUB_CLOTH,
    restitution: 0.9,
    noseFriction: 0.12,
    slideFriction: 0.15,
    rollFriction: 0.007,
  },
  'club cloth': CLUB_CLOTH,
  'worn and slow': {
    ...CLUB_CLOTH,
    restitution: 0.82,
    noseFriction: 0.18,
    slideFriction: 0.22,
    rollFriction: 0.014,
  },
  'dead cushions': { ...CLUB_CLOTH, restitution: 0.76 },
} as const satisfies Readonly<Record<string, Condition>>;
export type ConditionName = keyof typeof CONDITIONS;

/**
 * Returns the sine of the angle at which the nose touches the ball above its center. It is 2p − 1
 * if the nose is at the fraction p of the ball's diameter.
 */
export function contactSine(table: Table): number {
  return 2 * table.noseHeight - 1;
}
