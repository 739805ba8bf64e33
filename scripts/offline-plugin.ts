/** Builds the service worker last, when all files that it caches exist. */

import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join, relative, resolve, sep } from 'node:path';
import { build, type Plugin, type ResolvedConfig } from 'vite';

const NAME = 'service-worker.js';

/** @param source the service worker's file */
export function offline(source: string): Plugin {
  let config: ResolvedConfig | null = null;
  return {
    name: 'throughline-offline',
    apply: 'build',
    configResolved: (resolved) => {
      config = resolved;
    },
    closeBundle: {
      order: 'post',
      handler: async () => {
        if (config) await buildWorker(source, resolve(config.root, config.build.outDir));
      },
    },
  };
}

async function buildWorker(source: string, outDir: string): Promise<void> {
  await build({
    configFile: false,
    logLevel: 'warn',
    publicDir: false,
    define: {
      BUILD_FILES: JSON.stringify(filesIn(outDir)),
      'process.env.NODE_ENV': '"production"',
    },
    build: {
      outDir,
      emptyOutDir: false,
      target: 'es2022',
      rolldownOptions: { input: source, output: { format: 'iife', entryFileNames: NAME } },
    },
  });
}

/** Files outside assets/ have no hash in their names, so their contents are hashed. */
function filesIn(outDir: string) {
  return readdirSync(outDir, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name !== NAME)
    .map((entry) => join(entry.parentPath, entry.name))
    .sort()
    .map((path) => {
      const url = relative(outDir, path).split(sep).join('/');
      return { url, revision: url.startsWith('assets/') ? null : digest(readFileSync(path)) };
    });
}

function digest(contents: Buffer): string {
  return createHash('sha256').update(contents).digest('hex').slice(0, 16);
}
