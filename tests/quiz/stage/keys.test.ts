import { describe, expect, it, vi } from 'vitest';
import { cardsOf, type Kind, type Question, questionOf } from '../../../src/cards/index.ts';
import { computeChart, HARBOUR_LANE, toDecimal } from '../../../src/charts/index.ts';
import { type Entry, emptyEntry } from '../../../src/quiz/stage/entry.ts';
import { type KeyActions, press } from '../../../src/quiz/stage/keys.ts';

const chart = computeChart(HARBOUR_LANE);
const tolerance = toDecimal(0.1);

describe('the keyboard', () => {
  it.each([
    ['7', 'type'],
    [',', 'type'],
    ['.', 'type'],
    ['-', 'flipSign'],
    ['Backspace', 'erase'],
    ['?', 'showMe'],
    ['Enter', 'submit'],
    ['ArrowDown', 'goTo'],
    ['ArrowRight', 'point'],
    ['ArrowLeft', 'point'],
  ] as const)('maps %s to %s while a question is asked', (key, action) => {
    const keyed = asking('window');
    expect(press(keyed, key)).toBe(true);
    expect(keyed.answering[action]).toHaveBeenCalledOnce();
  });

  it.each([
    ['1.2', 'ArrowRight', 1.3],
    ['1.2', 'ArrowLeft', 1.1],
    // From between two steps to the next one.
    ['1.25', 'ArrowRight', 1.3],
    ['', 'ArrowRight', 2],
    ['0', 'ArrowLeft', 0],
    ['4', 'ArrowRight', 4],
  ])('moves %j by %s to %d', (text, key, to) => {
    const keyed = asking('number', text);
    press(keyed, key);
    expect(keyed.answering.point).toHaveBeenCalledWith(0, to);
  });

  it.each([
    ['1', 'banks'],
    ['2', 'thin'],
    ['3', 'kick only'],
  ])('answers a trust question by %s with %s', (key, verdict) => {
    const keyed = asking('trust');
    press(keyed, key);
    expect(keyed.answering.choose).toHaveBeenCalledWith(verdict);
    expect(keyed.answering.submit).toHaveBeenCalledOnce();
    expect(press(keyed, '7')).toBe(false);
  });

  it('continues with Enter while nothing is asked', () => {
    const keyed = { ...asking('number'), asking: () => null };
    expect(press(keyed, 'Enter')).toBe(true);
    expect(keyed.onEnter).toHaveBeenCalledOnce();
    expect(press(keyed, '7')).toBe(false);
  });

  it('does not show the answer where that is not allowed', () => {
    const keyed = asking('number');
    expect(press({ ...keyed, answering: { ...keyed.answering, showMe: null } }, '?')).toBe(false);
  });

  it('leaves other keys to the browser', () => {
    const keyed = asking('number');
    for (const key of ['a', 'Tab', 'F5', 'Escape']) expect(press(keyed, key)).toBe(false);
  });
});

function asking(kind: Kind, text = ''): KeyActions {
  const question = questionFor(kind);
  const empty = emptyEntry(question);
  const entry: Entry = { ...empty, texts: empty.texts.map(() => text) };
  return {
    asking: () => ({ question, entry }),
    answering: {
      type: vi.fn(),
      erase: vi.fn(),
      flipSign: vi.fn(),
      goTo: vi.fn(),
      point: vi.fn(),
      choose: vi.fn(),
      submit: vi.fn(),
      showMe: vi.fn(),
    },
    onEnter: vi.fn(() => true),
    step: 0.1,
  };
}

/** A question about the foot rail, which counts to four. */
function questionFor(kind: Kind): Question {
  const card = cardsOf(chart, tolerance).find(
    (one) => one.kind === kind && one.pattern === 'foot-to-side',
  );
  const question = card && questionOf({ chart, tolerance, speeds: ['medium'] }, card, 1);
  if (!question) throw new Error(`nothing to ask of ${kind}`);
  return question;
}
