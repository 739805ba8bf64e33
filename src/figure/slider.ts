/** The DOM side of pointing at a number: turns pointers and keys into numbers. */

import { useRef, useState } from 'preact/hooks';
import type { Box, Spot } from './frame.ts';
import {
  afterKey,
  beginDrag,
  continueDrag,
  type Drag,
  type Range,
  type Reach,
  snapTo,
} from './pointing.ts';

/** A rail or a ruler along which a finger moves. */
export interface Scale {
  readonly range: Range;
  /**
   * Returns the number level with a spot of the drawing, and the spot's distance from the scale.
   */
  readonly reach: (at: Spot) => Reach;
}

export interface PointerInput<S extends Scale> {
  /** Returns the scale under a finger that comes down; null if there is none. */
  readonly scaleAt: (at: Spot) => S | null;
  readonly value: number | null;
  readonly onPoint: (value: number, scale: S) => void;
  /** Called when a pointing finger lifts. */
  readonly onRelease?: (value: number, scale: S) => void;
  /** Called when the system cancels the pointer. */
  readonly onCancel?: () => void;
}

export interface KeyInput {
  readonly range: Range;
  readonly value: number | null;
  readonly onPoint: (value: number) => void;
  readonly onDone?: (() => void) | undefined;
}

/**
 * A finger on the drawing: its spot, the size of a screen pixel there, and the part of the drawing
 * on screen.
 */
export interface Finger {
  readonly at: Spot;
  readonly pixel: number;
  readonly seen: Box;
}

type SvgPointer = PointerEvent & { readonly currentTarget: SVGGraphicsElement };

/**
 * Returns where a pointer is on the drawing.
 * @returns null while the drawing has no layout
 */
function fingerOf(event: SvgPointer): Finger | null {
  const svg = event.currentTarget.ownerSVGElement ?? event.currentTarget;
  const toScreen = svg.getScreenCTM();
  if (!toScreen || toScreen.a === 0) return null;
  const back = toScreen.inverse();
  const on = (x: number, y: number): Spot => {
    const { x: sx, y: sy } = new DOMPoint(x, y).matrixTransform(back);
    return { x: sx, y: sy };
  };
  const corner = on(0, 0);
  const far = on(document.documentElement.clientWidth, window.innerHeight);
  return {
    at: on(event.clientX, event.clientY),
    pixel: 1 / toScreen.a,
    seen: { ...corner, width: far.x - corner.x, height: far.y - corner.y },
  };
}

interface Gesture<S> {
  readonly pointer: number;
  readonly scale: S;
  readonly drag: Drag;
  /** The number that was reported last. */
  readonly sent: number;
}

/** Returns handlers for an element that a finger drags over. `finger` is null between drags. */
export function usePointers<S extends Scale>(input: PointerInput<S>) {
  const gesture = useRef<Gesture<S> | null>(null);
  const [finger, setFinger] = useState<Finger | null>(null);

  const move = (finger: Finger, now: Omit<Gesture<S>, 'sent'>, before: number | null): void => {
    const sent = snapTo(now.scale.range, now.drag.value);
    gesture.current = { ...now, sent };
    if (sent !== before) input.onPoint(sent, now.scale);
    setFinger(finger);
  };
  const onPointerDown = (event: SvgPointer): void => {
    const finger = event.isPrimary && event.button === 0 ? fingerOf(event) : null;
    const scale = finger && input.scaleAt(finger.at);
    if (!finger || !scale) return;
    event.currentTarget.setPointerCapture(event.pointerId);
    const drag = beginDrag(scale.range, scale.reach(finger.at));
    move(finger, { pointer: event.pointerId, scale, drag }, input.value);
  };
  const onPointerMove = (event: SvgPointer): void => {
    const now = gesture.current;
    const finger = now?.pointer === event.pointerId ? fingerOf(event) : null;
    if (!now || !finger) return;
    const drag = continueDrag(now.scale.range, now.drag, now.scale.reach(finger.at));
    move(finger, { ...now, drag }, now.sent);
  };
  const endWith = (event: SvgPointer, then: (last: Gesture<S>) => void): void => {
    const now = gesture.current;
    if (now?.pointer !== event.pointerId) return;
    gesture.current = null;
    setFinger(null);
    then(now);
  };
  return {
    finger,
    pointers: {
      onPointerDown,
      onPointerMove,
      onPointerUp: (event: SvgPointer) =>
        endWith(event, ({ sent, scale }) => input.onRelease?.(sent, scale)),
      onPointerCancel: (event: SvgPointer) => endWith(event, () => input.onCancel?.()),
      // Some browsers apply touch-action to an svg but not to a part of it. They would scroll the
      // page.
      onTouchMove: (event: TouchEvent) => {
        if (gesture.current && event.cancelable) event.preventDefault();
      },
    },
  };
}

/**
 * Handles a key on a slider. A key that the slider uses goes no further, because the quiz listens
 * to the whole window.
 */
export function pressOnSlider(input: KeyInput, event: KeyboardEvent): void {
  if (event.ctrlKey || event.metaKey || event.altKey) return;
  const done = event.key === 'Enter' && input.onDone !== undefined;
  const value = done ? null : afterKey(event.key, input.value, input.range);
  if (!done && value === null) return;
  event.preventDefault();
  event.stopPropagation();
  if (done && !event.repeat) input.onDone?.();
  if (value !== null && value !== input.value) input.onPoint(value);
}
