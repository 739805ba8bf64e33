import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatCompact, HARBOUR_LANE, readCompact, slim } from '../../../src/charts/index.ts';
import { anyDocument } from '../documents.ts';
import { MEASURED_BAR_TABLE } from '../measured.ts';

const DAMAGED = { ok: false, code: 'damaged', say: 'is damaged' };

describe('the short form of a chart', () => {
  it('reads back as the document that was written', () => {
    fc.assert(
      fc.property(anyDocument, (document) => {
        expect(readCompact(formatCompact(document))).toEqual({ ok: true, document });
      }),
      { numRuns: 300 },
    );
  });

  it('keeps the order of entries, on which digests depend', () => {
    const [revision] = MEASURED_BAR_TABLE.revisions;
    const measured = [...revision.measured].reverse();
    const document = { ...MEASURED_BAR_TABLE, revisions: [{ ...revision, measured }] as const };
    expect(readCompact(formatCompact(document))).toEqual({ ok: true, document });
  });

  it('is less than half as long as the document', () => {
    for (const document of [HARBOUR_LANE, MEASURED_BAR_TABLE].map(slim)) {
      const whole = JSON.stringify(document).length;
      expect(formatCompact(document).length).toBeLessThan(whole / 2);
    }
  });

  const short = formatCompact(MEASURED_BAR_TABLE);
  const data = JSON.parse(short) as unknown[];

  it.each([
    ['nothing', ''],
    ['an object', '{}'],
    ['an empty list', '[]'],
    ['a list with more', JSON.stringify([...data, 0])],
    ['a shorter column', short.replace(/(\["a",\[)\d+,/, '$1')],
    ['a column of words', short.replace(/(\["a",\[)\d+,/, '$1"2",')],
  ])('with %s is refused', (_name, text) => {
    expect(text).not.toBe(short);
    expect(readCompact(text)).toEqual(DAMAGED);
  });

  it.each([
    ['an unknown pattern', short.replace('["a",[', '["z",['), 'measured.0.pattern'],
    ['a fractional unit', short.replace(',500,[["a"', ',0.3,[["a"'), 'measured.0'],
    ['an infinite unit', short.replace(',500,[["a"', ',1e400,[["a"'), 'measured'],
    ['an unknown basis', short.replace(',1],[]', ',7],[]'), 'basis'],
  ])('with %s is refused by its place', (_name, text, where) => {
    expect(text).not.toBe(short);
    const read = readCompact(text);
    expect(read.ok ? '' : read.say).toContain('is damaged at');
    expect(read.ok ? '' : read.say).toContain(where);
  });

  it('that is cut anywhere is refused', () => {
    for (let length = 0; length < short.length; length++) {
      expect(readCompact(short.slice(0, length)).ok).toBe(false);
    }
  });
});
