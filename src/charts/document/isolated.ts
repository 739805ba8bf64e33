/**
 * Text that someone wrote, to stand beside words of ours. Letters that run from right to left, and
 * marks that turn the direction, would otherwise turn those words, too (Unicode Annex 9). What is
 * kept, and what goes into a file, stays as it was written.
 */

/** Marks of direction, and the blocks of letters that run from right to left (Annex 9, from memory). */
const TURNS =
  /[\u0590-\u08ff\u200e\u200f\u202a-\u202e\u2066-\u2069\ufb1d-\ufdff\ufe70-\ufefc\u{10800}-\u{10fff}\u{1e800}-\u{1efff}]/u;
/** Paragraphs end at these, and isolation ends with a paragraph. */
const BREAKS = /[\u0085\u2028\u2029]/g;
const FIRST_STRONG_ISOLATE = '\u2068';
const POP_ISOLATE = '\u2069';
const ISOLATES = /[\u2066-\u2069]/g;

/** The text between marks that keep its direction inside, whatever marks it has; plain text as it is. */
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
