export {
  type Answered,
  compareEvents,
  EVENT_VERSION,
  type EventDraft,
  type LogEvent,
  type Met,
  mergeLogs,
  type ParsedEvent,
  parseEvent,
  type TakenBack,
} from './events.ts';
export { type Held, heldOn } from './held.ts';
export {
  addToLog,
  type CardMemory,
  foldLog,
  isAnswer,
  type LogState,
  lastEvent,
  type MetLine,
} from './log.ts';
export { DEFAULT_WEIGHTS, interval, type Memory, recall, remember } from './memory.ts';
export {
  type Agenda,
  agendaFor,
  dueDay,
  type NextStep,
  nextStep,
  type QueueSettings,
} from './queue.ts';
export { studyDay } from './study-day.ts';
