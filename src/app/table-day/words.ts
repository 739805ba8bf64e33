/** The sentences of table day, with the names of the printed picture. */

import {
  type Decimal,
  formatDecimal,
  patternOf,
  plus,
  roundTo,
  size,
  toDecimal,
  toNumber,
} from '../../charts/index.ts';
import { railName } from '../../quiz/index.ts';
import {
  type Amount,
  type Correction,
  KNOWN,
  type LineSpeed,
  type NextShot,
  type NumberGroup,
  type TableShot,
  type Tonight,
} from '../../shots/index.ts';
import { PRINTED } from '../parts/shot.ts';

const HUNDREDTH = toDecimal(0.01);
/** Sentences round amounts to this. */
const SAID = toDecimal(0.05);

const GROUPS: Readonly<Record<NumberGroup, string>> = {
  all: 'every number',
  'short-rail': 'every foot-rail number',
  'long-rail': 'every long-rail number',
};

/**
 * Returns words such as "add 0.1 to every foot-rail number" or "take 0.05 off for each diamond of a
 * number".
 */
export function correctionWords(correction: Correction): string {
  if (correction.kind === 'factor') {
    const more = toDecimal(toNumber(correction.times) - 1);
    const amount = formatDecimal(size(more));
    return more > 0
      ? `add ${amount} for each diamond of a number`
      : `take ${amount} off for each diamond of a number`;
  }
  const amount = formatDecimal(size(correction.add));
  const numbers = GROUPS[correction.group];
  return correction.add > 0 ? `add ${amount} to ${numbers}` : `take ${amount} off ${numbers}`;
}

/** Says what to remember tonight, or why there is nothing to remember. */
export function tonightWords({
  corrections,
  why,
  shots,
  amounts,
}: Pick<Tonight, 'corrections' | 'why' | 'shots' | 'amounts'>): string {
  switch (why) {
    case null:
      return `Say this in your head tonight: ${corrections.map(correctionWords).join(', and ')}.`;
    case 'no shots':
      return 'Nothing to say yet: shoot a few lines and tell where they arrive.';
    case 'too few shots':
      return `Nothing to say yet: ${counted(shots.length, 'shot')} cannot be told from chance, three are the least.`;
    case 'all made':
      return 'Every shot was made: play the numbers as they are printed.';
    case 'too small':
      return 'Play the numbers as they are printed: the table differs by less than is worth saying.';
    case 'too large':
      return `Something is amiss: these shots ask for ${amounts.map(askedWords).join(' and ')}. That is more than tables differ; look at the line, the speed, or the counting.`;
    case 'not significant':
      return 'Nothing sure enough to say yet: what the shots have in common may be chance.';
  }
}

/** Returns words such as "2.15 off", "0.6 more" or "every number × 1.4". */
function askedWords({ of, value }: Amount): string {
  const asked = roundTo(value, SAID);
  if (of === 'factor') return `every number × ${formatDecimal(plus(toDecimal(1), asked))}`;
  return `${formatDecimal(size(asked))} ${asked < 0 ? 'off' : 'more'}`;
}

/** Says in one sentence how certain an amount is; null if its interval is infinite. */
export function amountWords({ of, value, interval: [low, high] }: Amount): string | null {
  if (!Number.isFinite(low) || !Number.isFinite(high)) return null;
  const what = of === 'factor' ? 'for each diamond of a number' : `for ${GROUPS[of]}`;
  return `Best guess ${signed(value)} ${what}; likely between ${signed(low)} and ${signed(high)}.`;
}

function signed(value: number): string {
  return formatDecimal(roundTo(value, HUNDREDTH), 2, true);
}

/** The largest number of further shots that is worth stating. */
const MANY = 30;

export function toGoWords(toGo: number | null): string | null {
  if (toGo === null) return null;
  // One standard error to either side contains 68 % of a normal distribution.
  const well = `to ± ${KNOWN}, two times in three`;
  if (toGo === 0) return `It is known ${well}, and more shots won’t help much.`;
  if (toGo > MANY) return `More than ${MANY} further shots like these would tell it ${well}.`;
  return `About ${counted(toGo, 'further shot')} would tell it ${well}.`;
}

/**
 * Says why this line is suggested. The half-width is 1.645 standard errors, which contain the
 * number nine times in ten.
 */
export function nextWords({ standardError }: NextShot): string {
  const within = formatDecimal(roundTo(1.645 * standardError, HUNDREDTH), 2);
  return `Most useful next shot: its number is uncertain by ± ${within} diamond.`;
}

/** Returns words such as "from 6.0 on the left rail". */
export function startWords(pattern: TableShot['pattern'], start: Decimal): string {
  return `from ${formatDecimal(start)} on the ${railName(patternOf(pattern).start.rail, PRINTED)}`;
}

/** Returns words such as "short ½" or "made". */
export function missWords(miss: number | null): string {
  if (miss === null) return 'made';
  if (miss === 0) return 'at the pocket, not made';
  return `${miss > 0 ? 'long' : 'short'} ${fractionWords(Math.abs(miss))}`;
}

const QUARTERS: Readonly<Record<string, string>> = { '0.25': '¼', '0.5': '½', '0.75': '¾' };

/** Writes a distance in diamonds as players do, in quarters. */
export function fractionWords(amount: number): string {
  const whole = Math.floor(amount);
  const part = amount - whole;
  const rest = part === 0 ? '' : QUARTERS[String(part)];
  if (rest === undefined) return formatDecimal(roundTo(amount, HUNDREDTH));
  return `${whole === 0 ? '' : whole}${rest}`;
}

export function spokenFraction(amount: number): string {
  const words: Readonly<Record<string, string>> = {
    '0.25': 'a quarter',
    '0.5': 'half a diamond',
    '0.75': 'three quarters',
    '1': '1 diamond',
  };
  return words[String(amount)] ?? `${amount} diamonds`;
}

/** Says what the plot shows, for screen readers. */
export function plotWords(
  shots: readonly { readonly residual: number }[],
  tolerance: number,
  after = 'after the correction',
): string {
  const near = shots.filter(({ residual }) => Math.abs(residual) <= tolerance).length;
  return `How far each number was from what would have done, ${after}: ${near} of ${counted(shots.length, 'shot')} within ${tolerance} of a diamond.`;
}

/**
 * Names the last line on which the ball did not get there, and says that it was not logged. Null if
 * there is none.
 */
export function lostWords(lost: readonly LineSpeed[]): string | null {
  const last = lost.at(-1);
  if (!last) return null;
  const line = `${patternOf(last.pattern).name} from ${formatDecimal(toDecimal(last.start))}, ${last.speed}`;
  return `Not logged, and not asked again tonight: ${line}.`;
}

/**
 * Returns a sentence such as "4 shots are far from the others and count little: numbers 2, 4, 6, 8
 * in the plot."
 */
export function doubtedWords(numbers: readonly number[]): string | null {
  if (numbers.length === 0) return null;
  const one = numbers.length === 1;
  const [are, count, which] = one ? ['is', 'counts', 'number'] : ['are', 'count', 'numbers'];
  const all = counted(numbers.length, 'shot');
  return `${all} ${are} far from the others and ${count} little: ${which} ${numbers.join(', ')} in the plot.`;
}

export function counted(count: number, what: string): string {
  return `${count} ${what}${count === 1 ? '' : 's'}`;
}
