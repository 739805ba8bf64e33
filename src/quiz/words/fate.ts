/** Says what the ball did, in the words that players use. */

import type { Fate, Replay } from '../../cards/index.ts';
import { formatDecimal, inDiamonds, toDecimal } from '../../charts/index.ts';
import {
  type JawPart,
  type Mirror,
  mirrorRail,
  type Setting,
  type Target,
} from '../../table/index.ts';
import { pocketName, railName } from './names.ts';
import { lengthWords, type Units } from './quantities.ts';

const PARTS: Readonly<Record<JawPart, string>> = {
  tip: 'a tip of the pocket',
  facing: 'the facing',
  nose: 'the cushion beside the pocket',
};

const FATES: Readonly<Record<Fate, (played: Replay, context: FateContext) => string>> = {
  clean: ({ miss, hit }, { units, target }) => {
    if (target.kind === 'rail') return hitWords(hit?.fullness ?? 1);
    const beside = lengthWords(Math.abs(miss ?? 0), units);
    if (beside.startsWith('0 ')) return 'drops clean, through the middle of the pocket';
    return `drops clean, ${beside} ${longOrShort(miss)} of the middle of the pocket`;
  },
  jaws: (played, { units }) =>
    `drops off ${PARTS[played.touched ?? 'tip']}${besideWords(played, units)}`,
  'rattles out': (played, { units }) =>
    `catches ${PARTS[played.touched ?? 'tip']}${besideWords(played, units)}, and comes out again`,
  hangs: () => 'hangs in the jaws of the pocket',
  wide: wideWords,
  early: ({ pocket }, { mirror }) =>
    pocket
      ? `drops into the ${pocketName(pocket, mirror)} first`
      : 'runs into the corner before it reaches the cushion',
  'short of it': () => 'never gets there',
};

/**
 * Says how full the hit is: full from 0.9 of the ball, thin below a quarter (common practice, no
 * source).
 */
function hitWords(fullness: number): string {
  if (fullness >= 0.9) return 'hits the object ball full';
  const tenths = Math.round(fullness * 10) / 10;
  return fullness < 0.25 ? 'hits the object ball thin' : `hits ${tenths} of the object ball`;
}

interface FateContext {
  readonly target: Target;
  readonly setting: Setting;
  readonly mirror: Mirror;
  readonly units: Units;
}

/** Returns the end of a sentence that begins with "The ball". */
export function fateWords(played: Replay, context: FateContext): string {
  return FATES[played.fate](played, context);
}

function wideWords(
  { miss, arrival }: Replay,
  { setting, mirror, units, target }: FateContext,
): string {
  const where = arrival
    ? `arrives at ${formatDecimal(toDecimal(Math.round(arrival.diamond * 10) / 10))} on the ${railName(arrival.count.rail, mirror)} (from the ${mirrorRail(arrival.count.from, mirror)})`
    : 'goes wide';
  if (miss === null) return where;
  const by = toDecimal(Math.round(inDiamonds(setting, Math.abs(miss)) * 10) / 10);
  const off = `${formatDecimal(by)} ${by > toDecimal(1) ? 'diamonds' : 'diamond'} ${longOrShort(miss)}`;
  // For a ball off the rail, the miss is measured level with that ball, not where the cue ball
  // reaches the rail.
  const passes = target.kind === 'rail' && target.off !== undefined;
  if (passes) return `goes by the object ball, ${off}, and ${where}`;
  const far = `${where}, ${off}`;
  if (by > toDecimal(1)) return far;
  return `${far}: ${lengthWords(Math.abs(miss), units)} from the ${target.kind === 'rail' ? 'mark' : 'middle of the pocket'}`;
}

/**
 * Returns, for example, ", 1 inch short": the distance from the middle of the pocket. Empty if the
 * distance is unknown.
 */
function besideWords({ miss }: Replay, units: Units): string {
  if (miss === null) return '';
  const by = lengthWords(Math.abs(miss), units);
  return by.startsWith('0 ') ? ', on its way to the middle' : `, ${by} ${longOrShort(miss)}`;
}

function longOrShort(miss: number | null): string {
  return (miss ?? 0) >= 0 ? 'long' : 'short';
}
