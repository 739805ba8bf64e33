/**
 * Converts between numbers that the player types, in the player's naming, and numbers that the
 * chart stores, through the sight.
 */

import {
  type Decimal,
  formatDecimal,
  type Pattern,
  parseDecimal,
  roundTo,
  toDecimal,
  toNumber,
} from '../../charts/index.ts';
import { aimNamed, divisions, type Naming, nameAim, type Table } from '../../table/index.ts';
import type { TypedNumber } from '../state/editing/typed-texts.ts';

/** What decides how a line's numbers are named. */
export interface Named {
  readonly table: Table;
  readonly pattern: Pattern;
  readonly naming: Naming;
}

const FAULTS = {
  'not a number': 'not a number',
  'too long': 'too long for a number',
  'too fine': 'three decimals at most',
} as const;

/** Typed numbers are exact to a thousandth of a diamond. */
const FINEST = 10 as Decimal;
/** Computed numbers beside typed ones are shown to a hundredth of a diamond. */
const SHOWN = 100 as Decimal;

/** Reads a number that was typed in the player's naming, and returns it through the sight. */
export function readTyped(
  text: string,
  start: Decimal,
  { table, pattern, naming }: Named,
): TypedNumber {
  const parsed = parseDecimal(text);
  if (!parsed.ok)
    return parsed.error === 'empty'
      ? { ok: true, number: null }
      : { ok: false, say: FAULTS[parsed.error] };
  const aim = aimNamed(table, pattern, toNumber(start), toNumber(parsed.value), naming);
  const number = toDecimal(aim);
  const rail = divisions(pattern.aim.rail);
  return number >= 0 && number <= toDecimal(rail)
    ? { ok: true, number }
    : { ok: false, say: 'beyond the rail' };
}

/** Reads a start, which is a place on the pattern's start rail. */
export function readStart(text: string, { start }: Pattern): TypedNumber {
  const parsed = parseDecimal(text);
  if (!parsed.ok)
    return { ok: false, say: parsed.error === 'empty' ? 'type a start' : FAULTS[parsed.error] };
  const rail = divisions(start.rail);
  return parsed.value >= 0 && parsed.value <= toDecimal(rail)
    ? { ok: true, number: parsed.value }
    : { ok: false, say: `starts go from 0 to ${rail}` };
}

/** Writes a stored number as it was typed. */
export function showTyped(aim: Decimal, start: Decimal, named: Named): string {
  return formatDecimal(roundTo(inNaming(toNumber(aim), start, named), FINEST));
}

/** Writes a computed number, to a hundredth of a diamond. */
export function showAim(aim: number, start: Decimal, named: Named): string {
  return formatDecimal(roundTo(inNaming(aim, start, named), SHOWN), 2);
}

/**
 * Writes the difference of two numbers in the player's naming, to a hundredth, for example "+0.08".
 */
export function showOff(own: Decimal, from: number, start: Decimal, named: Named): string {
  const off = inNaming(toNumber(own), start, named) - inNaming(from, start, named);
  return formatDecimal(roundTo(off, SHOWN), 2, true);
}

function inNaming(aim: number, start: Decimal, { table, pattern, naming }: Named): number {
  return nameAim(table, pattern, toNumber(start), aim, naming);
}
