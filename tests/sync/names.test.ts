import { describe, expect, it } from 'vitest';
import { isBy, isSegmentName, newWriter, segmentName } from '../../src/sync/names.ts';

describe('a file’s name', () => {
  it('gives its writer and its number', () => {
    const writer = newWriter();
    expect(isSegmentName(segmentName(writer, 7))).toBe(true);
    expect(isBy(writer, segmentName(writer, 7))).toBe(true);
    expect(isBy(newWriter(), segmentName(writer, 7))).toBe(false);
    expect(segmentName('abcdefghij', 12)).toBe('abcdefghij-00000012.tls');
  });

  it.each(['../abcdefghij-00000012.tls', 'abcdefghij-00000012.tls.bak', 'x', '', '.', '..'])(
    '%s is not one of ours',
    (name) => expect(isSegmentName(name)).toBe(false),
  );
});
