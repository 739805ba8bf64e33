export { type Field, fieldsOf, parseAnswer } from './answer.ts';
export { questionOf, seedFor } from './ask.ts';
export type { Asker } from './asker.ts';
export {
  type Card,
  cardsOf,
  type Interpolation,
  isLineCard,
  type LineCard,
  lineIdOf,
  numberIdOf,
  patternIn,
} from './card.ts';
export { createDice, type Dice, hashOf } from './dice.ts';
export {
  type Effects,
  effectsOf,
  overdueMoves,
  type Remembered,
  renamedCards,
} from './effect.ts';
export {
  type Grade,
  gradeAnswer,
  OUTCOMES,
  type Outcome,
  type Pace,
  paceOf,
  toleranceFor,
} from './grade.ts';
export { instancesOf } from './instance.ts';
export { routeFor } from './kick.ts';
export { type Known, placeOf } from './known.ts';
export {
  type FoundPath,
  type LookedUp,
  lookUp,
  type MissedPath,
  type NoNumber,
} from './look-up.ts';
export { EFFECTS, type Move } from './move.ts';
export { pictureFor } from './picture.ts';
export { byProportion, placeByProportion } from './proportion.ts';
export {
  type ArrivalQuestion,
  isSkill,
  KINDS,
  type Kind,
  type LineKind,
  type NumberQuestion,
  type Question,
  SKILL_KINDS,
  type WindowQuestion,
} from './question.ts';
export { shiftFor } from './question-shift.ts';
export { FATES, type Fate, isMade, type Replay, replay } from './replay.ts';
export { verdictAt, windowsAt } from './verdict-at.ts';
export { ZONES, type Zone, zoneBounds } from './zone.ts';
