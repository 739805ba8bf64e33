import { createServer } from 'vite';
import { expect, it } from 'vitest';
import { solvedNumbers } from '../scripts/solved-plugin.ts';
import { HARBOUR_LANE, type PackedSolved, packSolved } from '../src/charts/index.ts';
import { solvedOf } from '../src/charts/numbers/solved.ts';

it('the app is built with the numbers of the chart that it begins with', async () => {
  const server = await createServer({
    configFile: false,
    logLevel: 'error',
    plugins: [solvedNumbers()],
    server: { middlewareMode: true, ws: false },
    optimizeDeps: { noDiscovery: true },
  });
  try {
    const { SOLVED_NUMBERS } = (await server.ssrLoadModule('virtual:solved-numbers')) as {
      readonly SOLVED_NUMBERS: PackedSolved;
    };
    expect(SOLVED_NUMBERS).toEqual(packSolved(solvedOf(HARBOUR_LANE)));
  } finally {
    await server.close();
  }
});
