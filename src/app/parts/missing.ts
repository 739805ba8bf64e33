/** Sentences about starts without a number. */

import { type Decimal, formatDecimal, type SheetLine } from '../../charts/index.ts';
import { SPEEDS, type Speed, type Unreachable } from '../../table/index.ts';

const WORDS: Readonly<Record<Unreachable, string>> = {
  'does not reach': 'the ball does not reach',
  'lands in the pocket first': 'the ball lands in the pocket first',
  'no aim on this rail': 'no aim on this rail sends the ball there',
};

export function missingWords(why: Unreachable): string {
  return WORDS[why];
}

interface Group {
  readonly why: Unreachable;
  readonly starts: readonly Decimal[];
  readonly speeds: readonly Speed[];
}

/** Returns sentences such as "No number at soft speed from 1.0, 1.5: the ball does not reach." */
export function missingSentences(lines: readonly SheetLine[]): readonly string[] {
  const groups = new Map<string, Group>();
  for (const speed of SPEEDS) {
    for (const [why, starts] of startsWithout(lines, speed)) {
      const key = `${why} ${starts.join()}`;
      const speeds = [...(groups.get(key)?.speeds ?? []), speed];
      groups.set(key, { why, starts, speeds });
    }
  }
  const said = [...groups.values()].map(sentence);
  return said.length === 0
    ? said
    : [...said, 'The quiz asks lines that have a number at every speed.'];
}

function startsWithout(lines: readonly SheetLine[], speed: Speed) {
  const starts = new Map<Unreachable, Decimal[]>();
  for (const { start, numbers } of lines) {
    const why = numbers[speed];
    if (typeof why === 'string') starts.set(why, [...(starts.get(why) ?? []), start]);
  }
  return starts;
}

function sentence({ why, starts, speeds }: Group): string {
  const at = speeds.length === SPEEDS.length ? 'any' : speeds.join(' or ');
  const from = starts.map((start) => formatDecimal(start)).join(', ');
  return `No number at ${at} speed from ${from}: ${missingWords(why)}.`;
}
