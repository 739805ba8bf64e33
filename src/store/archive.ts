/**
 * What is not needed for the first card, in one piece that is fetched when it is first wanted: in
 * three, the bundler would cut up what they share with the start.
 */

export { exportBackup } from './export-backup.ts';
export { importBackup } from './import-backup.ts';
export { readWhole } from './read-whole.ts';
export { seal } from './seal.ts';
export { sourcesIn } from './sources.ts';
