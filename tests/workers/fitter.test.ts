import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { HARBOUR_LANE } from '../../src/charts/index.ts';
import { type Evening, eveningOf, type TableShot } from '../../src/shots/index.ts';
import { createFitter, type FitReply, type FitRequest } from '../../src/workers/index.ts';

const shot: TableShot = {
  pattern: 'foot-to-side',
  start: 3,
  speed: 'medium',
  aim: 1.6,
  miss: -0.5,
};
const request = { document: HARBOUR_LANE, naming: 'through', shots: [shot, shot, shot] } as const;
const evening = eveningOf(request);

/** A worker that answers when it is told to. */
function slowWorker() {
  const asked: FitRequest[] = [];
  let reply: (reply: FitReply) => void = () => undefined;
  let fail: (reason: string) => void = () => undefined;
  const fitter = createFitter({
    postMessage: (one) => asked.push(one),
    listen: (onReply, onError) => {
      reply = onReply;
      fail = onError;
    },
  });
  return { fitter, asked, reply: (one: FitReply) => reply(one), fail: (why: string) => fail(why) };
}

describe('the fitter', () => {
  it('gives back what the worker worked out', () => {
    const { fitter, asked, reply } = slowWorker();
    const got: Evening[] = [];
    fitter.ask(request, (answered) => answered.ok && got.push(answered.answer.evening));
    reply({ id: asked[0]?.id ?? 0, evening });
    expect(got).toEqual([evening]);
  });

  // Law: never two under way, and the last that was asked is the last that is answered.
  it('lets no requests queue up: the newest wins', () => {
    fc.assert(
      fc.property(fc.array(fc.boolean(), { minLength: 1, maxLength: 40 }), (steps) => {
        const { fitter, asked, reply } = slowWorker();
        const answered: number[] = [];
        let asks = 0;
        let replies = 0;
        const answerOne = () => {
          const next = asked[replies];
          if (!next) return;
          replies += 1;
          reply({ id: next.id, evening });
        };
        for (const ask of steps) {
          if (ask) {
            asks += 1;
            const mine = asks;
            fitter.ask(request, () => answered.push(mine));
          } else answerOne();
          expect(asked.length - replies).toBeLessThanOrEqual(1);
        }
        while (replies < asked.length) answerOne();
        expect(answered).toEqual([...answered].sort((a, b) => a - b));
        if (asks > 0) expect(answered.at(-1)).toBe(asks);
      }),
    );
  });

  it('says so when the worker fails, and goes on', () => {
    const { fitter, asked, reply, fail } = slowWorker();
    const said: string[] = [];
    const done = (answered: { ok: boolean; say?: string }) => said.push(answered.say ?? 'ok');
    fitter.ask(request, done);
    fitter.ask(request, done);
    fail('out of memory');
    reply({ id: asked[1]?.id ?? 0, failed: 'no such pattern' });
    expect(said[0]).toContain('out of memory');
    expect(said[1]).toContain('no such pattern');
  });

  it('sends nothing that cannot be cloned', () => {
    expect(structuredClone(request)).toEqual(request);
    expect(structuredClone(evening)).toEqual(evening);
  });
});
