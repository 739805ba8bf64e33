import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { BASES } from '../../../src/charts/document/document.ts';
import {
  chartId,
  computeChart,
  copyOf,
  HARBOUR_LANE,
  isSameName,
  lastRevision,
  newChart,
  PATTERNS,
  parseChart,
  stateOf,
  toDecimal,
} from '../../../src/charts/index.ts';
import { CLUB_CLOTH } from '../../../src/table/index.ts';

const CREATED = { author: 'Quay Street', at: Date.UTC(2026, 10, 25) } as const;
const SIGNED = { date: '2026-11-25', author: 'Quay Street', why: 'Begun.' } as const;

describe('the id of a new chart', () => {
  it.each([
    ['Quay Street, 9 ft', /^quay-street-9-ft-[a-z0-9]{6}$/],
    ['Café Müller', /^cafe-muller-[a-z0-9]{6}$/],
    ['  !!  ', /^chart-[a-z0-9]{6}$/],
    ['台球', /^chart-[a-z0-9]{6}$/],
  ])('of %j contains its name: %s', (name, id) => {
    expect(chartId(name, CREATED, [])).toMatch(id);
  });

  // Bug: two players' charts of one name had one id, so neither could receive the other's; and a chart
  // created after another of its name was removed inherited that one's memory.
  it('differs between players and between times', () => {
    const ids = [
      chartId('Home', CREATED, []),
      chartId('Home', { ...CREATED, author: 'Pier' }, []),
      chartId('Home', { ...CREATED, at: CREATED.at + 1 }, []),
    ];
    expect(new Set(ids).size).toBe(3);
    expect(chartId('Home', CREATED, [])).toBe(ids[0]);
  });

  it('is valid and new, whatever the name', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 80 }), fc.nat(4), (name, times) => {
        const taken: string[] = [];
        for (let n = 0; n <= times; n++) taken.push(chartId(name, CREATED, taken));
        expect(new Set(taken).size).toBe(taken.length);
        // As chart documents require (schema.ts).
        for (const id of taken) expect(id).toMatch(/^[a-z0-9-]{1,64}$/);
      }),
    );
  });
});

describe('the name of a chart', () => {
  it.each([
    ['Quay', 'Quay', true],
    ['Quay', ' quay ', true],
    ['Quay Street', 'quay  street', true],
    // A composed accent and a combining one (Unicode Standard Annex 15).
    ['Caf\u00e9', 'CAFE\u0301', true],
    ['Quay', 'Quays', false],
    ['Café', 'Cafe', false],
  ])('%j and %j are the same: %s', (one, other, same) => {
    expect(isSameName(one, other)).toBe(same);
  });
});

describe('a new chart', () => {
  const made = {
    id: 'quay',
    name: 'Quay',
    table: '8ft',
    condition: CLUB_CLOTH,
    patterns: PATTERNS.slice(0, 2).map(({ id }) => id),
    startStep: toDecimal(1),
    printStep: toDecimal(0.05),
  } as const;

  it.each(BASES)('is a valid document: %s', (basis) => {
    const document = newChart({ ...made, basis }, SIGNED);
    expect(parseChart(JSON.parse(JSON.stringify(document)))).toEqual(document);
    const { lines } = computeChart(document);
    if (basis === 'measured') expect(lines).toEqual([]);
    else expect(lines.length).toBeGreaterThan(10);
  });

  it('copied from another starts with its state and none of its history', () => {
    const copy = copyOf(HARBOUR_LANE, { id: 'quay', name: 'Quay' }, SIGNED);
    expect(parseChart(JSON.parse(JSON.stringify(copy)))).toEqual(copy);
    expect(copy.revisions).toHaveLength(1);
    expect(stateOf(lastRevision(copy))).toEqual(stateOf(lastRevision(HARBOUR_LANE)));
    expect(lastRevision(copy)).toMatchObject({ number: 1, ...SIGNED });
  });
});
