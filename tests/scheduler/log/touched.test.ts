import { describe, expect, it } from 'vitest';
import { addToLog, foldLog } from '../../../src/scheduler/index.ts';
import { touchedSince } from '../../../src/scheduler/log/touched.ts';
import { answer, base, said } from '../making.ts';

describe('what events touched', () => {
  const first = addToLog(foldLog([]), answer(1, 'p/a', 10));
  const note = addToLog(first, said(base(2, 10), 'noted', { line: 'q', text: 'thin' }));
  const second = addToLog(note, said(base(3, 10), 'met', { line: 'q' }));
  const other = addToLog(first, answer(2, 'p/b', 10));

  it('is each answered card and met line since an earlier state, newest first', () => {
    const third = addToLog(second, answer(4, 'p/b', 11));
    expect(touchedSince(third.touched, first.touched)).toEqual(['p/b', 'q']);
    expect(touchedSince(note.touched, first.touched)).toEqual([]);
  });

  it('is kept apart by two states that continue the same one', () => {
    expect(touchedSince(second.touched, first.touched)).toEqual(['q']);
    expect(touchedSince(other.touched, first.touched)).toEqual(['p/b']);
  });

  it('is unknown where a state does not continue the other', () => {
    expect(touchedSince(first.touched, second.touched)).toBeNull();
    expect(touchedSince(other.touched, second.touched)).toBeNull();
    const aside = said(base(5, 11), 'set aside', { line: 'q', aside: true });
    expect(touchedSince(addToLog(second, aside).touched, second.touched)).toBeNull();
  });
});
