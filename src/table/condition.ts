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
 * 0.6–0.9 (Alciatore, physics FAQ). Friction at the nose 0.14 was measured on a snooker table by
 * Mathavan, Jackson & Parkin 2010.
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
  /** Deceleration of spin about the vertical by the cloth, rad/s² (5–15, from memory). */
  readonly spinDecay: number;
  /** Speed of the ball as it leaves the start of its line, m/s. */
  readonly speeds: Readonly<Record<Speed, number>>;
}

/**
 * Mouths of the pockets, tip to tip. `standard` is the middle of WPA's ranges (corner 4.5–4.625 in,
 * side 5–5.125 in); the other two are common practice, no source.
 */
export const POCKET_SIZES = {
  tight: { cornerMouth: 4.25 * INCH, sideMouth: 4.75 * INCH },
  standard: { cornerMouth: 4.5625 * INCH, sideMouth: 5.0625 * INCH },
  generous: { cornerMouth: 5 * INCH, sideMouth: 5.5 * INCH },
} as const satisfies Readonly<Record<string, Pick<Table, 'cornerMouth' | 'sideMouth'>>>;
export type PocketSize = keyof typeof POCKET_SIZES;

/** WPA equipment specifications: 2 1/4 in ball, sights 3 11/16 in behind the nose, nose at 63.5 %. */
const COMMON = {
  ballRadius: 1.125 * INCH,
  sightSetback: 3.6875 * INCH,
  noseHeight: 0.635,
  ...POCKET_SIZES.standard,
  // WPA equipment specifications: cut angles 142° and 104°, each ± 1°.
  cornerCut: 142 * DEGREE,
  sideCut: 104 * DEGREE,
  // The middle of WPA's ranges 1–2.25 in and 0–0.375 in (the ranges are from memory).
  cornerShelf: 1.625 * INCH,
  sideShelf: 0.1875 * INCH,
  // No published figure known; the size is from memory.
  tipRadius: 0.15 * INCH,
} as const;

function tableOf(lengthInches: number, widthInches: number): Table {
  return { ...COMMON, length: lengthInches * INCH, width: widthInches * INCH };
}

/** Playing surfaces, nose to nose (WPA and CSI equipment specifications; 8 ft: common practice). */
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
 * The default condition: inside the published ranges and chosen because it gives credible charts.
 * Speeds: 5 and 7 mph of Alciatore's named speeds, and 4.6 m/s for firm.
 */
export const CLUB_CLOTH: Condition = {
  restitution: 0.88,
  noseFriction: 0.15,
  slideFriction: 0.17,
  rollFriction: 0.01,
  spinDecay: 10,
  speeds: { soft: 2.235, medium: 3.129, firm: 4.6 },
};

/** Conditions to start from, from fast to slow: made up, inside the published ranges. */
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

/** Sine of the angle at which the nose touches the ball above its center: 2p − 1 for height p. */
export function contactSine(table: Table): number {
  return 2 * table.noseHeight - 1;
}
