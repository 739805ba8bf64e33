export { ACCOUNTS, type Account, type Judged, judged } from './account.ts';
export {
  type Arriving,
  arrivingOf,
  missOf,
  type TableShot,
  type Try,
} from './arrival.ts';
export {
  type ConditionAnswer,
  type ConditionFit,
  conditionOf,
  type FittedShot,
  NO_CONDITION,
  type NoCondition,
} from './condition-fit.ts';
export type { Knob } from './condition-knobs.ts';
export { correctedNumber } from './corrected.ts';
export { correctionOf, DOUBTED, type JudgedShot, type Tonight } from './correction.ts';
export {
  type Amount,
  type Correction,
  NO_CORRECTION,
  type NoCorrection,
} from './correction-choice.ts';
export type { NumberGroup } from './correction-fit.ts';
export {
  type Evening,
  type EveningRequest,
  eveningOf,
  type MovedNumber,
  type MovedPattern,
  movedPatterns,
} from './evening.ts';
export { KNOWN, type LineSpeed, type NextShot, nextShot, shotsToGo } from './next-shot.ts';
export { t95 } from './student-t.ts';
