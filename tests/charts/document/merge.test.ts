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
  apart,
  documentOf,
  editArb,
  flat,
  goneOn,
  type Parted,
  partedArb,
  partedByOneArb,
} from '../states.ts';

const SIGNED = { date: '2026-11-20', author: 'Mine', why: 'Taken in.' };
const BOTH = { mine: 1, theirs: 1 };

function stateIn({ revisions }: ChartDocument): ChartState {
  return stateOf(revisions.at(-1) ?? revisions[0]);
}

function take(mine: ChartDocument, theirs: ChartDocument, keep: Side = 'mine'): Merge {
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

describe('taking in a chart that is known already', () => {
  it('says so of the very same one', () => {
    fc.assert(
      fc.property(partedArb({ mine: 0, theirs: 0 }), ({ mine }) => {
        expect(take(mine, mine)).toEqual({ outcome: 'nothing new', same: true });
        expect(take(mine, slim(mine))).toEqual({ outcome: 'nothing new', same: true });
      }),
    );
  });

  it('says so of an older one', () => {
    fc.assert(
      fc.property(partedArb(BOTH), ({ base, mine }) => {
        expect(take(mine, base)).toEqual({ outcome: 'nothing new', same: false });
      }),
    );
  });

  it('says so of what has been taken in before', () => {
    fc.assert(
      fc.property(partedArb(BOTH), fc.constantFrom<Side>('mine', 'theirs'), (parted, keep) => {
        const { mine, theirs } = parted;
        const merged = chartFrom(take(mine, theirs, keep));
        expect(take(merged, theirs).outcome).toBe('nothing new');
        expect(take(merged, slim(theirs)).outcome).toBe('nothing new');
      }),
    );
  });

  it('does not take a chart for older that has come back to an earlier state', () => {
    const state = { ...anyState(), remarks: [] };
    const sign = { date: '2026-11-08', author: 'Theirs', why: 'Table 3.' };
    const one = revise(documentOf(anyState()), state, sign);
    const there = revise(one, { ...state, patterns: [] }, sign);
    const back = revise(there, state, sign);
    expect(digestsOf(back)[1]).toBe(digestsOf(back)[3]);
    expect(stateIn(chartFrom(take(there, back)))).toEqual(state);
  });
});

describe('taking in a chart with nothing of one’s own', () => {
  it('goes on to theirs', () => {
    fc.assert(
      fc.property(partedArb(BOTH), ({ base, theirs }) => {
        const merge = take(base, theirs);
        expect(merge.outcome).toBe('continued');
        expect(chartFrom(merge)).toEqual(theirs);
      }),
    );
  });

  it('does so from a link, which carries the last revision only', () => {
    fc.assert(
      fc.property(partedArb({ mine: 0, theirs: 2 }), ({ base, theirs }) => {
        const gone = chartFrom(take(base, slim(theirs)));
        expect(stateIn(gone)).toEqual(stateIn(theirs));
        // The one between is known from now on, too.
        expect(digestsOf(gone).toSorted()).toEqual(digestsOf(theirs).toSorted());
        expect(take(gone, theirs).outcome).toBe('nothing new');
      }),
    );
  });

  it('does so after the other has taken in mine', () => {
    fc.assert(
      fc.property(partedArb(BOTH), ({ mine, theirs }) => {
        const joined = chartFrom(take(theirs, mine));
        const merge = take(mine, joined);
        expect(merge.outcome).not.toBe('merged');
        // Nothing new if what the other had went under: then mine was so before.
        const after = merge.outcome === 'nothing new' ? mine : chartFrom(merge);
        expect(stateIn(after)).toEqual(stateIn(joined));
      }),
    );
  });
});

describe('taking in a chart that both went on with', () => {
  it('follows for each cell the one who changed it', () => {
    fc.assert(
      fc.property(partedArb(BOTH), fc.constantFrom<Side>('mine', 'theirs'), (parted, keep) => {
        const merge = take(parted.mine, parted.theirs, keep);
        const conflicts = conflictsOf(merge);
        const got = flat(stateIn(chartFrom(merge)));
        const [base, mine, theirs] = flats(parted);
        const free = [...base.keys(), ...mine.keys(), ...theirs.keys()].filter(
          (key) => !conflicts.includes(key),
        );
        for (const key of free) {
          const [was, own, other] = [base.get(key), mine.get(key), theirs.get(key)];
          expect([key, got.get(key)]).toEqual([key, own === was ? other : own]);
        }
        const kept = keep === 'mine' ? mine : theirs;
        for (const key of conflicts) expect([key, got.get(key)]).toEqual([key, kept.get(key)]);
      }),
      { numRuns: 300 },
    );
  });

  it('finds a conflict wherever both changed a cell in two ways', () => {
    fc.assert(
      fc.property(partedArb(BOTH), (parted) => {
        const [base, mine, theirs] = flats(parted);
        const conflicts = conflictsOf(take(parted.mine, parted.theirs));
        const clash = apart(stateIn(parted.mine), stateIn(parted.theirs)).filter(
          (key) => mine.get(key) !== base.get(key) && theirs.get(key) !== base.get(key),
        );
        expect(conflicts).toEqual(expect.arrayContaining(clash));
        // Speeds and levels make sense only together, and may join; nothing else does.
        const joined = conflicts.filter((key) => !clash.includes(key));
        for (const key of joined) expect(key).toMatch(/^(level|condition (soft|medium|firm))/);
      }),
      { numRuns: 300 },
    );
  });

  it('leaves mine as it is if theirs changed nothing', () => {
    fc.assert(
      fc.property(partedArb({ mine: 1, theirs: 0 }), ({ base, mine }) => {
        const said = goneOn(base, [{}], 'Theirs');
        expect(stateIn(chartFrom(take(mine, said)))).toEqual(stateIn(mine));
      }),
    );
  });

  it('comes to the same on both sides if there is no conflict', () => {
    fc.assert(
      fc.property(partedByOneArb, ({ mine, theirs }) => {
        const one = take(mine, theirs);
        fc.pre(conflictsOf(one).length === 0);
        expect(stateIn(chartFrom(one))).toEqual(stateIn(chartFrom(take(theirs, mine))));
      }),
    );
  });

  it('differs between keeping mine and theirs in the conflicts only', () => {
    fc.assert(
      fc.property(partedArb(BOTH), ({ mine, theirs }) => {
        const own = take(mine, theirs, 'mine');
        const other = take(mine, theirs, 'theirs');
        expect(conflictsOf(own)).toEqual(conflictsOf(other));
        expect(apart(stateIn(chartFrom(own)), stateIn(chartFrom(other)))).toEqual(conflictsOf(own));
      }),
      { numRuns: 300 },
    );
  });

  it('settles some conflicts for the other side', () => {
    fc.assert(
      fc.property(partedArb(BOTH), ({ mine, theirs }) => {
        const merge = take(mine, theirs);
        fc.pre(merge.outcome === 'merged' && merge.conflicts.length > 0);
        const [first] = merge.outcome === 'merged' ? merge.conflicts : [];
        const choice = first?.choice ?? '';
        const other = mergeCharts(mine, theirs, 'mine', SIGNED, new Set([choice]));
        const settled = merge.outcome === 'merged' ? merge.conflicts : [];
        const changed = settled
          .filter((one) => one.choice === choice)
          .map((one) => cellKey(cellIn(one)));
        expect(apart(stateIn(chartFrom(merge)), stateIn(chartFrom(other)))).toEqual(
          changed.toSorted(),
        );
      }),
    );
  });

  it('is a chart that can be read, and keeps every revision of both', () => {
    fc.assert(
      fc.property(partedArb(BOTH), ({ mine, theirs }) => {
        const merged = chartFrom(take(mine, theirs));
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

describe('taking in one update after another', () => {
  it('asks about a conflict again only if theirs changes that cell again', () => {
    fc.assert(
      fc.property(partedArb(BOTH), editArb, ({ mine, theirs }, edit) => {
        const merged = chartFrom(take(mine, theirs));
        const next = goneOn(theirs, [edit], 'Theirs');
        const again = take(merged, next);
        const changed = apart(stateIn(theirs), stateIn(next));
        // Those that only make sense together may join.
        for (const key of conflictsOf(again).filter((key) => !/^(level|condition)/.test(key)))
          expect(changed).toContain(key);
      }),
    );
  });

  it('keeps a correction of one’s own through two updates', () => {
    const start = documentOf(anyState());
    const mine = goneOn(start, [{ measured: [lineAt(1, 0.5), lineAt(2, 1)] }], 'Mine');
    const first = goneOn(start, [{ measured: [lineAt(1, 0.4), lineAt(2, 0.8)] }], 'Theirs');
    const second = goneOn(first, [{ measured: [lineAt(1, 0.4), lineAt(2, 1.5)] }], 'Theirs');
    expect(stateIn(start).measured).toEqual([lineAt(1, 0.4), lineAt(2, 1)]);

    const one = chartFrom(take(mine, first));
    expect(stateIn(one).measured).toEqual([lineAt(1, 0.5), lineAt(2, 0.8)]);
    const two = take(one, slim(second));
    expect(two).toMatchObject({ outcome: 'merged', conflicts: [], related: true, signed: true });
    expect(stateIn(chartFrom(two)).measured).toEqual([lineAt(1, 0.5), lineAt(2, 1.5)]);
  });

  it('asks again where each has settled a conflict in their own favour', () => {
    const start = documentOf(anyState());
    const mine = goneOn(start, [{ measured: [lineAt(1, 0.5)] }], 'Mine');
    const theirs = goneOn(start, [{ measured: [lineAt(1, 0.7)] }], 'Theirs');
    const kept = chartFrom(take(mine, theirs, 'mine'));
    const keptThere = chartFrom(
      mergeCharts(theirs, mine, 'mine', { ...SIGNED, author: 'Theirs', why: 'Not so.' }),
    );
    expect(conflictsOf(take(kept, keptThere))).toEqual(['number cross-side 10000 medium']);
  });
});

describe('taking in a chart of no common revision', () => {
  it('makes every difference a conflict, and says so', () => {
    fc.assert(
      fc.property(partedArb(BOTH), ({ mine, theirs }) => {
        const strange = { ...slim(theirs), earlier: [] };
        const merge = take(slim({ ...mine, earlier: [] }), strange);
        fc.pre(merge.outcome === 'merged');
        expect(merge).toMatchObject({ related: false });
        expect(conflictsOf(merge)).toEqual(apart(stateIn(mine), stateIn(strange)));
        expect(stateIn(chartFrom(merge))).toEqual(stateIn(mine));
      }),
    );
  });
});

describe('what cannot be taken in', () => {
  it.each([
    ['table', { table: '7ft' }, 'has another size of table'],
    ['start step', { startStep: toDecimal(0.25) }, 'has starts at another step'],
    ['print step', { printStep: toDecimal(0.05) }, 'has numbers printed at another step'],
    ['basis', { basis: 'measured' }, 'has numbers that come about in another way'],
  ] as const)('is another %s under the same id', (_name, part, why) => {
    const mine = documentOf(anyState());
    const theirs = goneOn({ ...mine, ...part }, [{ patterns: [] }], 'Theirs');
    const say = `It calls itself your chart “Quay Street, table 3”, but ${why}.`;
    expect(take(mine, theirs)).toEqual({ outcome: 'refused', say });
  });

  it('is a revision whose number leaves no room for another', () => {
    const start = documentOf(anyState());
    const [only] = start.revisions;
    const mine: ChartDocument = {
      ...start,
      revisions: [{ ...only, number: Number.MAX_SAFE_INTEGER }],
    };
    expect(take(mine, goneOn(start, [{ patterns: [] }], 'Theirs'))).toMatchObject({
      outcome: 'refused',
      say: expect.stringMatching(/^Together with yours, the chart is damaged at revisions/),
    });
  });

  it('is another chart: the caller’s error', () => {
    const mine = documentOf(anyState());
    expect(() => take(mine, { ...mine, id: 'lantern-row' })).toThrow(/two charts/);
  });
});

describe('a long history', () => {
  it('gives up its oldest revisions, and still knows them', () => {
    // A chart can hold at most 500 revisions (src/charts/document/limits.ts).
    const start = documentOf(anyState());
    const edits = Array.from({ length: 497 }, () => ({}));
    const mine = goneOn(start, [...edits, { measured: [lineAt(1, 0.5)] }], 'Mine');
    const theirs = goneOn(start, [{ patterns: [] }, { remarks: [] }], 'Theirs');
    const merged = chartFrom(take(mine, theirs));
    expect(merged.revisions).toHaveLength(500);
    expect(merged.earlier).toEqual(digestsOf(mine).slice(0, 2));
    expect(take(merged, start).outcome).toBe('nothing new');
    const next = goneOn(theirs, [{ patterns: ['cross-corner'] }], 'Theirs');
    expect(take(merged, next)).toMatchObject({ outcome: 'merged', conflicts: [], related: true });
  });
});

function flats({ base, mine, theirs }: Parted) {
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
