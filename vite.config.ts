import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';
import { offline } from './scripts/offline-plugin.ts';
import { policy } from './scripts/policy-plugin.ts';

const SERVICE_WORKER = fileURLToPath(new URL('src/workers/service-worker.ts', import.meta.url));

export default defineConfig({
  base: './',
  plugins: [policy(), offline(SERVICE_WORKER)],
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  build: {
    target: 'es2022',
    modulePreload: { polyfill: false },
    // Files, each with a name of its own, and none written into another: the policy forbids it.
    assetsInlineLimit: 0,
    // What is needed at once comes in one file: many small ones compress worse.
    rolldownOptions: {
      output: { codeSplitting: { groups: [{ name: 'start', tags: ['$initial'] }] } },
    },
  },
  preview: { port: 4173 },
  test: {
    reporters: ['default', './tests/reporter.ts'],
    projects: [
      {
        extends: true,
        test: {
          name: 'unit',
          // Property tests and oracles take seconds, and a minute on a busy machine.
          testTimeout: 120_000,
          include: ['tests/**/*.test.{ts,tsx}'],
          exclude: ['tests/browser/**', 'tests/faults/**', 'tests/pictures/**'],
        },
      },
      {
        extends: true,
        test: {
          name: 'browser',
          include: ['tests/browser/**/*.test.ts', 'tests/faults/**/*.test.ts'],
          testTimeout: 120_000,
          hookTimeout: 120_000,
          fileParallelism: false,
        },
      },
      {
        extends: true,
        test: { name: 'pictures', include: ['tests/pictures/*.ts'], testTimeout: 60_000 },
      },
    ],
  },
});
