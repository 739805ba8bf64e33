export { ImpossibleDate } from './append.ts';
export {
  type Backup,
  type BackupError,
  formatBackup,
  type ParsedBackup,
  parseBackup,
} from './backup.ts';
export { OtherVersion } from './database.ts';
export type { Imported, Merged } from './import-backup.ts';
export type { Contents } from './log.ts';
export type { KeptPlan } from './plan.ts';
export type { StoredRehearsal } from './rehearsal.ts';
export {
  BY_HEART,
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
  TARGETS,
  TOLERANCES,
  toleranceOf,
  USES,
  type Use,
  VOICE_RATES,
} from './settings.ts';
export type { ChartSource, SourceStore, Sources } from './sources.ts';
export { createStore, type Store, type StoreOptions } from './store.ts';
export { type Clashes, openSyncStore, type SyncStore } from './sync-store.ts';
