import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { OUTCOMES } from '../../../src/cards/index.ts';
import {
  type Answered,
  foldLog,
  parseRehearsal,
  type RehearsalDraft,
  type RehearsalQuestion,
  rehearsals,
} from '../../../src/scheduler/index.ts';
import { answer, base, GIVEN, said } from '../making.ts';
import { plain } from '../plain.ts';

describe('a finished rehearsal', () => {
  it('that counts equals its questions answered one by one', () => {
    fc.assert(
      fc.property(questionsArb, (questions) => {
        const before = [answer(0, 'p/a', 10)];
        const { memories, steps, times } = plain(foldLog([...before, rehearsed(questions, true)]));
        const answered = plain(foldLog([...before, ...questions.map(asAnswer)]));
        expect({ memories, steps, times }).toEqual({
          memories: answered.memories,
          steps: answered.steps,
          times: answered.times,
        });
      }),
    );
  });

  it('that does not count leaves everything as it was', () => {
    fc.assert(
      fc.property(questionsArb, (questions) => {
        const before = foldLog([answer(0, 'p/a', 10)]);
        const after = foldLog([answer(0, 'p/a', 10), rehearsed(questions, false)]);
        const { events, devices } = after;
        expect(plain(after)).toEqual({ ...plain(before), events, devices });
      }),
    );
  });

  it('counts a question that ran out of time as off and not as pace', () => {
    const late: RehearsalQuestion = { ...QUESTION, ranOut: true, outcome: 'dead center' };
    const { memories, times } = foldLog([rehearsed([late], true)]);
    expect(memories.get('p/a')).toMatchObject({ lastOutcome: 'off', missesInARow: 1 });
    expect(times.size).toBe(0);
  });

  it('counts once, however often it arrives', () => {
    const one = rehearsed([QUESTION], true);
    expect(foldLog([one]).memories.get('p/a')?.answers).toBe(1);
    const back = said(base(11, 11), 'taken back', { answered: one.id });
    expect(plain(foldLog([one, back])).memories).toEqual(plain(foldLog([one])).memories);
  });

  it('is listed oldest first, counted or not', () => {
    const [old, late] = [rehearsed([QUESTION], false), rehearsed([QUESTION], true, 30)];
    expect(rehearsals(foldLog([late, answer(20, 'p/a', 20), old]))).toEqual([old, late]);
  });
});

describe('parsing a rehearsal under way', () => {
  it('reads back what was written', () => {
    fc.assert(
      fc.property(questionsArb, (answers) => {
        const draft = { ...DRAFT, answers };
        expect(parseRehearsal(JSON.parse(JSON.stringify(draft)))).toEqual(draft);
      }),
    );
  });

  it('gives null for anything else and never throws', () => {
    fc.assert(fc.property(fc.anything(), (data) => parseRehearsal(data) === null));
  });

  it.each([
    ['of a newer version', { ...DRAFT, version: 2 }],
    ['without an id', { ...DRAFT, id: '' }],
    ['of no questions', { ...DRAFT, spec: { ...DRAFT.spec, count: 0 } }],
    ['of an unknown kind', { ...DRAFT, spec: { ...DRAFT.spec, kinds: ['colour'] } }],
    ['with an unknown clock', { ...DRAFT, spec: { ...DRAFT.spec, clock: 35 } }],
    ['with an answer cut off', { ...DRAFT, answers: [{ card: 'p/a' }] }],
    ['of another naming', { ...DRAFT, naming: 'sideways' }],
    ['that no number can meet', { ...DRAFT, tolerance: 0 }],
    ['of unknown pictures', { ...DRAFT, pictures: 'two' }],
    ['from an infinite seed', { ...DRAFT, seed: Number.POSITIVE_INFINITY }],
  ])('refuses one %s', (_name, data) => {
    expect(parseRehearsal(data)).toBeNull();
  });
});

function rehearsed(questions: readonly RehearsalQuestion[], counts: boolean, day = 10) {
  return said(base(day, day), 'rehearsed', { counts, clock: 25, began: 1000, questions });
}

function asAnswer({ ranOut, ...question }: RehearsalQuestion, n: number): Answered {
  const { card, kind, ms } = question;
  const missed = ranOut || question.answer === null;
  const outcome = missed ? 'off' : question.outcome;
  const numbers = missed ? null : question.answer;
  const errors = missed ? null : question.errors;
  return { ...answer(1 + n, card, 10), kind, outcome, answer: numbers, errors, ms };
}

const QUESTION: RehearsalQuestion = { ...GIVEN, card: 'p/a', ranOut: false, tolerance: 0.1 };

const DRAFT: RehearsalDraft = {
  version: 1,
  id: 'friday',
  spec: { patterns: ['cross-side'], kinds: ['number'], count: 20, clock: 25, counts: true },
  naming: 'through',
  tolerance: 0.1,
  pictures: 'all',
  seed: 7,
  cards: ['p/a', 'q/c'],
  began: 1000,
  answers: [],
};

const questionsArb: fc.Arbitrary<readonly RehearsalQuestion[]> = fc.array(
  fc.record({
    card: fc.constantFrom('p/a', 'q/c'),
    kind: fc.constantFrom('number' as const, 'window' as const),
    answer: fc.constantFrom([2.3], null),
    errors: fc.constantFrom([0.1], null),
    outcome: fc.constantFrom(...OUTCOMES),
    ms: fc.nat(60_000),
    ranOut: fc.boolean(),
    tolerance: fc.constantFrom(0.05, 0.1, 0.2),
  }),
  { minLength: 1, maxLength: 8 },
);
