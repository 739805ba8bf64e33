import { describe, expect, it } from 'vitest';
import {
  HARBOUR_LANE,
  type LinePlace,
  lastRevision,
  type Ordered,
  orderChange,
  type Priority,
  setOrder,
  setPriority,
  stateOf,
  toDecimal,
} from '../../../src/charts/index.ts';

const before = { ...stateOf(lastRevision(HARBOUR_LANE)), priorities: [] };
const six = { pattern: 'cross-side', start: toDecimal(6) } as const;
const seven = { pattern: 'cross-side', start: toDecimal(7) } as const;
const whole = { pattern: 'cross-side', start: null } as const;
const ordered = (place: LinePlace, priority: Priority): Ordered => ({
  ...{ ...place, width: 0.1, use: 1 },
  priority,
});
const order = [ordered(six, 'first'), ordered(seven, 'in turn')];

describe('a suggested order, before it is taken', () => {
  it('replaces nothing where nothing was set', () => {
    expect(orderChange(before, order)).toEqual({
      moves: [{ ...six, from: 'in turn', to: 'first' }],
      replaced: 0,
    });
  });

  it('replaces what was set otherwise, and a pattern’s own', () => {
    const set = setPriority(setPriority(before, six, 'last'), whole, 'last');
    expect(orderChange(set, order)).toEqual({
      moves: [
        { ...six, from: 'last', to: 'first' },
        { ...seven, from: 'last', to: 'in turn' },
      ],
      replaced: 2,
    });
  });

  it('leaves other patterns out of the count, and what was set alike', () => {
    const other = { pattern: 'cross-corner', start: toDecimal(3) } as const;
    const set = setPriority(setPriority(before, other, 'last'), six, 'first');
    expect(orderChange(set, order)).toEqual({ moves: [], replaced: 0 });
  });

  it('changes nothing once it was taken', () => {
    const taken = setOrder(setPriority(before, whole, 'last'), order);
    expect(orderChange(taken, order)).toEqual({ moves: [], replaced: 0 });
  });
});
