/** Names of rails and pockets in the picture that is shown, and sentences made of them. */

import type { Fate, Replay } from '../../cards/index.ts';
import {
  type Decimal,
  formatDecimal,
  inDiamonds,
  minus,
  type Pattern,
  roundTo,
  toDecimal,
  toNumber,
} from '../../charts/index.ts';
import {
  type Count,
  type JawPart,
  type Mirror,
  mirrorPocket,
  mirrorRail,
  type Naming,
  type PocketName,
  type Rail,
  type Route,
  type Setting,
  type Target,
} from '../../table/index.ts';

export type Units = 'in' | 'cm';

export function railName(rail: Rail, mirror: Mirror): string {
  return `${mirrorRail(rail, mirror)} rail`;
}

/** "left rail, from the foot": where a number is counted, in the picture that is shown. */
export function countWords(count: Count, mirror: Mirror): string {
  return `${railName(count.rail, mirror)}, from the ${mirrorRail(count.from, mirror)}`;
}

export function pocketName(pocket: PocketName, mirror: Mirror): string {
  const [first, second] = mirrorPocket(pocket, mirror).split('-');
  return second === 'side' ? `${first} side pocket` : `${first}-${second} corner`;
}

function targetName(target: Target, mirror: Mirror): string {
  if (target.kind === 'pocket') return pocketName(target.pocket, mirror);
  return `${target.diamond} on the ${railName(target.count.rail, mirror)}`;
}

/** What the players call a pattern, in the picture that is shown: its foot rail may be the head rail. */
export function patternName(pattern: Pattern, mirror: Mirror): string {
  return mirror.footHead ? pattern.name.replace(/^Foot\b/, 'Head') : pattern.name;
}

/** "off the foot rail, into the right side pocket", in the names of the picture. */
export function routeWords(route: Pattern, mirror: Mirror): string {
  const struck = route.stroke?.running ? 'with running side, ' : '';
  const cushions = route.cushions.map((rail) => railName(rail, mirror)).join(', then the ');
  const into = route.target.kind === 'pocket' ? 'into the' : 'to';
  return `${struck}off the ${cushions}, ${into} ${targetName(route.target, mirror)}`;
}

/** The end from which a rail's diamonds are counted in the picture. */
export function countedFrom(route: Route, which: 'start' | 'aim', mirror: Mirror): string {
  return mirrorRail(route[which].from, mirror);
}

/** How one aims by a chart's numbers: through a sight, or at the nose. */
export function aimWords(naming: Naming): 'aim through' | 'aim at' {
  return naming === 'through' ? 'aim through' : 'aim at';
}

/** "0.2 high", "0.1 low", "exact". */
export function errorWords(error: Decimal): string {
  if (error === 0) return 'exact';
  return `${formatDecimal(Math.abs(error) as Decimal)} ${error > 0 ? 'high' : 'low'}`;
}

/** A length for people: to the half inch or whole centimetre. */
export function lengthWords(metres: number, units: Units): string {
  if (units === 'cm') return `${Math.round(metres * 100)} cm`;
  const inches = Math.round((metres / 0.0254) * 2) / 2;
  return inches > 0 && inches <= 1 ? `${inches} inch` : `${inches} inches`;
}

/** A speed in the units of the lengths: miles an hour beside inches, metres a second else. */
export function speedWords(metresPerSecond: number, units: Units): string {
  if (units === 'cm') return `${Math.round(metresPerSecond * 10) / 10} m/s`;
  return `${Math.round((metresPerSecond / 0.44704) * 10) / 10} mph`;
}

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

/** Full from nine tenths of the ball on, thin below a quarter; common practice, no source. */
function hitWords(fullness: number): string {
  if (fullness >= 0.9) return 'hits the object ball full';
  const tenths = Math.round(fullness * 10) / 10;
  return fullness < 0.25 ? 'hits the object ball thin' : `hits ${tenths} of the object ball`;
}

interface FateContext {
  /** The target's name in a sentence. */
  readonly target: Target;
  readonly setting: Setting;
  readonly mirror: Mirror;
  readonly units: Units;
}

/** What the ball did, as a player would say it: the end of a sentence that begins with "the ball". */
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
  // Level with a ball that stands off the rail, which is not where the rail is reached.
  const passes = target.kind === 'rail' && target.off !== undefined;
  if (passes) return `goes by the object ball, ${off}, and ${where}`;
  const far = `${where}, ${off}`;
  if (by > toDecimal(1)) return far;
  return `${far}: ${lengthWords(Math.abs(miss), units)} from the ${target.kind === 'rail' ? 'mark' : 'middle of the pocket'}`;
}

/** ", 1 inch short": how far from the middle of the pocket, if that is known and anything at all. */
function besideWords({ miss }: Replay, units: Units): string {
  if (miss === null) return '';
  const by = lengthWords(Math.abs(miss), units);
  return by.startsWith('0 ') ? ', on its way to the middle' : `, ${by} ${longOrShort(miss)}`;
}

function longOrShort(miss: number | null): string {
  return (miss ?? 0) >= 0 ? 'long' : 'short';
}

/** Signed movement of a number from medium, as printed: "+0.2", "−0.1", "same". */
export function movementWords(printed: Decimal, medium: Decimal): string {
  const by = minus(printed, medium);
  return by === 0 ? 'same' : formatDecimal(by, 1, true);
}

/** As it is said: to the hundredth, halves away from zero, so that a step down is as one up. */
export function inHundredths(value: Decimal): Decimal {
  return roundTo(toNumber(value), toDecimal(0.01));
}

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
