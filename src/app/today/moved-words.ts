/** The words above and below the list of lines that a revision moved. */

export interface MovedLines {
  readonly count: number;
  /** Whether the player knows all of these lines only from another table. */
  readonly elsewhere: boolean;
}

export function movedHead({ count, elsewhere }: MovedLines): string {
  const lines = count === 1 ? 'One line' : `${count} lines`;
  if (!elsewhere) return `${lines} moved`;
  return `${lines} ${count === 1 ? 'differs' : 'differ'} from the table you know`;
}

export function movedNote({ count, elsewhere }: MovedLines): string {
  const one = count === 1;
  if (elsewhere)
    return one
      ? 'You know it from another table, with another number: it comes today, to be learned for this one.'
      : 'You know them from another table, with other numbers: they come today, to be learned for this one.';
  const back = one ? 'it comes back' : 'they come back';
  return `The chart was revised: ${back} today, to be learned anew.`;
}
