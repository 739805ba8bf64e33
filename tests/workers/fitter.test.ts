import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { HARBOUR_LANE } from '../../src/charts/index.ts';

import {
  type Evening,
  type EveningRequest,
  eveningOf,
  type TableShot,
} from '../../src/shots/index.ts';
import { type Fitter, latestOnly } from '../../src/workers/index.ts';
import { slowWorkers } from './slow-worker.ts';

const shot: TableShot = {
  pattern: 'foot-to-side',
  start: 3,
  speed: 'medium',
  aim: 1.6,
  miss: -0.5,
};
const request = { document: HARBOUR_LANE, naming: 'through', shots: [shot, shot, shot] } as const;
const evening = eveningOf(request);

function begin() {
  const slow = slowWorkers<EveningRequest, Evening>();
  const fitter: Fitter = latestOnly(slow.start);
  return { ...slow, fitter };
}

describe('the fitter', () => {
  it('gives back what the worker worked out', () => {
    const { fitter, sent, reply } = begin();
    const got: Evening[] = [];
    fitter.ask(request, (answered) => answered.ok && got.push(answered.answer));
    reply({ id: sent[0]?.id ?? 0, answer: evening });
    expect(got).toEqual([evening]);
  });

  // Law: never two under way, and the last request is the last to be answered.
  it('lets no requests queue up: the latest wins', () => {
    fc.assert(
      fc.property(fc.array(fc.boolean(), { minLength: 1, maxLength: 40 }), (steps) => {
        const { fitter, sent, reply } = begin();
        const answered: number[] = [];
        let asks = 0;
        let replies = 0;
        const answerOne = () => {
          const next = sent[replies];
          if (!next) return;
          replies += 1;
          reply({ id: next.id, answer: evening });
        };
        for (const ask of steps) {
          if (ask) {
            asks += 1;
            const mine = asks;
            fitter.ask(request, () => answered.push(mine));
          } else answerOne();
          expect(sent.length - replies).toBeLessThanOrEqual(1);
        }
        while (replies < sent.length) answerOne();
        expect(answered).toEqual([...answered].sort((a, b) => a - b));
        if (asks > 0) expect(answered.at(-1)).toBe(asks);
      }),
    );
  });

  it('says so when the worker fails, and continues', () => {
    const { fitter, sent, reply, fail } = begin();
    const said: string[] = [];
    const done = (answered: { ok: boolean; say?: string }) => said.push(answered.say ?? 'ok');
    fitter.ask(request, done);
    fitter.ask(request, done);
    fail('out of memory');
    reply({ id: sent[1]?.id ?? 0, failed: 'no such pattern' });
    expect(said[0]).toContain('out of memory');
    expect(said[1]).toContain('no such pattern');
  });

  it('sends nothing that cannot be cloned', () => {
    expect(structuredClone(request)).toEqual(request);
    expect(structuredClone(evening)).toEqual(evening);
  });
});
