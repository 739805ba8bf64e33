/**
 * Solves the numbers of the app's first chart at build time, so that a new device shows its first card
 * without solving them. For any other table or condition the device solves them itself.
 */

import type { Plugin } from 'vite';
import { HARBOUR_LANE, packSolved, solvedOf } from '../src/charts/index.ts';

const NAME = 'virtual:solved-numbers';
const RESOLVED = `\0${NAME}`;

export function solvedNumbers(): Plugin {
  return {
    name: 'throughline-solved-numbers',
    resolveId: (id) => (id === NAME ? RESOLVED : null),
    load: (id) =>
      id === RESOLVED
        ? `export const SOLVED_NUMBERS = ${JSON.stringify(packSolved(solvedOf(HARBOUR_LANE)))};`
        : null,
  };
}
