/** Puts what the player looked up into words, with the names of the printed picture. */

import type { FoundPath, LookedUp, MissedPath, NoNumber } from '../../cards/index.ts';
import {
  type Chart,
  type Decimal,
  formatDecimal,
  type Pattern,
  patternOf,
  roundTo,
  toDecimal,
  toNumber,
} from '../../charts/index.ts';
import {
  aimWords,
  countedFrom,
  movementWords,
  patternName,
  railName,
  routeWords,
} from '../../quiz/index.ts';
import { type Correction, correctedNumber } from '../../shots/index.ts';
import {
  aimNamed,
  type Count,
  type MakeWindow,
  type Mirror,
  mirrorCount,
  mirrorRail,
  type Naming,
  nameAim,
  pocketInRail,
  SPEEDS,
  type Speed,
  type Table,
  type Target,
  targetPoint,
} from '../../table/index.ts';
import { missWords } from '../parts/as-printed.tsx';
import { missingWords } from '../parts/missing.ts';

type NamedPath = Pick<FoundPath, 'pattern' | 'mirror' | 'route' | 'start'>;

/** Returns a name such as "Cross-corner" or "Kick off the right rail, then the foot rail". */
export function pathName({ pattern, route, mirror }: NamedPath): string {
  if (route.target.kind === 'pocket') return patternName(patternOf(pattern), mirror);
  const cushions = route.cushions.map((rail) => railName(rail, mirror)).join(', then the ');
  return `Kick off the ${cushions}`;
}

/**
 * Says where the ball goes. A kick needs fewer words: its name gives the cushions, and the player
 * has chosen its target.
 */
export function pathWords({ route, mirror }: NamedPath): string | null {
  if (route.target.kind === 'pocket') return routeWords(route, mirror);
  return route.stroke?.running ? 'with running side' : null;
}

/**
 * Says how the numbers of a path are counted, with the names of the picture: "Start 2.0 from the
 * head; aim through the foot rail, counted from the left."
 */
export function countWords({ route, start, mirror }: NamedPath, naming: Naming): string {
  const from = `Start ${formatDecimal(start)} from the ${countedFrom(route, 'start', mirror)}`;
  const rail = railName(route.aim.rail, mirror);
  const end = countedFrom(route, 'aim', mirror);
  const aim = `${aimWords(naming)} the ${rail}, counted from the ${end}`;
  return `${from}${ballWords(route, mirror)}; ${aim}.`;
}

/**
 * Returns from where a path counts the rail at one end of the shot, as the picture shows it; null
 * for a pocket.
 */
export function countOfEnd(
  { route, mirror }: Pick<NamedPath, 'route' | 'mirror'>,
  end: 'start' | 'target',
): Count | null {
  if (end === 'start') return mirrorCount(route.start, mirror);
  return route.target.kind === 'rail' ? mirrorCount(route.target.count, mirror) : null;
}

function ballWords({ target }: Pattern, mirror: Mirror): string {
  if (target.kind === 'pocket') return '';
  const at = formatDecimal(toDecimal(target.diamond));
  return `, ball at ${at} from the ${mirrorRail(target.count.from, mirror)}`;
}

export interface NumberWords {
  readonly speed: Speed;
  /** The printed number. If there is none it is null, and `why` says the reason. */
  readonly printed: Decimal | null;
  /**
   * The signed difference from medium speed. Empty for medium itself, and if either number is
   * missing.
   */
  readonly movement: string;
  readonly why: string | null;
}

export function numbersOf({ numbers }: Pick<FoundPath, 'numbers'>): readonly NumberWords[] {
  const { medium } = numbers;
  return SPEEDS.map((speed) => {
    const number = numbers[speed];
    if (typeof number === 'string') {
      return { speed, printed: null, movement: '', why: whyWords(number) };
    }
    const moves = speed !== 'medium' && typeof medium !== 'string';
    const movement = moves ? movementWords(number.printed, medium.printed) : '';
    return { speed, printed: number.printed, movement, why: null };
  });
}

/**
 * Returns a sentence such as "With tonight’s +0.1: soft 2.4, medium 2.5, firm 2.6." Null if no
 * correction applies.
 */
export function tonightNumbers(
  chart: Pick<Chart, 'naming' | 'setting'>,
  path: Pick<FoundPath, 'pattern' | 'route' | 'start' | 'numbers'>,
  say: readonly Correction[],
): string | null {
  const own = say.filter((one) => correctedNumber([one], path.pattern, FAR) !== FAR);
  if (own.length === 0) return null;
  const numbers = numbersOf(path).flatMap(({ speed, printed }) =>
    printed === null ? [] : [`${speed} ${formatDecimal(correctedAs(chart, path, own, printed))}`],
  );
  return `With ${own.map(shortCorrection).join(' and ')}: ${numbers.join(', ')}.`;
}

/** Returns words such as "tonight’s +0.1". */
export function shortCorrection(correction: Correction): string {
  return correction.kind === 'factor'
    ? `tonight’s × ${formatDecimal(correction.times)}`
    : `tonight’s ${formatDecimal(correction.add, 1, true)}`;
}

/**
 * Returns the corrected number. Corrections apply through the sight, so a number at the nose is
 * converted first, and converted back afterwards.
 */
function correctedAs(
  { naming, setting: { table } }: Pick<Chart, 'naming' | 'setting'>,
  { pattern, route, start }: Pick<FoundPath, 'pattern' | 'route' | 'start'>,
  say: readonly Correction[],
  printed: Decimal,
): Decimal {
  if (naming === 'through') return correctedNumber(say, pattern, printed);
  const from = toNumber(start);
  const aim = toDecimal(aimNamed(table, route, from, toNumber(printed), naming));
  const called = toNumber(correctedNumber(say, pattern, aim));
  return roundTo(nameAim(table, route, from, called, naming), CALLED);
}

/** Corrected numbers at the nose are rounded to this, in diamonds. */
const CALLED = toDecimal(0.05);

/** A number that is large enough for every applicable correction to move it. */
const FAR = toDecimal(4);

/** The aim numbers that pocket the ball at each speed; null if none does. */
export type Drops = Readonly<Record<Speed, MakeWindow | null>>;

/**
 * Returns sentences such as "At soft speed: as printed it misses; the middle of what drops is
 * 1.65."
 */
export function missesOf({ numbers }: Pick<FoundPath, 'numbers'>, drops: Drops): readonly string[] {
  return SPEEDS.flatMap((speed) => {
    const number = numbers[speed];
    if (typeof number === 'string') return [];
    const say = missWords({ printed: number.printed, makeWindow: drops[speed] });
    return say ? [`At ${speed} speed: ${say}.`] : [];
  });
}

function whyWords(why: NoNumber): string {
  switch (why) {
    case 'meets its ball first':
      return 'the ball would be met before the cushions';
    case 'not measured':
      return 'the chart has no measured line on both sides of this start';
    default:
      return missingWords(why);
  }
}

/** Says how many paths were found, for example "2 ways", or that there is none. */
export function countOfPaths({ found }: LookedUp): string {
  if (found.length === 0) return 'No way of the catalogue gets there from here.';
  return found.length === 1 ? 'One way' : `${found.length} ways`;
}

/**
 * Returns a sentence such as "Cross-side starts from 5.0 to 8.0, counted from the foot; this is
 * 2.5."
 */
export function missedWords(path: MissedPath): string {
  const name = pathName(path);
  if (path.why !== 'beyond its starts') return `${name}: ${whyWords(path.why)}.`;
  const [first, last] = path.route.starts;
  const from = countedFrom(path.route, 'start', path.mirror);
  return `${name} starts from ${first.toFixed(1)} to ${last.toFixed(1)}, counted from the ${from}; this is ${formatDecimal(path.start)}.`;
}

/**
 * Says what to do if no path was found to a point in a pocket mouth. Null if a path was found, or
 * if there is rail at the point.
 */
export function mouthWords(table: Table, { found }: LookedUp, target: Target): string | null {
  if (found.length > 0 || target.kind !== 'rail') return null;
  const pocket = pocketInRail(table, target.count.rail, targetPoint(table, target));
  return pocket && 'Tap the pocket itself to bank into it.';
}
