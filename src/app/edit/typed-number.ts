/** A number as typed into a chart, in the player's naming, and as the chart keeps it: by the sight. */

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

/** How numbers of a line are named. */
export interface Named {
  readonly table: Table;
  readonly pattern: Pattern;
  readonly naming: Naming;
}

export type Typed =
  | { readonly ok: true; readonly number: Decimal | null }
  | { readonly ok: false; readonly say: string };

const FAULTS = {
  'not a number': 'not a number',
  'too long': 'too long for a number',
  'too fine': 'three decimals at most',
} as const;

/** What can be typed: a thousandth. */
const FINEST = 10 as Decimal;
/** What is shown of worked-out numbers beside typed ones. */
const SHOWN = 100 as Decimal;

/** A typed number through the sight; null for an empty text. */
export function readTyped(text: string, start: Decimal, { table, pattern, naming }: Named): Typed {
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

/** A start diamond of the pattern's rail. */
export function readStart(text: string, { start }: Pattern): Typed {
  const parsed = parseDecimal(text);
  if (!parsed.ok)
    return { ok: false, say: parsed.error === 'empty' ? 'type a start' : FAULTS[parsed.error] };
  const rail = divisions(start.rail);
  return parsed.value >= 0 && parsed.value <= toDecimal(rail)
    ? { ok: true, number: parsed.value }
    : { ok: false, say: `starts go from 0 to ${rail}` };
}

/** A number that the chart keeps, as it was typed. */
export function showTyped(aim: Decimal, start: Decimal, named: Named): string {
  return formatDecimal(roundTo(inNaming(toNumber(aim), start, named), FINEST));
}

/** A worked-out number, to a hundredth. */
export function showAim(aim: number, start: Decimal, named: Named): string {
  return formatDecimal(roundTo(inNaming(aim, start, named), SHOWN), 2);
}

/** "+0.08": how far a number lies from another in the player's naming, to a hundredth. */
export function showOff(own: Decimal, from: number, start: Decimal, named: Named): string {
  const off = inNaming(toNumber(own), start, named) - inNaming(from, start, named);
  return formatDecimal(roundTo(off, SHOWN), 2, true);
}

function inNaming(aim: number, start: Decimal, { table, pattern, naming }: Named): number {
  return nameAim(table, pattern, toNumber(start), aim, naming);
}
