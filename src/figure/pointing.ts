/**
 * The rules for pointing at a number on a rail or a ruler, without the DOM: steps, keys, drags and
 * the readout.
 */

import type { Box, Spot } from './frame.ts';

/** The numbers that a player can point at: the multiples of `step` from `least` to `most`. */
export interface Range {
  readonly least: number;
  readonly most: number;
  readonly step: number;
}

/**
 * Returns the nearest multiple of the step between `least` and `most`. It is exact to a
 * ten-thousandth, the unit in which charts count (0.3, not 0.30000000000000004).
 */
export function snap(value: number, step: number, most: number, least = 0): number {
  if (!Number.isFinite(value)) throw new RangeError(`not a finite number: ${value}`);
  if (!(step > 0)) throw new RangeError(`not a step: ${step}`);
  const near = Math.sign(value) * Math.round(Math.abs(value) / step) * step;
  const exact = Math.round(near * 10_000) / 10_000;
  // Adding 0 turns a negative zero, which a screen reader would call "minus 0", into zero.
  return Math.min(most, Math.max(least, exact)) + 0;
}

export function snapTo(range: Range, value: number): number {
  return snap(value, range.step, range.most, range.least);
}

/** Returns where a number begins if it has not been set yet. */
export function middleOf(range: Range): number {
  return snapTo(range, (range.least + range.most) / 2);
}

/**
 * Returns how far a key moves the number, according to the ARIA authoring practices for sliders;
 * null for other keys.
 */
function movement(key: string, range: Range): number | null {
  switch (key) {
    case 'ArrowLeft':
    case 'ArrowDown':
      return -range.step;
    case 'ArrowRight':
    case 'ArrowUp':
      return range.step;
    case 'PageDown':
      return -1;
    case 'PageUp':
      return 1;
    default:
      return null;
  }
}

/** Returns the number after a key; null for a key that a slider does not use. */
export function afterKey(key: string, value: number | null, range: Range): number | null {
  if (key === 'Home') return range.least;
  if (key === 'End') return range.most;
  const by = movement(key, range);
  if (by === null) return null;
  return value === null ? middleOf(range) : snapTo(range, value + by);
}

/**
 * A finger on a scale: the number level with it, and its distance from the scale in the same unit.
 */
export interface Reach {
  readonly along: number;
  readonly away: number;
}

/** A drag in progress: the number before it is rounded to a step, and where the finger was last. */
export interface Drag {
  readonly value: number;
  readonly along: number;
}

/**
 * If a finger is farther than this from the rail, in diamonds, it moves the number at a quarter of
 * the usual rate.
 */
const FAR = 1.5;
const FINE = 0.25;

function within(range: Range, value: number): number {
  return clamp(value, range.least, range.most);
}

/** Begins a drag when the finger comes down: the number is the one level with the finger. */
export function beginDrag(range: Range, reach: Reach): Drag {
  return { value: within(range, reach.along), along: reach.along };
}

export function continueDrag(range: Range, drag: Drag, reach: Reach): Drag {
  const by = (reach.along - drag.along) * (reach.away > FAR ? FINE : 1);
  return { value: within(range, drag.value + by), along: reach.along };
}

/** Returns the two whole numbers around a value, for the magnified stretch. */
export function wholesAround(value: number, range: Range): readonly [number, number] {
  const low = Math.max(range.least, Math.min(Math.floor(value), range.most - 1));
  return [low, low + 1];
}

/**
 * Returns a place for a readout that the thumb does not cover. It is on the first of the given
 * sides that has room, and never beyond the left or right edge of the room.
 * @param gap the distance from the middle of the thumb
 */
export function besideThumb(
  thumb: Spot,
  size: { readonly width: number; readonly height: number },
  gap: number,
  room: Box,
  sides: readonly Side[],
): Box {
  const places = sides.map((side) => placeOn(side, thumb, size, gap, room));
  const fitting = places.find((place) => fits(place, room));
  // If no side has enough room, the place above the thumb is used, because nothing covers it there.
  return fitting ?? placeOn('above', thumb, size, gap, room);
}

export type Side = 'above' | 'below' | 'left' | 'right';

function placeOn(
  side: Side,
  thumb: Spot,
  { width, height }: { readonly width: number; readonly height: number },
  gap: number,
  room: Box,
): Box {
  const level = clamp(thumb.y - height / 2, room.y, room.y + room.height - height);
  const centred = clamp(thumb.x - width / 2, room.x, room.x + room.width - width);
  switch (side) {
    case 'above':
      return { x: centred, y: thumb.y - gap - height, width, height };
    case 'below':
      return { x: centred, y: thumb.y + gap, width, height };
    case 'left':
      return { x: thumb.x - gap - width, y: level, width, height };
    case 'right':
      return { x: thumb.x + gap, y: level, width, height };
  }
}

function clamp(value: number, least: number, most: number): number {
  return Math.max(least, Math.min(most, value));
}

function fits(place: Box, room: Box): boolean {
  return (
    place.x >= room.x &&
    place.x + place.width <= room.x + room.width &&
    place.y >= room.y &&
    place.y + place.height <= room.y + room.height
  );
}
