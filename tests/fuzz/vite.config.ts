import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vite';

/** Bundles the fuzzer for Node, so that the code is fuzzed as it ships: compiled once, no loader. */
export default defineConfig({
  publicDir: false,
  build: {
    ssr: fileURLToPath(new URL('run.ts', import.meta.url)),
    outDir: fileURLToPath(new URL('../../node_modules/.cache/fuzz', import.meta.url)),
    emptyOutDir: true,
    target: 'node20',
    rolldownOptions: { output: { entryFileNames: 'run.mjs', codeSplitting: false } },
  },
  ssr: { noExternal: true },
});
