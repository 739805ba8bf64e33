/** Keeps the screen in the fragment of the address, so that any static host can serve the app. */

import {
  type Decimal,
  formatDecimal,
  isPatternId,
  type PatternId,
  parseDecimal,
} from '../charts/index.ts';
import { MOST_MINUTES } from '../store/index.ts';

/** Screens without parameters. */
const PLAIN = [
  'charts',
  'drills',
  'rehearsal',
  'ear',
  'look-up',
  'placement',
  'publish',
  'memory',
  'new-chart',
  'levels',
  'settings',
  'table-day',
] as const;

export type Screen =
  | { readonly name: 'today' }
  | { [Name in (typeof PLAIN)[number]]: { readonly name: Name } }[(typeof PLAIN)[number]]
  /** A session; `minutes` is its length, and null means everything that is due. */
  | { readonly name: 'quiz'; readonly minutes: number | null }
  /** A pattern's page; `start` is the start of the chosen line, or null for the middle line. */
  | { readonly name: 'pattern'; readonly pattern: PatternId; readonly start: Decimal | null }
  | { readonly name: 'drill'; readonly code: string }
  /**
   * A finished rehearsal; `id` is the id of its event. `question` is the open one, counted from 1.
   */
  | { readonly name: 'score-sheet'; readonly id: string; readonly question: number | null }
  /** The sheets to print; null means those of all patterns. */
  | { readonly name: 'print'; readonly pattern: PatternId | null }
  /** The revisions of the chart in use; `pair` gives the two to compare first. */
  | { readonly name: 'revisions'; readonly pair: readonly [from: number, to: number] | null }
  /**
   * A received chart; `code` is the code of a link, or the path of a file beside the app
   * (published.ts).
   */
  | { readonly name: 'receive'; readonly code: string | null }
  /** The chart's editor; null means the first pattern. */
  | { readonly name: 'edit'; readonly pattern: PatternId | null };

/** Returns the screen that an address names; Today if it names none. */
export function parseScreen(fragment: string): Screen {
  const [name = '', part = '', rest = ''] = fragment.replace(/^#\/?/, '').split('/');
  if (name === 'charts' && isPatternId(part)) {
    return { name: 'pattern', pattern: part, start: startIn(rest) };
  }
  if (name === 'edit') return { name, pattern: isPatternId(part) ? part : null };
  if (name === 'drills' && part !== '') return { name: 'drill', code: part.slice(0, 200) };
  if (name === 'rehearsal' && part !== '') {
    const question = /^[1-9]\d{0,3}$/.test(rest) ? Number(rest) : null;
    return { name: 'score-sheet', id: part.slice(0, 200), question };
  }
  if (name === 'quiz') {
    const minutes = /^[1-9]\d{0,2}$/.test(part) ? Number(part) : null;
    return { name, minutes: minutes !== null && minutes <= MOST_MINUTES ? minutes : null };
  }
  if (name === 'print') return { name, pattern: isPatternId(part) ? part : null };
  if (name === 'revisions') return { name, pair: pairIn(part, rest) };
  // A file's path contains slashes; a code does not.
  if (name === 'receive') {
    const path = part === 'file' ? fragment.replace(/^#\/?receive\//, '') : part;
    return { name, code: path === '' ? null : path };
  }
  const plain = PLAIN.find((one) => one === name);
  return { name: plain ?? 'today' };
}

function pairIn(from: string, to: string): readonly [number, number] | null {
  const isNumber = (text: string) => /^[1-9]\d{0,8}$/.test(text);
  return isNumber(from) && isNumber(to) ? [Number(from), Number(to)] : null;
}

function startIn(text: string): Decimal | null {
  const parsed = parseDecimal(text);
  return parsed.ok ? parsed.value : null;
}

export function formatScreen(screen: Screen): string {
  switch (screen.name) {
    case 'today':
      return '#/';
    case 'pattern': {
      const line = screen.start === null ? '' : `/${formatDecimal(screen.start, 0)}`;
      return `#/charts/${screen.pattern}${line}`;
    }
    case 'edit':
      return screen.pattern === null ? '#/edit' : `#/edit/${screen.pattern}`;
    case 'drill':
      return `#/drills/${screen.code}`;
    case 'score-sheet':
      return `#/rehearsal/${screen.id}${screen.question === null ? '' : `/${screen.question}`}`;
    case 'quiz':
      return screen.minutes === null ? '#/quiz' : `#/quiz/${screen.minutes}`;
    case 'print':
      return screen.pattern === null ? '#/print' : `#/print/${screen.pattern}`;
    case 'revisions':
      return screen.pair === null ? '#/revisions' : `#/revisions/${screen.pair.join('/')}`;
    case 'receive':
      return screen.code === null ? '#/receive' : `#/receive/${screen.code}`;
    default:
      return `#/${screen.name}`;
  }
}
