export { SpeedLegend } from './answer-panel.tsx';
export { stepWords } from './cue.ts';
export { type FigureParts, lineAtSpeeds, playAt } from './feedback.ts';
export { LineFigure, QuizScreen } from './quiz-screen.tsx';
export { createSession, type QuizPorts, queueSettings, type Session } from './session.ts';
export { createStopwatch, type Stopwatch } from './stopwatch.ts';
export { nextDue, nextWords } from './summary.ts';
export { lengthWords, speedWords, type Units } from './words.ts';
