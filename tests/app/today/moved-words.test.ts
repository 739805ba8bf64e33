import { describe, expect, it } from 'vitest';
import { movedHead, movedNote } from '../../../src/app/today/moved-words.ts';

describe('lines that moved', () => {
  it.each([
    [1, false, 'One line moved', /: it comes back today/],
    [2, false, '2 lines moved', /: they come back today/],
    [
      1,
      true,
      'One line differs from the table you know',
      /^You know it .* another number: it comes/,
    ],
    [
      5,
      true,
      '5 lines differ from the table you know',
      /^You know them .* other numbers: they come/,
    ],
  ])('%d of them, elsewhere %s: %s', (count, elsewhere, head, note) => {
    expect(movedHead({ count, elsewhere })).toBe(head);
    expect(movedNote({ count, elsewhere })).toMatch(note);
  });
});
