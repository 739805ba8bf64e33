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

describe('a suggested order, before it is applied', () => {
  it('replaces nothing if nothing was set', () => {
    expect(orderChange(before, order)).toEqual({
      moves: [{ ...six, from: 'in turn', to: 'first' }],
      replaced: 0,
    });
  });

  it('replaces different priorities, and those of whole patterns', () => {
    const set = setPriority(setPriority(before, six, 'last'), whole, 'last');
    expect(orderChange(set, order)).toEqual({
      moves: [
        { ...six, from: 'last', to: 'first' },
        { ...seven, from: 'last', to: 'in turn' },
      ],
      replaced: 2,
    });
  });

  it('does not count other patterns, nor equal priorities', () => {
    const other = { pattern: 'cross-corner', start: toDecimal(3) } as const;
    const set = setPriority(setPriority(before, other, 'last'), six, 'first');
    expect(orderChange(set, order)).toEqual({ moves: [], replaced: 0 });
  });

  it('changes nothing once it is applied', () => {
    const applied = setOrder(setPriority(before, whole, 'last'), order);
    expect(orderChange(applied, order)).toEqual({ moves: [], replaced: 0 });
  });
});
