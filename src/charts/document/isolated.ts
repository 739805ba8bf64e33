/**
 * Isolates text that someone typed from the words around it on a screen. Otherwise right-to-left
 * letters and direction marks would reorder those words too (Unicode Annex 9). Stored text and
 * files keep the text as it was typed.
 */

/** Direction marks and the blocks of right-to-left letters (Annex 9, from memory). */
const TURNS =
  /[\u0590-\u08ff\u200e\u200f\u202a-\u202e\u2066-\u2069\ufb1d-\ufdff\ufe70-\ufefc\u{10800}-\u{10fff}\u{1e800}-\u{1efff}]/u;
/** These characters end a paragraph, and the isolation with it. */
const BREAKS = /[\u0085\u2028\u2029]/g;
const FIRST_STRONG_ISOLATE = '\u2068';
const POP_ISOLATE = '\u2069';
const ISOLATES = /[\u2066-\u2069]/g;

/**
 * Returns the text between isolating marks, with its own isolating marks balanced. Plain
 * left-to-right text is returned unchanged.
 */
export function isolated(text: string): string {
  if (!TURNS.test(text)) return text;
  let open = 0;
  const within = text.replace(BREAKS, ' ').replace(ISOLATES, (mark) => {
    if (mark !== POP_ISOLATE) open += 1;
    else if (open === 0) return '';
    else open -= 1;
    return mark;
  });
  return FIRST_STRONG_ISOLATE + within + POP_ISOLATE.repeat(open + 1);
}
