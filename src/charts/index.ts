export { PATTERNS, type Pattern, type PatternId } from './patterns.ts';
