export { AHEAD } from './choose/choose.ts';
export type { Wish } from './choose/course.ts';
export { type Forecast, type ForecastRequest, forecastFor } from './choose/forecast.ts';
export { type Habits, habitsOf } from './choose/habits.ts';
export { type Learned, type Learning, learnedOf } from './choose/learned.ts';
export {
  type DayAhead,
  dayAhead,
  daysUntilBack,
  forecastRequestOf,
  mayCount,
  type Next,
  type NextStep,
  nextStep,
  stepsOn,
} from './choose/next.ts';
export { partnerOf } from './effects/partner.ts';
export { effectsOnMemory, overdueOn, sharingMoves } from './effects/revision-effects.ts';
export {
  type Bias,
  biasesOf,
  type LineBias,
  type PatternBias,
  type RecentErrors,
} from './insight/bias.ts';
export { byWeek, type LoadDay } from './insight/by-week.ts';
export {
  addStep,
  type Calibration,
  type CalibrationBin,
  type CalibrationSum,
  calibrationOf,
  sumCalibration,
} from './insight/calibration.ts';
export { forecastDecay, type HeldDay } from './insight/decay.ts';
export { type Held, heldOn, holdOf, holdOfLine, numberCards } from './insight/held.ts';
export { notSticking } from './insight/not-sticking.ts';
export { type EarlierMemory, memoriesBefore } from './log/before.ts';
export { type DrillRun, drillRuns } from './log/drills.ts';
export {
  CLOCKS,
  type Clock,
  type Instance,
  PICTURES,
  type Pictures,
  type RehearsalQuestion,
} from './log/event-parts.ts';
export { EVENT_VERSION, MOST_MOVES } from './log/event-schema.ts';
export {
  type Answered,
  type ChartUsed,
  compareEvents,
  type Drilled,
  type EventDraft,
  type Flagged,
  type LogEvent,
  type Met,
  mergeLogs,
  type Noted,
  type Proved,
  type Rehearsed,
  type RehearsedDraft,
  type Revised,
  type SetAside,
  type TableShot,
  type TakenBack,
  type WeightsTaken,
} from './log/events.ts';
export type { Step } from './log/fold.ts';
export { eventsSince, isAnswer, lastEvent } from './log/last-event.ts';
export { addToLog, eachStep, foldLog } from './log/log.ts';
export { type ParsedEvent, parseEvent } from './log/parse-event.ts';
export {
  parseRehearsal,
  type RehearsalDraft,
  type RehearsalSpec,
  type RehearsalTerms,
  rehearsals,
} from './log/rehearsal.ts';
export { lastTruth } from './log/revised.ts';
export { type Sealable, sealable } from './log/sealable.ts';
export { canContinue, continues } from './log/snapshot.ts';
export type {
  CardMemory,
  ChartUse,
  Erred,
  Flag,
  LogState,
  MetLine,
  MovedCard,
  Shift,
  Snapshot,
} from './log/state.ts';
export { studyDay } from './log/study-day.ts';
export { rememberJudged } from './memory/judged.ts';
export {
  areWeights,
  clippedWeights,
  DEFAULT_WEIGHTS,
  type Memory,
  type MemoryModel,
  memoryModel,
  PUBLISHED,
} from './memory/memory.ts';
export { PROVED } from './memory/proved.ts';
export { type Fitted, fitWeights, type OnProgress } from './weights/fit.ts';
export { LEAST_ANSWERS, type PersonalWeights, personalWeights } from './weights/personal.ts';
export {
  type Gathering,
  gatherTraining,
  lossOf,
  type Sequence,
  scoredIn,
  trainingOf,
} from './weights/training.ts';
