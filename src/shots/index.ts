// One test shot, and what to shoot next.

export { KNOWN, type NextShot } from './next-shot.ts';
export type { LineSpeed, TableShot } from './shot.ts';

// Tonight's correction of the chart's numbers, with its interval.

export { correctedNumber } from './corrected.ts';
export { correctionOf, DOUBTED, type Tonight } from './correction.ts';
export type { Amount, Correction } from './correction-choice.ts';
export type { NumberGroup } from './correction-fit.ts';
export { t95 } from './student-t.ts';

// The table's condition, and the results of an evening.

export type { Account } from './account.ts';
export {
  type ConditionAnswer,
  type ConditionFit,
  conditionOf,
  type NoCondition,
} from './condition-fit.ts';
export {
  type Evening,
  type EveningRequest,
  eveningOf,
  type MovedNumber,
  type MovedPattern,
} from './evening.ts';
