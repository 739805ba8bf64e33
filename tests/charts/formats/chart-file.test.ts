import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type ChartDocument,
  digestsOf,
  formatChartFile,
  HARBOUR_LANE,
  LONGEST_FILE,
  readChartFile,
  revise,
  toDecimal,
} from '../../../src/charts/index.ts';
import { anyDocument } from '../documents.ts';

const file = formatChartFile(HARBOUR_LANE);

function sentence(text: string): string {
  const read = readChartFile(text);
  return read.ok ? '' : `${read.code}: ${read.say}`;
}

describe('a chart file', () => {
  it('reads back as the document that was written', () => {
    fc.assert(
      fc.property(anyDocument, (document) => {
        expect(readChartFile(formatChartFile(document))).toEqual({ ok: true, document });
      }),
      { numRuns: 300 },
    );
  });

  it('is the same text for equal documents, however they were built', () => {
    const shuffled = JSON.parse(JSON.stringify(HARBOUR_LANE), (_key, value: unknown) =>
      typeof value === 'object' && value !== null && !Array.isArray(value)
        ? Object.fromEntries(Object.entries(value).reverse())
        : value,
    ) as ChartDocument;
    expect(formatChartFile(shuffled)).toBe(file);
    expect(file.startsWith('{\n  "kind": "throughline-chart",\n  "version": 2,\n')).toBe(true);
  });

  it('can have a byte order mark, and lines that end in CR LF', () => {
    const document = HARBOUR_LANE;
    expect(readChartFile(`\ufeff${file}`)).toEqual({ ok: true, document });
    expect(readChartFile(file.replaceAll('\n', '\r\n'))).toEqual({ ok: true, document });
  });

  it('turns the oldest revisions into digests if it would be too long', () => {
    const remarks = Array.from({ length: 1600 }, (_, n) => ({
      pattern: 'foot-to-side' as const,
      start: toDecimal(n / 200),
      text: '\u0001'.repeat(200),
    }));
    const [first] = HARBOUR_LANE.revisions;
    let long: ChartDocument = { ...HARBOUR_LANE, revisions: [first] };
    for (const why of ['second', 'third']) {
      long = revise(long, { ...first, remarks }, { date: '2026-11-25', author: 'A', why });
    }
    const text = formatChartFile(long);
    expect(text.length).toBeLessThanOrEqual(LONGEST_FILE);
    const read = readChartFile(text);
    if (!read.ok) throw new Error(read.say);
    expect(read.document.revisions).toEqual(long.revisions.slice(2));
    expect(digestsOf(read.document)).toEqual(digestsOf(long));
  });

  it.each([
    ['nothing', '', 'not JSON: The file cannot be read: it is not JSON.'],
    ['words', 'aim through 2.5', 'not JSON: The file cannot be read: it is not JSON.'],
    ['not a number', '{"kind": NaN}', 'not JSON: The file cannot be read: it is not JSON.'],
    ['a list', '[]', 'not a chart: The file is not a Throughline chart.'],
    ['a number', '1e999', 'not a chart: The file is not a Throughline chart.'],
    ['another kind', '{"kind":"backup"}', 'not a chart: The file is not a Throughline chart.'],
    [
      'a newer chart',
      file.replace('"version": 2', '"version": 3'),
      'future version: The file was made by a newer Throughline.',
    ],
    [
      'a number beyond any table',
      file.replace('"restitution": 0.84', '"restitution": 1e400'),
      'damaged: The file is damaged at revisions.0.condition.restitution.',
    ],
    [
      'a pattern under another name',
      file.replace('"cross-side"', '"__proto__"'),
      'damaged: The file is damaged at revisions.0.patterns.2.',
    ],
  ])('with %s is refused in a sentence', (_name, text, says) => {
    expect(sentence(text)).toBe(says);
  });

  it('that is too large is refused unread', () => {
    expect(sentence(' '.repeat(10_000_000))).toBe('too large: The file is larger than any chart.');
  });

  it('that is nested deeply is refused', () => {
    for (const [open, close] of [
      ['[', ']'],
      ['{"kind":', '}'],
      ['{"kind":"throughline-chart","version":2,"revisions":[', ']}'],
    ] as const) {
      const depth = 50_000;
      const text = `${open.repeat(depth)}0${close.repeat(depth)}`;
      expect(sentence(text)).toMatch(/^(not JSON|not a chart|damaged): /);
    }
  });

  it('with keys of the prototype changes no object and ignores them', () => {
    const hostile = file.replace('{\n', '{\n"__proto__":{"polluted":1},"constructor":{},\n');
    expect(readChartFile(hostile)).toEqual({ ok: true, document: HARBOUR_LANE });
    expect('polluted' in {}).toBe(false);
  });

  it('that is cut anywhere is refused', () => {
    const whole = file.trimEnd();
    for (let length = 0; length < whole.length; length++) {
      expect(readChartFile(whole.slice(0, length)).ok).toBe(false);
    }
  });
});
