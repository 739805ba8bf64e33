import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { mergeCharts } from '../../../src/charts/document/merge.ts';
import {
  type ChartDocument,
  type ChartState,
  cellIn,
  cellKey,
  digestsOf,
  type MeasuredLine,
  type Merge,
  readChart,
  revise,
  type Side,
  slim,
  stateOf,
  toDecimal,
} from '../../../src/charts/index.ts';
import {
  continued,
  type Diverged,
  differingKeys,
  divergedArb,
  divergedByOneArb,
  documentOf,
  editArb,
  flat,
} from '../states.ts';

const SIGNED = { date: '2026-11-20', author: 'Mine', why: 'Taken in.' };
const BOTH = { mine: 1, theirs: 1 };

function stateIn({ revisions }: ChartDocument): ChartState {
  return stateOf(revisions.at(-1) ?? revisions[0]);
}

function mergeOf(mine: ChartDocument, theirs: ChartDocument, keep: Side = 'mine'): Merge {
  return mergeCharts(mine, theirs, keep, SIGNED);
}

/** The chart after a merge that has one. */
function chartFrom(merge: Merge): ChartDocument {
  if (merge.outcome === 'continued' || merge.outcome === 'merged') return merge.document;
  throw new Error(`no chart from ${JSON.stringify(merge)}`);
}

function conflictsOf(merge: Merge): readonly string[] {
  if (merge.outcome !== 'merged') return [];
  return merge.conflicts.map((one) => cellKey(cellIn(one))).sort();
}

describe('merging a chart that is known already', () => {
  it('finds nothing new in the same chart', () => {
    fc.assert(
      fc.property(divergedArb({ mine: 0, theirs: 0 }), ({ mine }) => {
        expect(mergeOf(mine, mine)).toEqual({ outcome: 'nothing new', same: true });
        expect(mergeOf(mine, slim(mine))).toEqual({ outcome: 'nothing new', same: true });
      }),
    );
  });

  it('finds nothing new in an older one', () => {
    fc.assert(
      fc.property(divergedArb(BOTH), ({ base, mine }) => {
        expect(mergeOf(mine, base)).toEqual({ outcome: 'nothing new', same: false });
      }),
    );
  });

  it('finds nothing new in what was merged before', () => {
    fc.assert(
      fc.property(divergedArb(BOTH), fc.constantFrom<Side>('mine', 'theirs'), (diverged, keep) => {
        const { mine, theirs } = diverged;
        const merged = chartFrom(mergeOf(mine, theirs, keep));
        expect(mergeOf(merged, theirs).outcome).toBe('nothing new');
        expect(mergeOf(merged, slim(theirs)).outcome).toBe('nothing new');
      }),
    );
  });

  it('does not treat a chart that returned to an earlier state as older', () => {
    const state = { ...anyState(), remarks: [] };
    const sign = { date: '2026-11-08', author: 'Theirs', why: 'Table 3.' };
    const one = revise(documentOf(anyState()), state, sign);
    const there = revise(one, { ...state, patterns: [] }, sign);
    const back = revise(there, state, sign);
    expect(digestsOf(back)[1]).toBe(digestsOf(back)[3]);
    expect(stateIn(chartFrom(mergeOf(there, back)))).toEqual(state);
  });
});

describe('merging a chart without changes of one’s own', () => {
  it('continues with theirs', () => {
    fc.assert(
      fc.property(divergedArb(BOTH), ({ base, theirs }) => {
        const merge = mergeOf(base, theirs);
        expect(merge.outcome).toBe('continued');
        expect(chartFrom(merge)).toEqual(theirs);
      }),
    );
  });

  it('does so from a link, which has only the last revision', () => {
    fc.assert(
      fc.property(divergedArb({ mine: 0, theirs: 2 }), ({ base, theirs }) => {
        const mine = chartFrom(mergeOf(base, slim(theirs)));
        expect(stateIn(mine)).toEqual(stateIn(theirs));
        // The revision in between is known by its digest, too.
        expect(digestsOf(mine).toSorted()).toEqual(digestsOf(theirs).toSorted());
        expect(mergeOf(mine, theirs).outcome).toBe('nothing new');
      }),
    );
  });

  it('does so after the other has merged mine', () => {
    fc.assert(
      fc.property(divergedArb(BOTH), ({ mine, theirs }) => {
        const joined = chartFrom(mergeOf(theirs, mine));
        const merge = mergeOf(mine, joined);
        expect(merge.outcome).not.toBe('merged');
        // Nothing new if mine won everywhere: then mine was the same before.
        const after = merge.outcome === 'nothing new' ? mine : chartFrom(merge);
        expect(stateIn(after)).toEqual(stateIn(joined));
      }),
    );
  });
});

describe('merging a chart that both changed', () => {
  it('takes each cell from the side that changed it', () => {
    fc.assert(
      fc.property(divergedArb(BOTH), fc.constantFrom<Side>('mine', 'theirs'), (diverged, keep) => {
        const merge = mergeOf(diverged.mine, diverged.theirs, keep);
        const conflicts = conflictsOf(merge);
        const got = flat(stateIn(chartFrom(merge)));
        const [base, mine, theirs] = flats(diverged);
        const free = [...base.keys(), ...mine.keys(), ...theirs.keys()].filter(
          (key) => !conflicts.includes(key),
        );
        for (const key of free) {
          const [before, own, other] = [base.get(key), mine.get(key), theirs.get(key)];
          expect([key, got.get(key)]).toEqual([key, own === before ? other : own]);
        }
        const kept = keep === 'mine' ? mine : theirs;
        for (const key of conflicts) expect([key, got.get(key)]).toEqual([key, kept.get(key)]);
      }),
      { numRuns: 300 },
    );
  });

  it('finds a conflict wherever both changed a cell differently', () => {
    fc.assert(
      fc.property(divergedArb(BOTH), (diverged) => {
        const [base, mine, theirs] = flats(diverged);
        const conflicts = conflictsOf(mergeOf(diverged.mine, diverged.theirs));
        const clash = differingKeys(stateIn(diverged.mine), stateIn(diverged.theirs)).filter(
          (key) => mine.get(key) !== base.get(key) && theirs.get(key) !== base.get(key),
        );
        expect(conflicts).toEqual(expect.arrayContaining(clash));
        // Only speeds and levels, which are valid only together, may add to these.
        const added = conflicts.filter((key) => !clash.includes(key));
        for (const key of added) expect(key).toMatch(/^(level|condition (soft|medium|firm))/);
      }),
      { numRuns: 300 },
    );
  });

  it('leaves mine unchanged if theirs changed nothing', () => {
    fc.assert(
      fc.property(divergedArb({ mine: 1, theirs: 0 }), ({ base, mine }) => {
        const signed = continued(base, [{}], 'Theirs');
        expect(stateIn(chartFrom(mergeOf(mine, signed)))).toEqual(stateIn(mine));
      }),
    );
  });

  it('gives the same on both sides if there is no conflict', () => {
    fc.assert(
      fc.property(divergedByOneArb, ({ mine, theirs }) => {
        const one = mergeOf(mine, theirs);
        fc.pre(conflictsOf(one).length === 0);
        expect(stateIn(chartFrom(one))).toEqual(stateIn(chartFrom(mergeOf(theirs, mine))));
      }),
    );
  });

  it('differs between keeping mine and theirs only in conflicts', () => {
    fc.assert(
      fc.property(divergedArb(BOTH), ({ mine, theirs }) => {
        const own = mergeOf(mine, theirs, 'mine');
        const other = mergeOf(mine, theirs, 'theirs');
        expect(conflictsOf(own)).toEqual(conflictsOf(other));
        expect(differingKeys(stateIn(chartFrom(own)), stateIn(chartFrom(other)))).toEqual(
          conflictsOf(own),
        );
      }),
      { numRuns: 300 },
    );
  });

  it('settles some conflicts for the other side', () => {
    fc.assert(
      fc.property(divergedArb(BOTH), ({ mine, theirs }) => {
        const merge = mergeOf(mine, theirs);
        fc.pre(merge.outcome === 'merged' && merge.conflicts.length > 0);
        const [first] = merge.outcome === 'merged' ? merge.conflicts : [];
        const choice = first?.choice ?? '';
        const other = mergeCharts(mine, theirs, 'mine', SIGNED, new Set([choice]));
        const settled = merge.outcome === 'merged' ? merge.conflicts : [];
        const changed = settled
          .filter((one) => one.choice === choice)
          .map((one) => cellKey(cellIn(one)));
        expect(differingKeys(stateIn(chartFrom(merge)), stateIn(chartFrom(other)))).toEqual(
          changed.toSorted(),
        );
      }),
    );
  });

  it('makes a valid chart, and keeps every revision of both', () => {
    fc.assert(
      fc.property(divergedArb(BOTH), ({ mine, theirs }) => {
        const merged = chartFrom(mergeOf(mine, theirs));
        expect(readChart(JSON.parse(JSON.stringify(merged)))).toEqual({
          ok: true,
          document: merged,
        });
        const known = digestsOf(merged);
        expect(known).toEqual(expect.arrayContaining([...digestsOf(mine), ...digestsOf(theirs)]));
        expect(known.slice(0, digestsOf(mine).length)).toEqual(digestsOf(mine));
      }),
    );
  });
});

describe('merging one update after another', () => {
  it('repeats a conflict only if theirs changes that cell again', () => {
    fc.assert(
      fc.property(divergedArb(BOTH), editArb, ({ mine, theirs }, edit) => {
        const merged = chartFrom(mergeOf(mine, theirs));
        const next = continued(theirs, [edit], 'Theirs');
        const again = mergeOf(merged, next);
        const changed = differingKeys(stateIn(theirs), stateIn(next));
        // Cells that are valid only together may be added.
        for (const key of conflictsOf(again).filter((key) => !/^(level|condition)/.test(key)))
          expect(changed).toContain(key);
      }),
    );
  });

  it('keeps one’s own correction through two updates', () => {
    const start = documentOf(anyState());
    const mine = continued(start, [{ measured: [lineAt(1, 0.5), lineAt(2, 1)] }], 'Mine');
    const first = continued(start, [{ measured: [lineAt(1, 0.4), lineAt(2, 0.8)] }], 'Theirs');
    const second = continued(first, [{ measured: [lineAt(1, 0.4), lineAt(2, 1.5)] }], 'Theirs');
    expect(stateIn(start).measured).toEqual([lineAt(1, 0.4), lineAt(2, 1)]);

    const one = chartFrom(mergeOf(mine, first));
    expect(stateIn(one).measured).toEqual([lineAt(1, 0.5), lineAt(2, 0.8)]);
    const two = mergeOf(one, slim(second));
    expect(two).toMatchObject({ outcome: 'merged', conflicts: [], related: true, signed: true });
    expect(stateIn(chartFrom(two)).measured).toEqual([lineAt(1, 0.5), lineAt(2, 1.5)]);
  });

  it('asks again if each has settled a conflict in their own favor', () => {
    const start = documentOf(anyState());
    const mine = continued(start, [{ measured: [lineAt(1, 0.5)] }], 'Mine');
    const theirs = continued(start, [{ measured: [lineAt(1, 0.7)] }], 'Theirs');
    const kept = chartFrom(mergeOf(mine, theirs, 'mine'));
    const keptThere = chartFrom(
      mergeCharts(theirs, mine, 'mine', { ...SIGNED, author: 'Theirs', why: 'Not so.' }),
    );
    expect(conflictsOf(mergeOf(kept, keptThere))).toEqual(['number cross-side 10000 medium']);
  });
});

describe('merging a chart without a common revision', () => {
  it('makes every difference a conflict, and reports it', () => {
    fc.assert(
      fc.property(divergedArb(BOTH), ({ mine, theirs }) => {
        const unrelated = { ...slim(theirs), earlier: [] };
        const merge = mergeOf(slim({ ...mine, earlier: [] }), unrelated);
        fc.pre(merge.outcome === 'merged');
        expect(merge).toMatchObject({ related: false });
        expect(conflictsOf(merge)).toEqual(differingKeys(stateIn(mine), stateIn(unrelated)));
        expect(stateIn(chartFrom(merge))).toEqual(stateIn(mine));
      }),
    );
  });
});

describe('what cannot be merged', () => {
  it.each([
    ['table', { table: '7ft' }, 'has another size of table'],
    ['start step', { startStep: toDecimal(0.25) }, 'has starts at another step'],
    ['print step', { printStep: toDecimal(0.05) }, 'has numbers printed at another step'],
    ['basis', { basis: 'measured' }, 'has numbers that come about in another way'],
  ] as const)('is a chart with another %s and the same id', (_name, part, why) => {
    const mine = documentOf(anyState());
    const theirs = continued({ ...mine, ...part }, [{ patterns: [] }], 'Theirs');
    const say = `It calls itself your chart “Quay Street, table 3”, but ${why}.`;
    expect(mergeOf(mine, theirs)).toEqual({ outcome: 'refused', say });
  });

  it('is a chart whose last number is the largest possible', () => {
    const start = documentOf(anyState());
    const [only] = start.revisions;
    const mine: ChartDocument = {
      ...start,
      revisions: [{ ...only, number: Number.MAX_SAFE_INTEGER }],
    };
    expect(mergeOf(mine, continued(start, [{ patterns: [] }], 'Theirs'))).toMatchObject({
      outcome: 'refused',
      say: expect.stringMatching(/^Together with yours, the chart is damaged at revisions/),
    });
  });

  it('is a chart with another id: the caller’s error', () => {
    const mine = documentOf(anyState());
    expect(() => mergeOf(mine, { ...mine, id: 'lantern-row' })).toThrow(/two charts/);
  });
});

describe('a long history', () => {
  it('drops its oldest revisions, and still recognizes them', () => {
    // A chart can hold at most 500 revisions (src/charts/document/limits.ts).
    const start = documentOf(anyState());
    const edits = Array.from({ length: 497 }, () => ({}));
    const mine = continued(start, [...edits, { measured: [lineAt(1, 0.5)] }], 'Mine');
    const theirs = continued(start, [{ patterns: [] }, { remarks: [] }], 'Theirs');
    const merged = chartFrom(mergeOf(mine, theirs));
    expect(merged.revisions).toHaveLength(500);
    expect(merged.earlier).toEqual(digestsOf(mine).slice(0, 2));
    expect(mergeOf(merged, start).outcome).toBe('nothing new');
    const next = continued(theirs, [{ patterns: ['cross-corner'] }], 'Theirs');
    expect(mergeOf(merged, next)).toMatchObject({
      outcome: 'merged',
      conflicts: [],
      related: true,
    });
  });
});

function flats({ base, mine, theirs }: Diverged) {
  return [flat(stateIn(base)), flat(stateIn(mine)), flat(stateIn(theirs))] as const;
}

function lineAt(start: number, medium: number): MeasuredLine {
  return { pattern: 'cross-side', start: toDecimal(start), medium: toDecimal(medium) };
}

function anyState(): ChartState {
  return {
    condition: {
      restitution: 0.88,
      noseFriction: 0.15,
      slideFriction: 0.17,
      rollFriction: 0.01,
      spinDecay: 10,
      speeds: { soft: 2, medium: 3, firm: 4 },
    },
    patterns: ['cross-side'],
    measured: [lineAt(1, 0.4), lineAt(2, 1)],
    priorities: [],
    remarks: [{ pattern: 'cross-side', start: toDecimal(1), text: 'Short on table 3.' }],
    levels: null,
  };
}
