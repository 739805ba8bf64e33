export { type EarlierMemory, memoriesBefore } from './before.ts';

export { type Bias, biasesOf, type LineBias, type PatternBias, type RecentErrors } from './bias.ts';
export { byWeek } from './by-week.ts';
export {
  addStep,
  type Calibration,
  type CalibrationBin,
  type CalibrationSum,
  calibrationOf,
  sumCalibration,
} from './calibration.ts';

export { type DrillRun, drillRuns } from './drills.ts';
export {
  CLOCKS,
  type Clock,
  type Instance,
  PICTURES,
  type Pictures,
  type RehearsalQuestion,
} from './event-parts.ts';
export { EVENT_VERSION, MOST_MOVES } from './event-schema.ts';
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
  type ParsedEvent,
  type Proved,
  parseEvent,
  type Rehearsed,
  type RehearsedDraft,
  type Revised,
  type SetAside,
  type TableShot,
  type TakenBack,
  type WeightsTaken,
} from './events.ts';
export { type Fitted, fitWeights, type OnProgress } from './fit-weights.ts';
export { type Follow, type Followed, followQueue } from './follow.ts';
export { type Held, heldOn, holdOf, holdOfLine, numberCards } from './held.ts';
export { rememberJudged } from './judged.ts';
export { type Learned, type Learning, learnedOf } from './learned.ts';
export type { Listed } from './listed.ts';
export {
  addToLog,
  type CardMemory,
  type ChartUse,
  type Erred,
  eachStep,
  type Flag,
  foldLog,
  isAnswer,
  type LogState,
  lastEvent,
  type MetLine,
  type MovedCard,
  type Shift,
  type Step,
} from './log.ts';
export {
  areWeights,
  clippedWeights,
  DEFAULT_WEIGHTS,
  type Memory,
  type MemoryModel,
  memoryModel,
  PUBLISHED,
} from './memory.ts';
export { comingDue, forecastDecay, type HeldDay, type LoadDay } from './outlook.ts';
export { LEAST_ANSWERS, type PersonalWeights, personalWeights } from './personal-weights.ts';

export {
  type DayPlan,
  dayPlanFor,
  type Forecast,
  type HungLine,
  type PlanItem,
  type PlanReply,
  type PlanRequest,
  planFor,
} from './plan.ts';
export { type PlanWish, planRequestOf } from './plan-request.ts';
export { PROVED } from './proved.ts';
export {
  type Agenda,
  agendaFor,
  type Due,
  dueDay,
  type NextStep,
  nextStep,
  type QueueSettings,
  type TodaysPlan,
} from './queue.ts';
export {
  parseRehearsal,
  type RehearsalDraft,
  type RehearsalSpec,
  type RehearsalTerms,
  rehearsals,
} from './rehearsal.ts';
export { truthTold } from './revised.ts';
export { type Sealable, sealable } from './sealable.ts';
export { canContinue, type Snapshot } from './snapshot.ts';
export { studyDay } from './study-day.ts';
export {
  type Gathering,
  gatherTraining,
  lossOf,
  type Sequence,
  scoredIn,
  trainingOf,
} from './training.ts';
