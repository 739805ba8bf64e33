import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  computeSheet,
  PATTERNS,
  type Sheet,
  type SheetRequest,
  toDecimal,
} from '../../src/charts/index.ts';
import { CLUB_CLOTH, TABLES } from '../../src/table/index.ts';
import { latestOnly, type Solver } from '../../src/workers/index.ts';
import type { Answered } from '../../src/workers/latest-only.ts';
import { slowWorkers } from './slow-worker.ts';

type Solved = Answered<readonly Sheet[]>;

const request: SheetRequest = {
  setting: { table: TABLES['9ft'], condition: CLUB_CLOTH },
  route: PATTERNS[0],
  starts: [toDecimal(3), toDecimal(4)],
  printStep: toDecimal(0.1),
  naming: 'through',
  stroke: {},
  anchorBound: 0.06,
};

function begin() {
  const slow = slowWorkers<readonly SheetRequest[], readonly Sheet[]>();
  const solver: Solver = latestOnly(slow.start);
  return { ...slow, solver };
}

describe('the solver', () => {
  it('gives back what the worker worked out', () => {
    const { solver, sent, reply } = begin();
    const got: Solved[] = [];
    solver.ask([request], (solved) => got.push(solved));
    const sheets = [computeSheet(request)];
    reply({ id: sent[0]?.id ?? 0, answer: sheets });
    expect(got).toEqual([{ ok: true, answer: sheets }]);
  });

  // Law: whatever comes while one is under way, at most one is under way, the order is kept, and the
  // latest is always answered.
  it('answers the latest of any run of requests, and never out of order', () => {
    fc.assert(
      fc.property(fc.array(fc.boolean(), { minLength: 1, maxLength: 60 }), (steps) => {
        const { solver, sent, reply } = begin();
        const answered: number[] = [];
        let asks = 0;
        let replies = 0;
        const answerOne = () => {
          const next = sent[replies];
          if (!next) return;
          replies += 1;
          reply({ id: next.id, answer: [] });
        };
        for (const ask of steps) {
          if (ask) {
            asks += 1;
            const mine = asks;
            solver.ask([request], () => answered.push(mine));
          } else answerOne();
          expect(sent.length - replies).toBeLessThanOrEqual(1);
        }
        while (replies < sent.length) answerOne();
        expect(answered).toEqual([...answered].sort((a, b) => a - b));
        if (asks > 0) expect(answered.at(-1)).toBe(asks);
      }),
    );
  });

  it('says so when the worker fails, and continues with the next request', () => {
    const { solver, sent, reply, fail } = begin();
    const got: Solved[] = [];
    solver.ask([request], (solved) => got.push(solved));
    solver.ask([request], (solved) => got.push(solved));
    fail('out of memory');
    expect(got[0]).toEqual({ ok: false, say: expect.stringContaining('out of memory') });
    reply({ id: sent[1]?.id ?? 0, failed: 'no such table' });
    expect(got[1]).toEqual({ ok: false, say: expect.stringContaining('no such table') });
  });

  it('ignores a reply to nothing', () => {
    const { solver, reply } = begin();
    const got: Solved[] = [];
    solver.ask([request], (solved) => got.push(solved));
    reply({ id: 99, answer: [] });
    expect(got).toEqual([]);
  });

  it('sends nothing that cannot be cloned', () => {
    expect(structuredClone(request)).toEqual(request);
    const sheet = computeSheet(request);
    expect(structuredClone(sheet)).toEqual(sheet);
  });
});
