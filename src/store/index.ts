export { ImpossibleDate } from './append.ts';
export { type Backup, formatBackup, parseBackup } from './backup.ts';
export { OtherVersion } from './database.ts';
export type { Imported } from './import-backup.ts';
export type { Contents } from './log.ts';
export type { StoredRehearsal } from './rehearsal.ts';
export {
  DEFAULT_SETTINGS,
  LEAST_MINUTES,
  LONGEST_OCCASION,
  MINUTES,
  MOST_MINUTES,
  NEW_LINES,
  type Occasion,
  PAUSES,
  parseSettings,
  type Settings,
  type SettingsChange,
  TOLERANCES,
  toleranceOf,
  USES,
  type Use,
  VOICE_RATES,
} from './settings.ts';
export type { ChartSource } from './sources.ts';
export { createStore, type Store } from './store.ts';
export { openSyncStore, type SyncStore } from './sync-store.ts';
