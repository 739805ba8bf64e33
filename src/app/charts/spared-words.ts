/** Says how many numbers the player need not remember because a chart has anchors. */

/** A sentence in three parts; the middle one is printed in bold. */
export interface SparedWords {
  readonly before: string;
  readonly count: string;
  readonly after: string;
}

export function sparedWords(anchors: number, lines: number): SparedWords {
  if (lines === 0) return { before: 'No line to remember yet.', count: '', after: '' };
  if (lines === 1) return { before: 'Remember its ', count: 'one', after: ' number.' };
  if (anchors >= lines)
    return {
      before: 'Remember all ',
      count: String(lines),
      after: ' numbers: interpolating between them saves none.',
    };
  const what = anchors === 1 ? 'number' : 'numbers';
  const after = ` ${what} instead of ${lines}: the anchors of each pattern, and proportion between them.`;
  return { before: 'Remember ', count: String(anchors), after };
}
