import { describe, expect, it } from 'vitest';
import {
  NO_SHOT,
  nudge,
  pick,
  placeWords,
  railWords,
  type Shot,
} from '../../../src/app/parts/shot.ts';
import { toDecimal } from '../../../src/charts/index.ts';
import type { Place } from '../../../src/figure/index.ts';
import type { Rail } from '../../../src/table/index.ts';

const left: Place = { kind: 'rail', count: { rail: 'left', from: 'foot' }, diamond: 2.5 };
const head: Place = { kind: 'rail', count: { rail: 'head', from: 'left' }, diamond: 3.5 };
const tenth = toDecimal(0.1);

describe('two taps', () => {
  it('set the start and the target; a third sets another target', () => {
    const one = pick(NO_SHOT, left);
    expect(one).toEqual({ start: left, target: null, next: 'target' });
    const two = pick(one, head);
    expect(two).toEqual({ start: left, target: head, next: 'target' });
    const three = pick(two, { kind: 'pocket', pocket: 'left-side' });
    expect(three).toMatchObject({ start: left, target: { pocket: 'left-side' } });
  });

  it('set the start again after the start is selected, and keep the target', () => {
    const again = pick({ start: left, target: left, next: 'start' }, head);
    expect(again).toEqual({ start: head, target: left, next: 'target' });
  });

  it.each([
    // WPA rules 8.1: diamond 4 of a long rail is the side pocket, 0 and 8 are its corners.
    ['left-side', 'left', 4],
    ['right-side', 'right', 4],
    ['foot-left', 'left', 0],
    ['foot-right', 'right', 0],
    ['head-left', 'left', 8],
    ['head-right', 'right', 8],
  ] as const)('a start at the pocket %s is on the %s rail at %d', (pocket, rail, diamond) => {
    const { start } = pick(NO_SHOT, { kind: 'pocket', pocket });
    expect(start).toEqual({ kind: 'rail', count: { rail, from: 'foot' }, diamond });
  });
});

describe('a tenth more or less', () => {
  const shot: Shot = { start: left, target: head, next: 'target' };

  it('moves one end and not the other', () => {
    expect(nudge(shot, 'start', tenth)).toEqual({ ...shot, start: { ...left, diamond: 2.6 } });
  });

  it('three times makes three tenths, without rounding errors', () => {
    const moved = [1, 2, 3].reduce((one) => nudge(one, 'start', tenth), shot);
    expect(moved.start?.diamond).toBe(2.8);
  });

  it('does not leave the rail', () => {
    const far = nudge(shot, 'target', toDecimal(0.9));
    expect(far.target).toMatchObject({ diamond: 4 });
    expect(nudge(shot, 'start', toDecimal(-9)).start?.diamond).toBe(0);
  });

  it('leaves a pocket and an unset end as they are', () => {
    const pocket: Shot = {
      start: null,
      target: { kind: 'pocket', pocket: 'left-side' },
      next: 'start',
    };
    expect(nudge(pocket, 'target', tenth)).toBe(pocket);
    expect(nudge(pocket, 'start', tenth)).toBe(pocket);
  });
});

describe('a place in words', () => {
  it('is its number and rail, or its pocket', () => {
    expect(placeWords(left)).toBe('2.5 on the left rail');
    expect(placeWords({ kind: 'pocket', pocket: 'head-right' })).toBe('head-right corner');
    expect(placeWords({ kind: 'pocket', pocket: 'left-side' })).toBe('left side pocket');
    if (head.kind === 'rail') expect(railWords(head, null)).toBe('head rail, from the left');
  });

  it('is given from both ends if a path counts from the other', () => {
    // A long rail has 8 divisions, a short one 4 (WPA rules 8.1): 8 − 2.5 and 4 − 3.5.
    const across = (place: Place, from: Rail) =>
      place.kind === 'rail' ? railWords(place, { ...place.count, from }) : '';
    expect(across(left, 'head')).toBe('left rail, 2.5 from the foot · 5.5 from the head');
    expect(across(head, 'right')).toBe('head rail, 3.5 from the left · 0.5 from the right');
    expect(across(left, 'foot')).toBe('left rail, from the foot');
  });
});
