/** Digests of revisions, and how a chart is revised. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  canonical,
  digestOf,
  digestsOf,
  fnv1a,
  HARBOUR_LANE,
  HARBOUR_LANE_BAR,
  lastRevision,
  readChart,
  restore,
  revise,
  slim,
  stateOf,
  toDecimal,
} from '../../../src/charts/index.ts';

const bytes = (text: string) => [...text].map((letter) => letter.charCodeAt(0));
const signed = { date: '2026-11-25', author: 'A player', why: 'It came out long.' };

describe('FNV-1a, 64 bit', () => {
  // draft-eastlake-fnv (Fowler, Noll, Vo, Eastlake, Hansen), test vectors, from memory; the first is
  // the offset basis by definition.
  it.each([
    ['', 'cbf29ce484222325'],
    ['a', 'af63dc4c8601ec8c'],
    ['foobar', '85944171f73967e8'],
  ])('of "%s" is the published value', (text, hash) => {
    expect(fnv1a(bytes(text)).toString(16)).toBe(hash);
  });
});

describe('a revision’s digest', () => {
  const [first, second] = HARBOUR_LANE.revisions;

  it('depends on its content, not on its number or on how it was built', () => {
    const reversed = Object.fromEntries(Object.entries(first).reverse()) as typeof first;
    expect(digestOf({ ...reversed, number: 99 })).toBe(digestOf(first));
    expect(digestOf({ ...first, why: `${first.why} ` })).not.toBe(digestOf(first));
    expect(digestOf(first)).not.toBe(second && digestOf(second));
    expect(digestOf(first)).toMatch(/^[0-9a-f]{16}$/);
  });

  it('exists for any text, even half a character', () => {
    expect(digestOf({ ...first, why: '\ud83c' })).not.toBe(digestOf({ ...first, why: '\ud83d' }));
  });
});

describe('canonical text', () => {
  it('is equal for equal values, whatever the order of their keys', () => {
    fc.assert(
      fc.property(fc.dictionary(fc.string(), fc.jsonValue()), (value) => {
        const reversed = Object.fromEntries(Object.entries(value).reverse());
        expect(canonical(reversed)).toBe(canonical(value));
      }),
    );
  });
});

describe('revising a chart', () => {
  const state = stateOf(lastRevision(HARBOUR_LANE));
  const corrected = {
    ...state,
    measured: [
      { pattern: 'cross-side', start: toDecimal(6), medium: toDecimal(4.8) },
      { pattern: 'foot-to-side', start: toDecimal(2), soft: toDecimal(1.5) },
    ],
  } as const;

  it('appends a revision in stored order and leaves the others unchanged', () => {
    const next = revise(HARBOUR_LANE, corrected, signed);
    expect(next.revisions.slice(0, -1)).toEqual(HARBOUR_LANE.revisions);
    const last = lastRevision(next);
    expect(last).toMatchObject({ number: 4, ...signed });
    expect(last.measured.map(({ pattern }) => pattern)).toEqual(['foot-to-side', 'cross-side']);
    const reversed = { ...corrected, measured: [...corrected.measured].reverse() };
    expect(revise(HARBOUR_LANE, reversed, signed)).toEqual(next);
    expect(readChart(JSON.parse(JSON.stringify(next)))).toEqual({ ok: true, document: next });
  });

  it('restores an earlier state as a new revision', () => {
    const next = revise(HARBOUR_LANE, corrected, signed);
    const back = restore(next, 3, signed);
    expect(back && lastRevision(back).number).toBe(5);
    expect(back && stateOf(lastRevision(back))).toEqual(state);
    expect(restore(next, 77, signed)).toBeNull();
  });

  // Bug: the revision after the 500th could never be saved.
  it('never ends: the oldest revisions become digests', () => {
    let long = HARBOUR_LANE;
    for (let n = 0; n < 500; n++) long = revise(long, state, { ...signed, why: `Again, ${n}.` });
    expect(long.revisions).toHaveLength(500);
    expect(readChart(JSON.parse(JSON.stringify(long)))).toEqual({ ok: true, document: long });
    expect(digestsOf(long).slice(0, 3)).toEqual(digestsOf(HARBOUR_LANE));
    const short = slim(revise(long, state, signed));
    expect(readChart(JSON.parse(JSON.stringify(short))).ok).toBe(true);
  });

  it('keeps the digests of what a link leaves out', () => {
    const next = revise(HARBOUR_LANE, corrected, signed);
    const link = slim(next);
    expect(link.revisions).toEqual([lastRevision(next)]);
    expect(digestsOf(link)).toEqual(digestsOf(next));
    expect(digestsOf(slim(link))).toEqual(digestsOf(next));
    expect(slim(HARBOUR_LANE_BAR)).toEqual(HARBOUR_LANE_BAR);
  });
});
