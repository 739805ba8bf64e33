import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vite';

/**
 * Bundles the command for Node, which cannot read TypeScript before version 22. The output folder
 * is not emptied first, because another run of the command may be reading it.
 */
export default defineConfig({
  publicDir: false,
  build: {
    ssr: fileURLToPath(new URL('chart.ts', import.meta.url)),
    outDir: fileURLToPath(new URL('../node_modules/.cache/chart', import.meta.url)),
    emptyOutDir: false,
    target: 'node20',
    rolldownOptions: { output: { entryFileNames: 'chart.mjs' } },
  },
  ssr: { noExternal: true },
});
