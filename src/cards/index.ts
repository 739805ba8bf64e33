export {
  type AnswerError,
  type Field,
  fieldsOf,
  type ParsedAnswer,
  parseAnswer,
} from './answer.ts';
export { type Card, cardsOf, KINDS, type Kind, type NumberCard, type WindowCard } from './card.ts';
export {
  type Grade,
  gradeAnswer,
  OUTCOMES,
  type Outcome,
  type Pace,
  paceOf,
  toleranceFor,
} from './grade.ts';
export { pictureFor } from './picture.ts';
export { FATES, type Fate, isMade, type Replay, replay } from './replay.ts';
