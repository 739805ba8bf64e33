/** Asks the fitting worker what tonight's shots tell: the newest request wins. */

import type { Evening, EveningRequest } from '../shots/index.ts';
import { type Ask, type Asked, askNewest, type Port, type Reply } from './newest.ts';

export type FitRequest = Asked<EveningRequest>;
export type FitReply = Reply<{ readonly evening: Evening }>;
export type FitterPort = Port<EveningRequest, { readonly evening: Evening }>;

export interface Fitter {
  /** Calls back once, unless a newer request takes this one's place before it is begun. */
  readonly ask: Ask<EveningRequest, { readonly evening: Evening }>;
}

export function createFitter(port: FitterPort): Fitter {
  return { ask: askNewest(port) };
}
