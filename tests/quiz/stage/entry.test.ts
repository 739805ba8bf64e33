import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cardsOf, type Kind, type Question, questionOf } from '../../../src/cards/index.ts';
import { computeChart, HARBOUR_LANE, toDecimal, VERDICTS } from '../../../src/charts/index.ts';
import {
  chosen,
  type Entry,
  emptyEntry,
  erased,
  numberIn,
  pointedAt,
  readEntry,
  signFlipped,
  typed,
} from '../../../src/quiz/stage/entry.ts';

const chart = computeChart(HARBOUR_LANE);
const tolerance = toDecimal(0.1);
const number = questionFor('number');
const window_ = questionFor('window');
const trust = questionFor('trust');

describe('an entry', () => {
  it('reads a number alike, pointed at or typed', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 40 }), (tenths) => {
        const pointed = pointedAt(emptyEntry(number), 0, tenths / 10);
        const byHand = [...String(tenths / 10)].reduce<Entry>(typed, emptyEntry(number));
        const [one, other] = [readEntry(number, pointed), readEntry(number, byHand)];
        expect(one).toEqual(other);
        expect(one).toEqual({ ok: true, values: [toDecimal(tenths / 10)] });
      }),
    );
  });

  it('reads a window pointed at below zero, and lets the pad continue from it', () => {
    const soft = pointedAt(emptyEntry(window_), 0, -0.2);
    const both = pointedAt(soft, 1, 0.3);
    expect(readEntry(window_, both)).toEqual({
      ok: true,
      values: [toDecimal(-0.2), toDecimal(0.3)],
    });
    expect(signFlipped({ ...both, field: 0 }).texts).toEqual(['0.2', '0.3']);
    expect(erased({ ...both, field: 0 }).texts).toEqual(['-0.', '0.3']);
  });

  it('reads a chosen verdict', () => {
    for (const [index, verdict] of VERDICTS.entries()) {
      const read = readEntry(trust, chosen(emptyEntry(trust), verdict));
      expect(read).toEqual({ ok: true, values: [toDecimal(index)] });
    }
  });

  it('shows a readable number on the rail, and never beyond it', () => {
    const at = (text: string) => numberIn(number, { ...emptyEntry(number), texts: [text] }, 0);
    expect(at('1.5')).toBe(1.5);
    expect(at('1,5')).toBe(1.5);
    expect(at('1.')).toBe(1);
    for (const text of ['', '.', '-1', '4.1', 'x', '1..2']) expect(at(text)).toBeNull();
  });

  it('keeps the entry if it cannot be read', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 8 }), (text) => {
        const entry: Entry = { texts: [text], field: 0, problem: null };
        const read = readEntry(number, entry);
        if (!read.ok) expect(read.entry.texts).toEqual([text]);
      }),
    );
  });
});

function questionFor(kind: Kind): Question {
  const card = cardsOf(chart, tolerance).find(
    (one) => one.kind === kind && one.pattern === 'foot-to-side',
  );
  const question = card && questionOf({ chart, tolerance, speeds: ['medium'] }, card, 1);
  if (!question) throw new Error(`nothing to ask of ${kind}`);
  return question;
}
