export type { QuizPorts } from './daily/agenda.ts';
export { nextDue, nextWords, queueSettings } from './daily/due.ts';
export { NoteForm } from './daily/line-actions.tsx';
export { type LineMark, markLine } from './daily/mark-line.ts';
export { minutesFor, minutesToHold, questionsIn } from './daily/pace.ts';
export { QuizScreen } from './daily/screen.tsx';
export { createSession, type Session } from './daily/session.ts';
export {
  COUNTS,
  type DrillCount,
  type DrillSpec,
  fitted,
  formatDrill,
  type ParsedDrill,
  parseDrill,
  printOf,
} from './drill/code.ts';
export { createDrill, type Drill, drillCards, MOST_ASKED } from './drill/questions.ts';
export { figuresOf, leanOf, medianOf, type Past, pastOf } from './drill/result.ts';
export { DrillResult } from './drill/result-panel.tsx';
export { isOver, isUnfinished, type Run, runOf, runsIn, specOf } from './drill/run.ts';
export { DrillScreen } from './drill/screen.tsx';
export {
  createDrillSession,
  type DrillPhase,
  type DrillPorts,
  type DrillSession,
} from './drill/session.ts';
export { type WeakZone, weakZones } from './drill/weak.ts';
export { drillWords, weakName, weakWords, zoneRange } from './drill/words.ts';
export { EarDone, EarReady } from './ear/panels.tsx';
export type {
  EarDevice,
  EarPorts,
  MediaHandlers,
  MediaKeys,
  Said,
  Visibility,
  Voice,
  VoiceInfo,
  WakeLock,
} from './ear/ports.ts';
export { createEarSession, type EarSession } from './ear/session.ts';
export { EarStage } from './ear/stage.tsx';
export { type Choosable, choosable } from './placement/course.ts';
export { PlacementRun } from './placement/run.tsx';
export { createPlacement, type Placement, type PlacementPorts } from './placement/session.ts';
export { ENDS_WORDS, PROVED_WORDS } from './placement/words.ts';
export { type ClockFace, clockFace } from './rehearsal/clock-face.ts';
export { newRehearsal, seedAt } from './rehearsal/draft.ts';
export type { RehearsalPhase } from './rehearsal/phase.ts';
export {
  FEWEST_CARDS,
  LENGTHS,
  planRehearsal,
  rehearsable,
  specOfFinished,
  useOf,
  type Weighed,
  weigh,
  worthOf,
} from './rehearsal/plan.ts';
export { RehearsalRun } from './rehearsal/run.tsx';
export {
  gradedWords,
  type ScoreContext,
  type ScoreRow,
  scoreRows,
  type Totals,
  totalsOf,
} from './rehearsal/score.ts';
export { createRehearsal, type Rehearsal, type RehearsalPorts } from './rehearsal/session.ts';
export { ScoreSheet, SheetQuestion } from './rehearsal/sheet.tsx';
export { type RehearsalSource, sourceOf, termsOf } from './rehearsal/source.ts';
export { ChartRemark, Legend, SpeedLegend } from './stage/answer-panel.tsx';
export { isSecondTap } from './stage/double-tap.ts';
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
} from './stage/entry.ts';
export { onIdle } from './stage/idle.ts';
export { notSaved } from './stage/not-saved.ts';
export { askerFor } from './stage/questions.ts';
export { createStopwatch, type Stopwatch } from './stage/stopwatch.ts';
export { cardName, KIND_NAMES, KIND_NOTES } from './words/card.ts';
export { stepWords } from './words/cue.ts';
export { fateWords } from './words/fate.ts';
export {
  type FigureParts,
  followsAim,
  lineAtSpeeds,
  linesFigure,
  playAt,
  playOn,
} from './words/feedback-figure.ts';
export { type Differing, measuredWords } from './words/measured.ts';
export {
  aimWords,
  countedFrom,
  patternName,
  pocketName,
  railName,
  routeWords,
} from './words/names.ts';
export { lengthWords, movementWords, speedWords, type Units } from './words/quantities.ts';
