/**
 * The parts of the store that the first card does not need. They load as one bundle on first use. If
 * they were three bundles, the bundler would also split the startup code, to share parts with them.
 */

export { exportBackup } from './export-backup.ts';
export { importBackup } from './import-backup.ts';
export { readWhole } from './read-whole.ts';
export { seal } from './seal.ts';
export { sourceStore } from './sources.ts';
