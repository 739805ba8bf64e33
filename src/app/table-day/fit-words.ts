/** Says what the shots reveal about the table itself, and which findings the player should use. */

import { type Chart, formatDecimal, patternOf, size } from '../../charts/index.ts';
import type {
  Account,
  ConditionAnswer,
  ConditionFit,
  Evening,
  MovedNumber,
  MovedPattern,
  NoCondition,
} from '../../shots/index.ts';
import { counted, tonightWords } from './words.ts';

const NO_CONDITION_WORDS: Readonly<Record<NoCondition, string>> = {
  'too few shots': 'From eight shots on, the table itself may be told: its cushions and its speed.',
  'too few patterns': 'Shoot a second pattern too, and the table itself may be told.',
  'too uncertain':
    'The shots do not tell enough of the table itself yet; other lines, and other speeds, would.',
};

/** Compares the fitted table with the chart's in sentences, or says why there is no fit. */
export function conditionWords(
  chart: Chart,
  answer: ConditionAnswer,
  account: Account,
): readonly string[] {
  if (!answer.ok) return [NO_CONDITION_WORDS[answer.why]];
  switch (account) {
    case 'correction':
      return ['The shots agree on one offset, but no cushion setting produces it.'];
    case 'chart':
    case 'unknown':
      return ['As far as the shots tell, the table plays as the chart says.'];
    case 'both':
      return [
        ...comparedWords(chart, answer.fit),
        'The shots fit such a table about as well as the correction above: either will do.',
      ];
    case 'table':
      return comparedWords(chart, answer.fit);
  }
}

function comparedWords(chart: Chart, { condition, errors }: ConditionFit): readonly string[] {
  const own = chart.setting.condition;
  const part = condition.speeds.medium / own.speeds.medium - 1;
  return [
    compared('Cushions', 'livelier', 'deader', {
      from: own.restitution,
      to: condition.restitution,
      error: errors.restitution,
    }),
    compared('Rubber', 'grips more', 'grips less', {
      from: own.noseFriction,
      to: condition.noseFriction,
      error: errors.noseFriction,
    }),
    speedWords(part, errors.speed),
  ];
}

/**
 * Says what to use tonight: one correction, or the table's own numbers if no correction will do.
 */
export function sayWords(chart: Chart, { tonight, account, condition }: Evening): string {
  if (account !== 'table' || !condition.ok) return tonightWords(tonight);
  return `No one correction will do: ${tableWord(chart, condition.fit)}. Take the numbers of the table below.`;
}

/**
 * Names the first difference that is certain: that of the cushions, of the rubber, or of the
 * speeds.
 */
function tableWord(chart: Chart, { condition, errors }: ConditionFit): string {
  const own = chart.setting.condition;
  const part = condition.speeds.medium / own.speeds.medium - 1;
  const [all] = [
    { off: condition.restitution - own.restitution, error: errors.restitution, words: CUSHIONS },
    { off: condition.noseFriction - own.noseFriction, error: errors.noseFriction, words: RUBBER },
    { off: part, error: errors.speed, words: SPEED },
  ].filter(({ off, error }) => Math.abs(off) >= NINE_IN_TEN * error);
  if (!all) return 'this table plays otherwise';
  return all.off > 0 ? all.words[0] : all.words[1];
}

const CUSHIONS = ['this table is livelier', 'this table is deader'] as const;
const RUBBER = ['this table’s rubber grips more', 'this table’s rubber grips less'] as const;
const SPEED = ['your speeds are faster here', 'your speeds are slower here'] as const;

/** Returns words such as "take 0.1 off Cross-corner". */
export function patternWords({ pattern, by }: MovedPattern): string {
  const { name } = patternOf(pattern);
  const amount = formatDecimal(size(by));
  return by > 0 ? `add ${amount} to ${name}` : `take ${amount} off ${name}`;
}

/**
 * Returns a sentence such as "On the whole: add 0.1 to Cross-side; take 0.05 off Cross-corner."
 * Null if no pattern moves.
 */
export function patternsWords(moved: readonly MovedPattern[]): string | null {
  return moved.length === 0 ? null : `On the whole: ${moved.map(patternWords).join('; ')}.`;
}

interface Compared {
  readonly from: number;
  readonly to: number;
  readonly error: number;
}

/** A normally distributed error is within this many standard errors nine times in ten. */
const NINE_IN_TEN = 1.645;

function compared(what: string, more: string, less: string, { from, to, error }: Compared): string {
  const off = to - from;
  // Show two decimals, or three if two would hide the difference.
  const digits = to.toFixed(2) === from.toFixed(2) && to.toFixed(3) !== from.toFixed(3) ? 3 : 2;
  const give = NINE_IN_TEN * error;
  const least = 10 ** -digits;
  const known =
    Number(give.toFixed(digits)) === 0
      ? `${to.toFixed(digits)} to less than ${least}`
      : `${to.toFixed(digits)} ± ${give.toFixed(digits)}`;
  const figures = `${known}, the chart has ${from.toFixed(digits)}`;
  const same = Math.abs(off) <= give || to.toFixed(3) === from.toFixed(3);
  if (same) return `${what}: much as on the chart (${figures}).`;
  return `${what}: ${off > 0 ? more : less} (${figures}).`;
}

function speedWords(part: number, error: number): string {
  const percent = Math.round(100 * Math.abs(part));
  const give = Math.max(1, Math.round(100 * NINE_IN_TEN * error));
  if (Math.abs(part) <= NINE_IN_TEN * error || percent === 0) {
    return `Your speeds: much as on the chart (to within ${give} %).`;
  }
  return `Your speeds: ${percent} % ${part > 0 ? 'faster' : 'slower'} than the chart’s, ± ${give} %.`;
}

export function movedWords(moved: readonly MovedNumber[], all: number): string {
  if (moved.length === 0) return 'On such a table no printed number would move.';
  return `On such a table ${moved.length} of ${all} printed numbers would move.`;
}

/** Returns the numbers that move furthest, the furthest first. */
export function furthest(moved: readonly MovedNumber[], count: number): readonly MovedNumber[] {
  const far = ({ from, to }: MovedNumber) => Math.abs(to - from);
  return [...moved].sort((a, b) => far(b) - far(a)).slice(0, count);
}

/** Describes the fit in one sentence, for the reason of a revision. */
export function reasonWords(fit: ConditionFit, shots: number): string {
  return `Fitted to ${counted(shots, 'test shot')} at the table; numbers known to ${fit.numberError.toFixed(2)} of a diamond.`;
}
