import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Listed, oneMore } from '../../../src/scheduler/log/listed.ts';

/** Which of the lists so far goes on, by a number of its own. */
const growthArb = fc.array(fc.nat(), { maxLength: 40 });

describe('a list that goes on', () => {
  it('is what an array would be, whichever of its earlier states it goes on from', () => {
    fc.assert(
      fc.property(fc.array(fc.nat()), growthArb, (first, growth) => {
        let lists: readonly { readonly list: Listed<number>; readonly array: number[] }[] = [
          { list: first, array: first },
        ];
        for (const [item, which] of growth.entries()) {
          const from = lists[which % lists.length];
          if (!from) throw new Error('there is a first list');
          const next = { list: oneMore(from.list, item), array: [...from.array, item] };
          lists = [...lists, next];
        }
        for (const { list, array } of lists) {
          expect([...list]).toEqual(array);
          expect(list.length).toBe(array.length);
          for (let n = -array.length - 2; n < array.length + 2; n++)
            expect(list.at(n)).toBe(array.at(n));
        }
      }),
    );
  });

  it('leaves the array that it grew from as it was', () => {
    const array = [1, 2];
    oneMore(array, 3);
    expect(array).toEqual([1, 2]);
  });
});
