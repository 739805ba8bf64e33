export { AnswerPanel, FocusedButton, SpeedLegend, SpeedTable } from './answer-panel.tsx';
export { AnswerStage, PartsFigure } from './answer-stage.tsx';
export { cardName, cardTruth, KIND_NAMES, KIND_NOTES } from './card-words.ts';
export { stepWords } from './cue.ts';
export {
  COUNTS,
  type DrillCount,
  type DrillSpec,
  formatDrill,
  type ParsedDrill,
  parseDrill,
  printOf,
} from './drill-code.ts';
export { createDrill, type Drill, drillCards, MOST_ASKED } from './drill-questions.ts';
export { figuresOf, leanOf, medianOf, type Past, pastOf } from './drill-result.ts';
export { DrillResult } from './drill-result-panel.tsx';
export { isOver, nextOf, type Run, runOf, runsIn, specOf } from './drill-run.ts';
export { DrillScreen } from './drill-screen.tsx';
export {
  createDrillSession,
  type DrillPhase,
  type DrillPorts,
  type DrillSession,
} from './drill-session.ts';
export { type WeakZone, weakZones } from './drill-weak.ts';
export { drillWords, weakName, weakWords, zoneRange } from './drill-words.ts';
export { EarDone, EarReady } from './ear-panels.tsx';
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
} from './ear-ports.ts';
export { createEarSession, type EarSession } from './ear-session.ts';
export { EarStage } from './ear-stage.tsx';
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
export { QuizScreen } from './quiz-screen.tsx';
export { createSession, type QuizPorts, queueSettings, type Session } from './session.ts';
export { createStopwatch, type Stopwatch } from './stopwatch.ts';
export { nextDue, nextWords } from './summary.ts';
export { lengthWords, speedWords, type Units } from './words.ts';
