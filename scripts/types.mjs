// Type-checks each room against its own tsconfig, so that a platform type in a pure room is an error.
import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';

const rooms = readdirSync('src', { withFileTypes: true })
  .filter((entry) => entry.isDirectory())
  .map((entry) => join('src', entry.name, 'tsconfig.json'));
const projects = [
  ...rooms,
  'src/app/tsconfig.main.json',
  'tests/tsconfig.json',
  'bench/tsconfig.json',
  'bin/tsconfig.json',
];
const tsc = join('node_modules', 'typescript', 'bin', 'tsc');

let failed = 0;
for (const project of projects) {
  if (!existsSync(project)) {
    console.error(`${project} is missing: every room has a tsconfig.json of its own.`);
    failed += 1;
    continue;
  }
  const run = spawnSync(process.execPath, [tsc, '-p', project], { stdio: 'inherit' });
  if (run.status !== 0) failed += 1;
}
if (failed > 0) process.exit(1);
