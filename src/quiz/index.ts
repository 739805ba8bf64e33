// words: cards, lines and results in words, and the figures that go with them.

export { cardName, KIND_NAMES, KIND_NOTES } from './words/card.ts';
export { anchorWords, cuesOf, stepWords } from './words/cue.ts';
export { fateWords } from './words/fate.ts';
export {
  type FigureParts,
  followsAim,
  lineAtSpeeds,
  linesFigure,
  playNumber,
  playRoute,
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

// stage: what all kinds of sessions share.

export { ChartRemark, Legend, SpeedLegend } from './stage/answer-panel.tsx';
export { isSecondTap } from './stage/double-tap.ts';
export { notSaved } from './stage/not-saved.ts';
export { askerFor } from './stage/questions.ts';
export { createStopwatch, type Stopwatch } from './stage/stopwatch.ts';
export { useOf, worthOf } from './stage/use.ts';

// daily: the questions of the day.

export type { QuizPorts } from './daily/agenda.ts';
export { NoteForm } from './daily/line-actions.tsx';
export { type LineMark, markLine } from './daily/mark-line.ts';
export { fewestMinutesFor, minutesFor, questionsIn, timePerQuestion } from './daily/pace.ts';
export { QuizScreen } from './daily/screen.tsx';
export { createSession } from './daily/session.ts';
export { minutesADay, stepsADay, tomorrowWords, wishOf } from './daily/wish.ts';

// drill: drills, their codes, their runs and their results.

export {
  COUNTS,
  type DrillSpec,
  fitted,
  formatDrill,
  parseDrill,
  printOf,
} from './drill/code.ts';
export { createDrill, drillCards } from './drill/questions.ts';
export { figuresOf, pastOf } from './drill/result.ts';
export { DrillResult } from './drill/result-panel.tsx';
export { isOver, isUnfinished, type Run, runOf, runsIn, specOf } from './drill/run.ts';
export { DrillScreen } from './drill/screen.tsx';
export { createDrillSession } from './drill/session.ts';
export { type WeakZone, weakZones } from './drill/weak.ts';
export { drillWords, weakName, weakWords, zoneRange } from './drill/words.ts';

// rehearsal: drafts, the session, and its score sheet.

export { newRehearsal } from './rehearsal/draft.ts';
export {
  FEWEST_CARDS,
  LENGTHS,
  planRehearsal,
  rehearsable,
  specOfFinished,
  weigh,
} from './rehearsal/plan.ts';
export { RehearsalRun } from './rehearsal/run.tsx';
export { scoreRows, totalsOf } from './rehearsal/score.ts';
export { createRehearsal } from './rehearsal/session.ts';
export { ScoreSheet, SheetQuestion } from './rehearsal/sheet.tsx';
export { sourceOf, termsOf } from './rehearsal/source.ts';

// ear: practice by ear, and what it needs from the device.

export { EarDone, EarReady } from './ear/panels.tsx';
export type {
  EarDevice,
  MediaHandlers,
  MediaKeys,
  Said,
  Visibility,
  Voice,
  WakeLock,
} from './ear/ports.ts';
export { createEarSession } from './ear/session.ts';
export { EarStage } from './ear/stage.tsx';

// placement: proving lines that the player already knows.

export { type Choosable, choosable } from './placement/course.ts';
export { PlacementRun } from './placement/run.tsx';
export { createPlacement } from './placement/session.ts';
export { ENDS_WORDS, PROVED_WORDS } from './placement/words.ts';
