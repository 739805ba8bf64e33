/** Words for what a drill asks, for its result, and for weak zones. */

import { KINDS, type Kind, ZONES, type Zone, zoneBounds } from '../../cards/index.ts';
import { formatDecimal, type PatternId, patternOf, toDecimal } from '../../charts/index.ts';
import { KIND_NAMES } from '../words/card.ts';
import { capital } from '../words/quantities.ts';
import type { DrillSpec } from './code.ts';
import type { Basis, Figures, Lean, Past } from './result.ts';
import type { WeakZone } from './weak.ts';

/** Returns "low starts" or, for a single pattern, "starts 1.0–3.5". */
function zoneWords(zone: Zone, pattern: PatternId | null): string {
  return pattern ? `starts ${zoneRange(zone, pattern)}` : `${zone} starts`;
}

/** Returns the start diamonds of a zone, such as "1.0–3.5". */
export function zoneRange(zone: Zone, pattern: PatternId): string {
  const [from, to] = zoneBounds(patternOf(pattern), zone);
  return `${formatDecimal(from)}–${formatDecimal(to)}`;
}

export function countWords(count: DrillSpec['count']): string {
  return count === null ? 'endless' : `${count} questions`;
}

/**
 * Describes a drill in two lines, such as "20 questions · Rail ball, off the rail" and
 * "Cross-corner".
 */
export function drillWords(spec: DrillSpec): readonly [string, string] {
  const { patterns, kinds, zones, count } = spec;
  const [first] = patterns;
  const only = patterns.length === 1 && first ? first : null;
  const named = patterns.map((id) => patternOf(id).name);
  const where = named.length > 2 ? `${named.length} patterns` : named.join(', ');
  const starts = zones.map((zone) => zoneWords(zone, only)).join(', ');
  return [
    `${capital(countWords(count))} · ${kindsWords(kinds)}`,
    zones.length === ZONES.length ? where : `${where}, ${starts}`,
  ];
}

function kindsWords(kinds: readonly Kind[]): string {
  if (kinds.length === KINDS.length) return 'all kinds';
  return kinds.map((kind) => KIND_NAMES[kind].toLowerCase()).join(', ');
}

/** Returns, for example, "Cross-corner, rail ball, starts 1.0–2.5". */
export function weakName({ pattern, kind, zone }: WeakZone): string {
  const kindName = KIND_NAMES[kind].toLowerCase();
  return `${patternOf(pattern).name}, ${kindName}, ${zoneWords(zone, pattern)}`;
}

/** Returns, for example, "Errors of 1.4 tolerances, root mean square of 5 answers". */
export function weakWords({ rms, answers }: WeakZone): string {
  return `Errors of ${tenths(rms)} tolerances, root mean square of ${answers} answers`;
}

/** Returns, for example, "8 of 10 within 0.1", or "within tolerance" if the tolerances differ. */
export function shareWords({ within, asked }: Figures, tolerances: readonly number[]): string {
  return `${within} of ${asked} within ${toleranceWords(tolerances)}`;
}

function toleranceWords(tolerances: readonly number[]): string {
  const [one, ...others] = new Set(tolerances.filter((tolerance) => tolerance > 0));
  return one === undefined || others.length > 0 ? 'tolerance' : formatDecimal(toDecimal(one));
}

const SAYS: Readonly<Record<Basis, string>> = {
  aim: 'You call',
  arrival: 'You place arrivals',
};

/** A mean that is fewer standard errors away from zero is not significant with so few calls. */
const SIGNIFICANT = 2;

/** Returns, for example, "You call 0.06 high on average." */
export function leanWords({ bias, standardError }: Lean, basis: Basis): string {
  const size = hundredths(Math.abs(bias));
  const leans = standardError !== null && Math.abs(bias) > SIGNIFICANT * standardError;
  if (!leans) return 'No clear high or low habit yet.';
  return `${SAYS[basis]} ${size} ${bias > 0 ? 'high' : 'low'} on average.`;
}

/** Returns, for example, "0.06 high ± 0.02". */
export function biasWords({ bias, standardError }: Pick<Lean, 'bias' | 'standardError'>): string {
  const size = hundredths(Math.abs(bias));
  const side = Number(size) === 0 ? '' : bias > 0 ? ' high' : ' low';
  return `${size}${side}${standardError === null ? '' : ` ± ${hundredths(standardError)}`}`;
}

/**
 * Returns, for example, "Your last 10 drills of these kinds: 7.1 of 10 within tolerance, 0.03 low,
 * spread 0.08." A mean count is scaled to the number of questions asked now. A single earlier drill
 * keeps its own count.
 */
export function pastWords(past: Past, asked: number): string {
  const { runs, only, sameKinds, share, bias, spread } = past;
  const which = runs === 1 ? 'Your last drill' : `Your last ${runs} drills`;
  const parts = [
    only ? `${only.within} of ${only.asked} within tolerance` : [],
    only || share === null ? [] : `${tenths(share * asked)} of ${asked} within tolerance`,
    bias === null ? [] : biasWords({ bias, standardError: null }),
    spread === null ? [] : `spread ${hundredths(spread)}`,
  ].flat();
  return `${which}${sameKinds ? ' of these kinds' : ', of other kinds'}: ${parts.join(', ')}.`;
}

/** Returns, for example, "3.4 s". */
export function timeWords(ms: number): string {
  return `${tenths(ms / 1000)} s`;
}

export function tenths(value: number): string {
  return formatDecimal(toDecimal(Math.round(value * 10) / 10));
}

export function hundredths(value: number): string {
  return formatDecimal(toDecimal(Math.round(value * 100) / 100), 2);
}
