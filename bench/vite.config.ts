import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vite';

/** Bundles the bench for Node, so that the code is measured as it ships: compiled once, no loader. */
export default defineConfig({
  build: {
    ssr: true,
    rolldownOptions: {
      input: {
        run: fileURLToPath(new URL('run.ts', import.meta.url)),
      },
    },
    outDir: fileURLToPath(new URL('../node_modules/.cache/bench', import.meta.url)),
    emptyOutDir: true,
    target: 'node20',
  },
  // The browser's driver is not part of the measured code.
  ssr: { noExternal: true, external: ['playwright-core', 'vite'] },
});
