/**
 * What the first card does not need, fetched as one chunk when it is first wanted. The bundler would
 * split the start to share parts with three.
 */

export { exportBackup } from './export-backup.ts';
export { importBackup } from './import-backup.ts';
export { readWhole } from './read-whole.ts';
export { seal } from './seal.ts';
export { sourceStore } from './sources.ts';
