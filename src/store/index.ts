export {
  type Backup,
  type BackupError,
  formatBackup,
  type ParsedBackup,
  parseBackup,
} from './backup.ts';
export type { StoredRehearsal } from './rehearsal.ts';
export {
  DEFAULT_SETTINGS,
  MINUTES,
  NEW_LINES,
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
export {
  type Contents,
  createStore,
  type Imported,
  type Store,
  type StoreOptions,
} from './store.ts';
