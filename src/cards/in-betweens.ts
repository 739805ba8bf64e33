/** Questions that ask for the number of a start between two anchors. */

import {
  type AnchorNumber,
  anchorBound,
  anchorNumbers,
  anchorsIn,
  numberAt,
  patternOf,
  toDecimal,
} from '../charts/index.ts';
import type { Speed } from '../table/index.ts';
import type { Asker } from './asker.ts';
import type { SkillCard } from './card.ts';
import { multiplesBetween } from './dice.ts';
import { startsInPocket } from './known.ts';
import type { BetweenQuestion } from './question.ts';
import { zoneBounds } from './zone.ts';

const TENTH = toDecimal(0.1);

export function inBetweens(
  { chart, tolerance, met = () => true }: Asker,
  { pattern, zone }: SkillCard,
  speed: Speed,
): readonly (() => BetweenQuestion | null)[] {
  const { lines, plan } = anchorsIn(chart, pattern, anchorBound(tolerance));
  const anchors = anchorNumbers(lines, plan, speed);
  const unmet = new Set(lines.filter((line) => !met(line)).map((line) => line.start));
  const [from, to] = zoneBounds(patternOf(pattern), zone);
  return anchors.slice(1).flatMap((right, n) => {
    const left = anchors[n] as AnchorNumber;
    if (unmet.has(left.start) || unmet.has(right.start)) return [];
    return multiplesBetween(left.start, right.start, TENTH)
      .filter((start) => from <= start && start <= to && !startsInPocket(chart, pattern, start))
      .map((start) => () => {
        const number = numberAt(chart, pattern, start, speed);
        if (number === null) return null;
        const truth = [toDecimal(number)] as const;
        const around = [left, right] as const;
        return { kind: 'in between', pattern, start, speed, tolerance, anchors: around, truth };
      });
  });
}
