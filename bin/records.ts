/**
 * A line of a sheet as the command prints it. Every key is present; null means that there is no
 * value.
 */

import { inDiamonds, type SheetLine, toNumber, type VerdictKind } from '../src/charts/index.ts';
import {
  type MakeWindow,
  type Setting,
  SPEEDS,
  type Speed,
  type Unreachable,
} from '../src/table/index.ts';

type PerSpeed<T> = Readonly<Record<Speed, T>>;

/** A line of a sheet. All numbers are in diamonds, except the angle. */
export interface LineRecord {
  readonly start: number;
  /** The aim numbers at each speed, unrounded. */
  readonly soft: number | null;
  readonly medium: number | null;
  readonly firm: number | null;
  readonly printed: PerSpeed<number | null>;
  /** The reason why there is no number at a speed; null if there is one. */
  readonly why: PerSpeed<Unreachable | null>;
  /** The aim numbers that pocket the ball. */
  readonly makeWindow: PerSpeed<MakeWindow | null>;
  /**
   * The entry angle at medium speed, measured from straight into the pocket, or from the
   * perpendicular of the rail.
   */
  readonly entryAngleDeg: number | null;
  /** The diamond level with the ball as it touches the first cushion at medium speed. */
  readonly touch: number | null;
  /**
   * How far the arrival moves, in diamonds of a long rail: for 0.1 of aim, and if the ball is
   * halfway to the first cushion.
   */
  readonly drift: { readonly perTenth: number | null; readonly halfWay: number | null };
  readonly verdict: VerdictKind | null;
  readonly reason: string | null;
  /** The speed with the widest make window. */
  readonly best: Speed | null;
  readonly anchor: boolean;
}

export function recordOf(line: SheetLine, setting: Setting): LineRecord {
  const { numbers, atMedium, verdict } = line;
  const per = <T>(of: (number: SheetLine['numbers'][Speed]) => T) =>
    Object.fromEntries(SPEEDS.map((speed) => [speed, of(numbers[speed])])) as PerSpeed<T>;
  const metres = (value: number | null) => (value === null ? null : inDiamonds(setting, value));
  return {
    start: toNumber(line.start),
    ...per((number) => (typeof number === 'string' ? null : number.exact)),
    printed: per((number) => (typeof number === 'string' ? null : toNumber(number.printed))),
    why: per((number) => (typeof number === 'string' ? number : null)),
    makeWindow: per((number) => (typeof number === 'string' ? null : number.makeWindow)),
    entryAngleDeg: atMedium?.entryAngleDeg ?? null,
    touch: atMedium?.touch ?? null,
    drift: {
      perTenth: metres(atMedium?.drift.perTenth ?? null),
      halfWay: metres(atMedium?.drift.halfWay ?? null),
    },
    verdict: verdict?.kind ?? null,
    reason: verdict?.reason ?? null,
    best: verdict?.best ?? null,
    anchor: line.anchor,
  };
}
