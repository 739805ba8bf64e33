export { AnswerPanel, FocusedButton, SpeedLegend, SpeedTable } from './answer-panel.tsx';
export { AnswerStage, PartsFigure } from './answer-stage.tsx';
export { cardName, cardTruth, KIND_NAMES, KIND_NOTES } from './card-words.ts';
export { stepWords } from './cue.ts';
export {
  type Answering,
  chosen,
  type Entry,
  emptyEntry,
  erased,
  numberIn,
  pointedAt,
  readEntry,
  signFlipped,
  typed,
} from './entry.ts';
export { type FigureParts, lineAtSpeeds, playAt } from './feedback-figure.ts';
export { minutesFor, questionsIn, timePerQuestion } from './pace.ts';
export { type Choosable, choosable } from './placement-course.ts';
export { PlacementRun } from './placement-run.tsx';
export { createPlacement, type Placement, type PlacementPorts } from './placement-session.ts';
export { PROVED_WORDS } from './placement-words.ts';
export { QuizScreen } from './quiz-screen.tsx';
export { createSession, type QuizPorts, queueSettings, type Session } from './session.ts';
export { createStopwatch, type Stopwatch } from './stopwatch.ts';
export { nextDue, nextWords } from './summary.ts';
export { lengthWords, speedWords, type Units } from './words.ts';
