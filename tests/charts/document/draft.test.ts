/** A draft's laws, and what each edit does. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { emptyState } from '../../../src/charts/document/document.ts';
import { MOST_STEPS } from '../../../src/charts/document/draft.ts';
import {
  beginDraft,
  type ChartState,
  clearColumn,
  type Decimal,
  type Draft,
  edit,
  endRun,
  isSameState,
  LEVEL_NAMES,
  levelOf,
  PATTERNS,
  parseChartDraft,
  priorityOf,
  redo,
  remarkOn,
  renameLevel,
  setCondition,
  setLevel,
  setLines,
  setNumber,
  setOrder,
  setPattern,
  setPriority,
  setRemark,
  toDecimal,
  undo,
} from '../../../src/charts/index.ts';
import { CLUB_CLOTH, SPEEDS } from '../../../src/table/index.ts';

type Change = (state: ChartState) => ChartState;

const EMPTY = emptyState(CLUB_CLOTH);
const SIX = { pattern: 'cross-side', start: toDecimal(6) } as const;
const SEVEN = { pattern: 'cross-side', start: toDecimal(7) } as const;

describe('a draft', () => {
  it('is as before after an edit and its undo', () => {
    fc.assert(
      fc.property(drafts(), changes(), (draft, change) => {
        const edited = edit(endRun(draft), change);
        fc.pre(edited !== draft && edited.run === null);
        fc.pre(!isSameState(edited.now, draft.now) && draft.past.length < MOST_STEPS);
        const back = undo(edited);
        expect(back.now).toBe(draft.now);
        expect(back.past).toEqual(draft.past);
      }),
    );
  });

  it('is the same after undo and redo', () => {
    fc.assert(
      fc.property(drafts(), (draft) => {
        fc.pre(draft.past.length > 0);
        expect(redo(undo(draft))).toEqual(endRun(draft));
      }),
    );
  });

  it('drops only the oldest steps', () => {
    let draft = beginDraft(EMPTY);
    for (let n = 0; n < MOST_STEPS + 10; n++)
      draft = edit(draft, (state) => setNumber(state, SIX, 'soft', n as Decimal));
    expect(draft.past).toHaveLength(MOST_STEPS);
    for (let n = 0; n < MOST_STEPS + 10; n++) draft = undo(draft);
    expect(draft.past).toEqual([]);
    expect(draft.future).toHaveLength(MOST_STEPS);
    // The first ten steps are gone, so undo ends with the tenth number.
    expect(draft.now.measured).toEqual([{ ...SIX, soft: 9 }]);
  });

  it('adds no step if nothing changes, whatever the order of entries', () => {
    fc.assert(
      fc.property(drafts(), (draft) => {
        const reversed = edit(draft, (state) => ({
          ...state,
          patterns: [...state.patterns].reverse(),
          measured: [...state.measured].reverse(),
          priorities: [...state.priorities].reverse(),
        }));
        expect(reversed).toBe(draft);
      }),
    );
  });

  it('counts typing one number as one step, and none if it is typed back', () => {
    const typed = (draft: Draft, units: number | null) =>
      edit(draft, (state) => setNumber(state, SIX, 'soft', units as Decimal | null), 'six soft');
    const start = beginDraft(setNumber(EMPTY, SIX, 'soft', toDecimal(4.9)));
    const done = typed(typed(typed(start, 40_000), 41_000), 41_500);
    expect(done.past).toEqual([start.now]);
    expect(undo(done).now).toBe(start.now);
    expect(typed(done, 49_000)).toEqual(start);
    expect(
      edit(endRun(done), (state) => setNumber(state, SIX, 'soft', null), 'six soft').past,
    ).toHaveLength(2);
  });

  it('drops what was undone after another edit', () => {
    const one = edit(beginDraft(EMPTY), (state) => setPattern(state, 'cross-side', true));
    const other = edit(undo(one), (state) => setPattern(state, 'up-and-back', true));
    expect(other.future).toEqual([]);
    expect(redo(other)).toBe(other);
  });
});

describe('edits', () => {
  it('always keep the state valid', () => {
    fc.assert(
      fc.property(drafts(), ({ now }) => {
        const stored: unknown = JSON.parse(JSON.stringify(now));
        expect(parseChartDraft({ base: '0123456789abcdef', state: stored })).not.toBeNull();
      }),
    );
  });

  it('set and clear one number, and remove a line without numbers', () => {
    const both = setNumber(setNumber(EMPTY, SIX, 'soft', toDecimal(5)), SIX, 'firm', toDecimal(4));
    expect(both.measured).toEqual([{ ...SIX, soft: 50_000, firm: 40_000 }]);
    const one = setNumber(both, SIX, 'soft', null);
    expect(one.measured).toEqual([{ ...SIX, firm: 40_000 }]);
    expect(setNumber(one, SIX, 'firm', null).measured).toEqual([]);
  });

  it('set lines, and leave numbers that they do not have', () => {
    const before = setNumber(EMPTY, SIX, 'soft', toDecimal(5));
    const edited = setLines(before, [
      { ...SIX, medium: toDecimal(4.8) },
      { ...SEVEN, firm: toDecimal(5) },
    ]);
    expect(edited.measured).toEqual([
      { ...SIX, soft: 50_000, medium: 48_000 },
      { ...SEVEN, firm: 50_000 },
    ]);
    expect(clearColumn(edited, 'cross-side', 'firm').measured).toEqual([
      { ...SIX, soft: 50_000, medium: 48_000 },
    ]);
  });

  it('set priorities of patterns and of lines, and a whole order', () => {
    const pattern = setPriority(EMPTY, { pattern: 'cross-side', start: null }, 'last');
    expect(priorityOf(pattern, SIX)).toBe('last');
    const line = setPriority(pattern, SIX, 'first');
    expect(priorityOf(line, SIX)).toBe('first');
    expect(priorityOf(setPriority(line, SIX, null), SIX)).toBe('last');
    const ordered = setOrder(line, [
      { ...SIX, priority: 'in turn' },
      { ...SEVEN, priority: 'last' },
    ]);
    expect(priorityOf(ordered, SIX)).toBe('in turn');
    expect(priorityOf(ordered, SEVEN)).toBe('last');
    expect(ordered.priorities).toHaveLength(1);
  });

  it('set remarks and remove them', () => {
    const remarked = setRemark(EMPTY, SIX, 'Runs long after nine.');
    expect(remarkOn(remarked, SIX)).toBe('Runs long after nine.');
    expect(setRemark(remarked, SIX, ' ')).toEqual(EMPTY);
  });

  it('put lines into levels and rename levels', () => {
    const low = setLevel(EMPTY, [SIX, SEVEN], 0);
    expect(low.levels?.names).toEqual(LEVEL_NAMES);
    const high = setLevel(low, [SEVEN], 2);
    expect([levelOf(high, SIX), levelOf(high, SEVEN)]).toEqual([0, 2]);
    expect(setLevel(high, [SIX, SEVEN], null)).toEqual(EMPTY);
    const named = renameLevel(high, 1, 'Regulars');
    expect(named.levels?.names).toEqual([LEVEL_NAMES[0], 'Regulars', LEVEL_NAMES[2]]);
    expect(setLevel(named, [SIX, SEVEN], null).levels?.names[1]).toBe('Regulars');
  });

  it('remove a pattern and add it again with all its numbers', () => {
    const full = setNumber(setPattern(EMPTY, SIX.pattern, true), SIX, 'soft', toDecimal(5));
    expect(setPattern(setPattern(full, SIX.pattern, false), SIX.pattern, true)).toEqual(full);
  });
});

/** Sequences of edits, undos and redos, some of them in runs. */
function drafts(): fc.Arbitrary<Draft> {
  const step = fc.oneof(
    { weight: 5, arbitrary: fc.tuple(changes(), fc.constantFrom(null, 'a', 'b')) },
    { weight: 1, arbitrary: fc.constantFrom('undo', 'redo') },
  );
  return fc.array(step, { maxLength: 30 }).map((steps) =>
    steps.reduce<Draft>((draft, one) => {
      if (one === 'undo') return undo(draft);
      if (one === 'redo') return redo(draft);
      return edit(draft, ...(one as [Change, string | null]));
    }, beginDraft(EMPTY)),
  );
}

function changes(): fc.Arbitrary<Change> {
  const pattern = fc.constantFrom(...PATTERNS.slice(0, 3).map(({ id }) => id));
  const start = fc.constantFrom(...[5, 5.5, 6.25].map(toDecimal));
  const place = fc.record({ pattern, start });
  const speed = fc.constantFrom(...SPEEDS);
  const number = fc.option(fc.integer({ min: 0, max: 40_000 }).map((n) => n as Decimal));
  const priority = fc.option(fc.constantFrom('first', 'in turn', 'last') as fc.Arbitrary<'last'>);
  const level = fc.option(fc.constantFrom(0, 1, 2) as fc.Arbitrary<0 | 1 | 2>);
  return fc.oneof(
    fc.tuple(place, speed, number).map(
      ([at, how, units]): Change =>
        (state) =>
          setNumber(state, at, how, units),
    ),
    fc.tuple(place, priority).map(
      ([at, step]): Change =>
        (state) =>
          setPriority(state, at, step),
    ),
    fc.tuple(place, fc.constantFrom('', 'Long.', 'Check it.')).map(
      ([at, text]): Change =>
        (state) =>
          setRemark(state, at, text),
    ),
    fc.tuple(place, level).map(
      ([at, step]): Change =>
        (state) =>
          setLevel(state, [at], step),
    ),
    fc.tuple(pattern, fc.boolean()).map(
      ([id, isIn]): Change =>
        (state) =>
          setPattern(state, id, isIn),
    ),
    fc.constantFrom(0.8, 0.85).map(
      (restitution): Change =>
        (state) =>
          setCondition(state, { restitution }),
    ),
  );
}
