export {
  type Backup,
  type BackupError,
  formatBackup,
  type ParsedBackup,
  parseBackup,
} from './backup.ts';
export {
  DEFAULT_SETTINGS,
  NEW_LINES,
  parseSettings,
  type Settings,
  TARGETS,
  TOLERANCES,
  toleranceOf,
} from './settings.ts';
export {
  type Contents,
  createStore,
  type Imported,
  type Store,
  type StoreOptions,
} from './store.ts';
