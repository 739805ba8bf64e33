import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { computeSheet, PATTERNS, type SheetRequest, toDecimal } from '../../src/charts/index.ts';
import { CLUB_CLOTH, TABLES } from '../../src/table/index.ts';
import {
  createSolver,
  type Solved,
  type SolveReply,
  type SolveRequest,
  type WorkerPort,
} from '../../src/workers/index.ts';

const request: SheetRequest = {
  setting: { table: TABLES['9ft'], condition: CLUB_CLOTH },
  route: PATTERNS[0],
  starts: [toDecimal(3), toDecimal(4)],
  printStep: toDecimal(0.1),
  naming: 'through',
  stroke: {},
  anchorBound: 0.06,
};

/** A worker that answers when it is told to. */
function slowPort() {
  const asked: SolveRequest[] = [];
  let reply: (reply: SolveReply) => void = () => undefined;
  let fail: (reason: string) => void = () => undefined;
  const port: WorkerPort = {
    postMessage: (one) => asked.push(one),
    listen: (onReply, onError) => {
      reply = onReply;
      fail = onError;
    },
  };
  return { port, asked, reply: (one: SolveReply) => reply(one), fail: (why: string) => fail(why) };
}

describe('the solver', () => {
  it('gives back what the worker worked out', () => {
    const { port, asked, reply } = slowPort();
    const got: Solved[] = [];
    createSolver(port).ask([request], (solved) => got.push(solved));
    const sheets = [computeSheet(request)];
    reply({ id: asked[0]?.id ?? 0, sheets });
    expect(got).toEqual([{ ok: true, sheets }]);
  });

  // Law: whatever comes while one is under way, at most one is under way, the order is kept, and the
  // newest is always answered.
  it('answers the newest of any run of requests, and never out of order', () => {
    fc.assert(
      fc.property(fc.array(fc.boolean(), { minLength: 1, maxLength: 60 }), (steps) => {
        const { port, asked, reply } = slowPort();
        const solver = createSolver(port);
        const answered: number[] = [];
        let asks = 0;
        let replies = 0;
        const answerOne = () => {
          const next = asked[replies];
          if (!next) return;
          replies += 1;
          reply({ id: next.id, sheets: [] });
        };
        for (const ask of steps) {
          if (ask) {
            asks += 1;
            const mine = asks;
            solver.ask([request], () => answered.push(mine));
          } else answerOne();
          expect(asked.length - replies).toBeLessThanOrEqual(1);
        }
        while (replies < asked.length) answerOne();
        expect(answered).toEqual([...answered].sort((a, b) => a - b));
        if (asks > 0) expect(answered.at(-1)).toBe(asks);
      }),
    );
  });

  it('says so when the worker fails, and goes on with the next request', () => {
    const { port, asked, reply, fail } = slowPort();
    const solver = createSolver(port);
    const got: Solved[] = [];
    solver.ask([request], (solved) => got.push(solved));
    solver.ask([request], (solved) => got.push(solved));
    fail('out of memory');
    expect(got[0]).toEqual({ ok: false, say: expect.stringContaining('out of memory') });
    reply({ id: asked[1]?.id ?? 0, failed: 'no such table' });
    expect(got[1]).toEqual({ ok: false, say: expect.stringContaining('no such table') });
  });

  it('takes no notice of a reply to nothing', () => {
    const { port, reply } = slowPort();
    const got: Solved[] = [];
    createSolver(port).ask([request], (solved) => got.push(solved));
    reply({ id: 99, sheets: [] });
    expect(got).toEqual([]);
  });

  it('sends nothing that cannot be cloned', () => {
    expect(structuredClone(request)).toEqual(request);
    const sheet = computeSheet(request);
    expect(structuredClone(sheet)).toEqual(sheet);
  });
});
