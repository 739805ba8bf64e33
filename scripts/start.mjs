// `npm start`: builds the app, into the given folder or dist, and serves it on PORT (4173).
import { build, preview } from 'vite';

const [outDir = 'dist'] = process.argv.slice(2);
await build({ logLevel: 'warn', build: { outDir } });
const { resolvedUrls } = await preview({
  logLevel: 'warn',
  build: { outDir },
  preview: { port: Number(process.env.PORT ?? 4173) },
});
console.log(resolvedUrls?.local[0]);
