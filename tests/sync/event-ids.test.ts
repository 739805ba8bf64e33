import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { covers, eventIds, has, type Run, runsIn, runsOf } from '../../src/sync/event-ids.ts';

const anyIds = fc.array(fc.record({ device: fc.constantFrom('a', 'b', 'c'), seq: fc.nat(30) }), {
  maxLength: 40,
});

describe('a set of ids', () => {
  it('has the ids that were put in, and no others', () => {
    fc.assert(
      fc.property(anyIds, (ids) => {
        const set = eventIds(runsOf(ids));
        const expected = new Set(ids.map(({ device, seq }) => `${device}:${seq}`));
        for (const device of ['a', 'b', 'c', 'd'])
          for (let seq = 0; seq <= 32; seq++)
            expect(has(set, { device, seq })).toBe(expected.has(`${device}:${seq}`));
      }),
    );
  });

  it('covers another set if it has all of its ids', () => {
    fc.assert(
      fc.property(anyIds, anyIds, (one, other) => {
        const [whole, part] = [eventIds(runsOf([...one])), eventIds(runsOf(other))];
        expect(covers(whole, part)).toBe(other.every((id) => has(whole, id)));
        expect(covers(eventIds([...runsIn(whole), ...runsIn(part)]), part)).toBe(true);
      }),
    );
  });

  it('is one run for a hundred thousand answers of one device', () => {
    const ids = Array.from({ length: 100_000 }, (_, seq) => ({ device: 'a', seq }));
    expect(runsOf(ids)).toEqual([['a', 0, 99_999] satisfies Run]);
  });
});
