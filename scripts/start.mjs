// Builds the app and serves it, on the port in PORT (4173): `npm start`. A folder to build into may be named.
import { build, preview } from 'vite';

const [outDir = 'dist'] = process.argv.slice(2);
await build({ logLevel: 'warn', build: { outDir } });
const { resolvedUrls } = await preview({
  logLevel: 'warn',
  build: { outDir },
  preview: { port: Number(process.env.PORT ?? 4173) },
});
console.log(resolvedUrls?.local[0]);
