/** Screens by the fragment of the address, so that any static host will do. */

import { isPatternId, type PatternId } from '../charts/index.ts';

export type Screen =
  | { readonly name: 'today' }
  | { readonly name: 'quiz' }
  | { readonly name: 'charts' }
  | { readonly name: 'pattern'; readonly pattern: PatternId }
  | { readonly name: 'settings' };

/** An address that names no screen leads to Today. */
export function parseScreen(fragment: string): Screen {
  const [name = '', part = ''] = fragment.replace(/^#\/?/, '').split('/');
  if (name === 'charts' && isPatternId(part)) return { name: 'pattern', pattern: part };
  if (name === 'quiz' || name === 'charts' || name === 'settings') return { name };
  return { name: 'today' };
}

export function formatScreen(screen: Screen): string {
  if (screen.name === 'pattern') return `#/charts/${screen.pattern}`;
  return screen.name === 'today' ? '#/' : `#/${screen.name}`;
}
