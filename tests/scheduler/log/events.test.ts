import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { KINDS } from '../../../src/cards/index.ts';
import { type Answered, parseEvent } from '../../../src/scheduler/index.ts';
import { historyArb, spoiledArb } from '../histories.ts';

const base = { version: 1, id: 'a:1', device: 'a', seq: 1, day: 1, at: 86_400_001 } as const;
const given = {
  kind: 'number',
  answer: [2.3],
  errors: [0],
  outcome: 'pocketed',
  ms: 1000,
} as const;
const answer: Answered = { ...base, ...given, type: 'answered', card: 'p/a' };
const judged = { ...answer, judged: 'self', answer: null, errors: null };
const asked = { start: 2.25, speed: 'firm', aim: 9, at: -1, off: 3 };
const proved = { ...base, ...given, type: 'proved', card: 'p/a', implied: false };
const noted = { ...base, type: 'noted', line: 'p', text: 'the long one' };
const flagged = { ...base, type: 'flagged', line: 'p', speed: 'soft', number: 2.35 };
const drilled = {
  ...base,
  ...given,
  type: 'drilled',
  run: 'x',
  code: 'cross-side 3 4 5',
  n: 0,
  pattern: 'cross-side',
  zone: 'middle',
  asked,
  tolerance: 0.1,
};
const question = { ...given, card: 'p/a', ranOut: false, tolerance: 0.1 };
const rehearsed = {
  ...base,
  type: 'rehearsed',
  counts: true,
  clock: 25,
  began: 86_000_000,
  questions: [question],
};

describe('parsing an event', () => {
  it('reads back what was written', () => {
    fc.assert(
      fc.property(historyArb, (events) => {
        for (const event of events) {
          expect(parseEvent(JSON.parse(JSON.stringify(event)))).toEqual({ ok: true, event });
        }
      }),
    );
  });

  it('never throws', () => {
    fc.assert(fc.property(fc.anything(), (data) => parseEvent(data).ok === false));
  });

  it('never throws when a part is damaged, and reads what it accepts the same again', () => {
    fc.assert(
      fc.property(spoiledArb, (data) => {
        const parsed = parseEvent(data);
        if (parsed.ok) expect(parseEvent(parsed.event)).toEqual(parsed);
        else expect(['not an event', 'future version']).toContain(parsed.code);
      }),
      { numRuns: 1000 },
    );
  });

  it('accepts every kind of question', () => {
    for (const kind of KINDS) expect(parseEvent({ ...answer, kind }).ok).toBe(true);
  });

  it('drops unknown fields and protects the prototype', () => {
    const text = JSON.stringify(noted).replace('{', '{"__proto__":{"aside":true},"extra":1,');
    const parsed = parseEvent(JSON.parse(text));
    expect(parsed).toEqual({ ok: true, event: noted });
    expect(parsed.ok && Object.getPrototypeOf(parsed.event)).toBe(Object.prototype);
  });

  it.each([
    ['nothing', null, 'not an event'],
    ['a list', [], 'not an event'],
    ['a future version', { ...answer, version: 2 }, 'future version'],
    ['an id of another device', { ...answer, id: 'x:1' }, 'not an event'],
    ['an unknown outcome', { ...answer, outcome: 'superb' }, 'not an event'],
    ['an unknown kind', { ...answer, kind: 'colour' }, 'not an event'],
    ['half a day', { ...answer, day: 1.5 }, 'not an event'],
    ['a time before 1970', { ...answer, at: -1 }, 'not an event'],
    ['not a number', { ...answer, answer: [Number.NaN] }, 'not an event'],
    ['an unknown type', { ...answer, type: 'won' }, 'not an event'],
    ['an answer judged by another', { ...judged, judged: 'coach' }, 'not an event'],
    ['a judged answer with a number', { ...judged, answer: [2] }, 'not an event'],
    ['a judged answer with an error', { ...judged, errors: [0.1] }, 'not an event'],
    ['a judged answer dead center', { ...judged, outcome: 'dead center' }, 'not an event'],
    ['a skill asked off the table', { ...answer, asked: { ...asked, aim: 9.1 } }, 'not an event'],
    ['a skill without a start', { ...answer, asked: { speed: 'soft' } }, 'not an event'],
    ['a ball four metres off', { ...answer, asked: { ...asked, off: 4 } }, 'not an event'],
    ['a proof without implied', { ...proved, implied: undefined }, 'not an event'],
    [
      'a line set aside by a number',
      { ...base, type: 'set aside', line: 'p', aside: 1 },
      'not an event',
    ],
    ['a note of 501 characters', { ...noted, text: 'n'.repeat(501) }, 'not an event'],
    ['a flag at no speed', { ...flagged, speed: 'fast' }, 'not an event'],
    ['a flag far off the rail', { ...flagged, number: 90 }, 'not an event'],
    ['a drill without a run', { ...drilled, run: '' }, 'not an event'],
    ['a code of 201 characters', { ...drilled, code: 'c'.repeat(201) }, 'not an event'],
    ['a question before the first', { ...drilled, n: -1 }, 'not an event'],
    ['a drill that counts for no card', { ...drilled, counts: '' }, 'not an event'],
    ['a drill that only says that it counts', { ...drilled, counts: true }, 'not an event'],
    ['a clock of a minute', { ...rehearsed, clock: 60 }, 'not an event'],
    ['a rehearsal of nothing', { ...rehearsed, questions: [] }, 'not an event'],
    ['an empty truth', { ...rehearsed, questions: [{ ...question, truth: [] }] }, 'not an event'],
    ['unknown pictures', { ...rehearsed, pictures: 'two' }, 'not an event'],
    ['201 questions', { ...rehearsed, questions: Array(201).fill(question) }, 'not an event'],
    [
      'a question without a tolerance',
      { ...rehearsed, questions: [{ ...question, tolerance: null }] },
      'not an event',
    ],
  ])('refuses %s', (_name, data, code) => {
    expect(parseEvent(data)).toEqual({ ok: false, code });
  });

  it.each([
    ['a judged answer', judged],
    ['a skill', { ...answer, asked }],
    ['a proof', proved],
    ['a note of 500 characters', { ...noted, text: 'n'.repeat(500) }],
    ['a note removed', { ...noted, text: '' }],
    ['a flag', flagged],
    ['a flag taken down', { ...flagged, number: null }],
    ['a question of a drill', drilled],
    ['a question of a drill that counts', { ...drilled, counts: 'p/skill' }],
    ['a rehearsal', rehearsed],
    [
      'a rehearsal with the truth of each question',
      { ...rehearsed, pictures: 'one', questions: [{ ...question, truth: [2.3] }] },
    ],
    ['200 questions', { ...rehearsed, questions: Array(200).fill(question) }],
  ])('accepts %s', (_name, data) => {
    expect(parseEvent(data)).toEqual({ ok: true, event: data });
  });
});
