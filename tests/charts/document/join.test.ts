/** Joining versions of a chart that several devices of one player edited. */

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { mergeCharts } from '../../../src/charts/document/merge.ts';
import {
  type ChartDocument,
  canonical,
  digestOf,
  digestsOf,
  joinCharts,
  lastRevision,
  readChart,
  revise,
  slim,
  stateOf,
  toDecimal,
} from '../../../src/charts/index.ts';
import { shuffled } from '../../scheduler/histories.ts';
import { anyDocument } from '../documents.ts';
import { continued, divergedArb, documentOf, editArb, flat, stateArb } from '../states.ts';

const join = (...documents: readonly ChartDocument[]) => joinCharts(null, documents).document;
const stateIn = (document: ChartDocument) => stateOf(lastRevision(document));
const text = (document: ChartDocument) => JSON.stringify(document);

/** Any documents with the head of one chart, as a forger could make them. */
const versionsArb = fc
  .tuple(anyDocument, fc.array(anyDocument, { minLength: 1, maxLength: 3 }))
  .map(([{ revisions: _, earlier: __, ...head }, others]) =>
    others.map(({ revisions, earlier }): ChartDocument => ({ ...head, revisions, earlier })),
  );

describe('joining versions of a chart', () => {
  it('gives the same bytes, whoever joins them and in whatever order', () => {
    fc.assert(
      fc.property(divergedArb({ mine: 0, theirs: 0 }), ({ base, mine, theirs }) => {
        const versions = [base, mine, theirs];
        const expected = text(joinCharts(mine, [theirs]).document);
        expect(text(joinCharts(theirs, [mine]).document)).toBe(expected);
        for (const seed of [1, 2, 3])
          expect(text(join(...shuffled([...versions, ...versions], seed)))).toBe(expected);
      }),
    );
  });

  it('changes nothing if a version is joined again', () => {
    fc.assert(
      fc.property(divergedArb({ mine: 0, theirs: 0 }), ({ base, mine, theirs }) => {
        const joined = join(mine, theirs);
        for (const one of [base, mine, theirs, joined, slim(mine), slim(theirs), slim(base)])
          expect(text(joinCharts(joined, [one]).document)).toBe(text(joined));
        expect(text(joinCharts(mine, [joined]).document)).toBe(text(joined));
      }),
    );
  });

  it('returns a version unchanged if it continues all others', () => {
    fc.assert(
      fc.property(divergedArb({ mine: 1, theirs: 1 }), ({ base, mine }) => {
        expect(text(join(base, mine))).toBe(text(mine));
      }),
    );
  });

  it('takes each cell from the side that changed it, and the later edit if both did', () => {
    fc.assert(
      fc.property(divergedArb({ mine: 1, theirs: 1 }), ({ base, mine, theirs }) => {
        // The oracle is the merge with conflicts, all settled for the later side.
        const [own, other] = [lastRevision(mine), lastRevision(theirs)];
        fc.pre(digestOf(own) !== digestOf(other) && base.revisions.length > 0);
        const later = digestOf(own) > digestOf(other) ? 'mine' : 'theirs';
        const asked = mergeCharts(mine, theirs, later, {
          date: '2026-11-20',
          author: 'A',
          why: '-',
        });
        if (asked.outcome !== 'merged') return;
        expect(flat(stateIn(join(mine, theirs)))).toEqual(flat(stateIn(asked.document)));
      }),
    );
  });

  it('lets the later date win, whatever the digests', () => {
    const base = documentOf(fc.sample(stateArb, { seed: 3, numRuns: 1 })[0] ?? never());
    const number = (value: number, date: string) =>
      revise(
        base,
        {
          ...stateIn(base),
          measured: [{ pattern: 'cross-side', start: toDecimal(1), medium: toDecimal(value) }],
        },
        { date, author: 'A', why: 'Measured.' },
      );
    for (const [one, other] of [
      ['2026-11-09', '2026-11-10'],
      ['2026-11-10', '2026-11-09'],
    ] as const) {
      const joined = join(number(0.7, one), number(0.9, other));
      const winner = one > other ? 0.7 : 0.9;
      expect(lastRevision(joined).measured[0]?.medium).toBe(toDecimal(winner));
      expect(lastRevision(joined).why).toContain('Both had changed one value');
    }
  });

  it('keeps every revision, so that the player can return to what was overruled', () => {
    fc.assert(
      fc.property(divergedArb({ mine: 1, theirs: 1 }), ({ mine, theirs }) => {
        const joined = join(mine, slim(theirs), theirs);
        const kept = new Set(joined.revisions.map(digestOf));
        for (const one of [...mine.revisions, ...theirs.revisions])
          expect(kept).toContain(digestOf(one));
      }),
    );
  });

  it('restores revisions of which a version from a link has only digests', () => {
    fc.assert(
      fc.property(divergedArb({ mine: 1, theirs: 1 }), ({ mine, theirs }) => {
        const full = join(mine, theirs);
        const [one, other] = [join(slim(mine), theirs), join(slim(theirs), mine)];
        expect(joinCharts(one, [full]).document.revisions.length).toBe(full.revisions.length);
        expect(text(join(one, other, full))).toBe(text(join(full, other, one)));
      }),
    );
  });

  it('makes a valid chart of any versions, and always the same', () => {
    fc.assert(
      fc.property(versionsArb, fc.nat(), (versions, seed) => {
        const joined = join(...versions);
        expect(readChart(JSON.parse(text(joined)))).toEqual({ ok: true, document: joined });
        expect(text(join(...shuffled(versions, seed)))).toBe(text(joined));
        expect(text(join(joined, ...versions))).toBe(text(joined));
      }),
      { numRuns: 50 },
    );
  });

  it('stays within the limits of a chart, and is stable there', () => {
    const base = documentOf(fc.sample(stateArb, { seed: 5, numRuns: 1 })[0] ?? never());
    const long = (author: string) =>
      continued(
        base,
        Array.from({ length: 520 }, (_, n) => ({
          patterns: n % 2 === 0 ? ['cross-side' as const] : ['cross-corner' as const],
        })),
        author,
      );
    const [mine, theirs] = [long('Mine'), long('Theirs')];
    const joined = join(mine, theirs);
    expect(joined.revisions).toHaveLength(500);
    expect(joined.earlier.length).toBeLessThanOrEqual(500);
    // Not the base: its last revision is more than a thousand back, beyond what a chart remembers.
    for (const one of [mine, theirs])
      expect(text(joinCharts(joined, [one]).document) === text(joined)).toBe(true);
  });

  it('leaves out a different chart with the same id, and reports it', () => {
    const base = documentOf(fc.sample(stateArb, { seed: 7, numRuns: 1 })[0] ?? never());
    const other: ChartDocument = { ...base, table: '7ft' };
    expect(joinCharts(base, [other])).toEqual({ document: base, leftOut: true });
    expect(joinCharts(other, [base])).toEqual({ document: other, leftOut: true });
  });
});

/** What each device does, interleaved with the others. */
const STEPS = ['edit', 'read', 'write', 'by hand'] as const;
const anySteps = fc.array(
  fc.record({ device: fc.nat(2), step: fc.constantFrom(...STEPS), edit: editArb, day: fc.nat(9) }),
  { maxLength: 14 },
);

interface Device {
  chart: ChartDocument;
  /** Read but not joined yet: others may write in between. */
  readonly seen: ChartDocument[];
}

describe('devices that edit offline and share a folder', () => {
  it.each([2, 3])('%i of them reach the same bytes in two rounds', (count) => {
    fc.assert(
      fc.property(stateArb, anySteps, fc.nat(), (state, steps, seed) => {
        const base = documentOf(state);
        const devices = Array.from({ length: count }, (): Device => ({ chart: base, seen: [] }));
        const folder: ChartDocument[] = [];
        const edited: ChartDocument[] = [];
        const at = (n: number) => devices[n % count] ?? never();
        const read = (device: Device) => device.seen.push(...folder);
        const write = (device: Device) => {
          device.chart = joinCharts(device.chart, device.seen.splice(0)).document;
          folder.push(device.chart);
        };
        for (const [n, { device: who, step, edit, day }] of steps.entries()) {
          const device = at(who);
          if (step === 'read') read(device);
          if (step === 'write') write(device);
          if (step === 'edit') {
            const sign = { date: `2026-11-1${day}`, author: 'Player', why: `Edit ${n}.` };
            device.chart = revise(device.chart, { ...lastRevision(device.chart), ...edit }, sign);
            edited.push(device.chart);
          }
          if (step === 'by hand') {
            const merge = mergeCharts(
              device.chart,
              slim(at(who + 1).chart),
              day % 2 === 0 ? 'mine' : 'theirs',
              { date: `2026-11-1${day}`, author: 'Player', why: 'Taken in.' },
            );
            if ('document' in merge) device.chart = merge.document;
          }
        }
        for (const round of [1, 2])
          for (const device of shuffled(devices, seed + round)) {
            read(device);
            write(device);
          }
        const [one, ...others] = devices.map(({ chart }) => text(chart));
        for (const other of others) expect(other).toBe(one);
        const known = new Set(digestsOf(devices[0]?.chart ?? never()));
        for (const chart of edited) expect(known).toContain(digestOf(lastRevision(chart)));
      }),
    );
  });

  it('reach the same bytes if all read before any writes, twice', () => {
    fc.assert(
      fc.property(divergedArb({ mine: 0, theirs: 0 }), editArb, ({ base, mine, theirs }, edit) => {
        const third = continued(base, [edit], 'Third');
        let charts: readonly ChartDocument[] = [mine, theirs, third];
        for (const _ of [1, 2]) charts = charts.map((chart) => joinCharts(chart, charts).document);
        expect(new Set(charts.map(text)).size).toBe(1);
        expect(canonical(charts[0])).toBe(canonical(join(mine, theirs, third)));
      }),
    );
  });
});

function never(): never {
  throw new Error('not generated');
}
