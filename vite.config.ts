import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';
import { offline } from './scripts/offline-plugin.ts';
import { policy } from './scripts/policy-plugin.ts';
import { solvedNumbers } from './scripts/solved-plugin.ts';
import ByProject from './scripts/test-order.ts';

const SERVICE_WORKER = fileURLToPath(new URL('src/workers/service-worker.ts', import.meta.url));

/** The folders that the daily questions are made of: fetched as one file, which is asked for first. */
const QUIZ = /\/src\/(app\/daily|cards|table|figure|quiz\/(daily|stage|words))\/[^/]+$/;

export default defineConfig({
  base: './',
  plugins: [solvedNumbers(), policy(), offline(SERVICE_WORKER)],
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  build: {
    target: 'es2022',
    modulePreload: { polyfill: false },
    // Files, each with a name of its own, and none written into another: the policy forbids it.
    assetsInlineLimit: 0,
    // What is needed at once comes in one file: many small ones compress worse.
    rolldownOptions: {
      // What took how long in the build is nothing that `npm start` should say.
      checks: { bundlerTimings: false },
      output: {
        chunkFileNames: ({ facadeModuleId, name }) =>
          `assets/${facadeModuleId ? nameByFolder(facadeModuleId) : name}-[hash].js`,
        codeSplitting: {
          groups: [
            { name: 'start', tags: ['$initial'], priority: 2 },
            { name: 'quiz', test: QUIZ, priority: 1 },
          ],
        },
      },
    },
  },
  preview: { port: 4173 },
  test: {
    reporters: ['default', './tests/reporter.ts'],
    // Chromium needs a core beside each worker's own; more workers are only in each other's way.
    maxWorkers: 2,
    sequence: { sequencer: ByProject },
    projects: [
      {
        extends: true,
        test: {
          name: 'unit',
          // Property tests and oracles take seconds, and a minute on a busy machine.
          testTimeout: 120_000,
          include: ['tests/**/*.test.{ts,tsx}'],
          exclude: ['tests/browser/**', 'tests/faults/**', 'tests/pictures/**'],
          isolate: false,
        },
      },
      {
        extends: true,
        test: {
          name: 'browser',
          include: ['tests/browser/**/*.test.ts', 'tests/faults/**/*.test.ts'],
          globalSetup: ['tests/browser/prepare.ts'],
          setupFiles: ['tests/browser/setup.ts'],
          testTimeout: 120_000,
          hookTimeout: 120_000,
          expect: { poll: { timeout: 30_000 } },
          // A worker's files share its Chromium.
          isolate: false,
        },
      },
      {
        extends: true,
        test: { name: 'pictures', include: ['tests/pictures/*.ts'], testTimeout: 60_000 },
      },
    ],
  },
});

/** "edit-levels-screen" for src/app/edit/levels-screen.tsx. */
function nameByFolder(path: string): string {
  const [, inside] = /\/src\/(?:app\/)?(.+)\.tsx?$/.exec(path) ?? [];
  return inside?.replaceAll('/', '-') ?? '[name]';
}
