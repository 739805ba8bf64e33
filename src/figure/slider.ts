/** The DOM's part of pointing at a number: pointers and keys in, numbers out. */

import { useRef, useState } from 'preact/hooks';
import type { Box, Spot } from './frame.ts';
import { keyed, type Pull, pullFrom, pullOn, type Range, type Reach, snapTo } from './pointing.ts';

/** What a finger moves along: a rail or a ruler. */
export interface Scale {
  readonly range: Range;
  /** Which number a spot of the drawing is level with, and how far from the scale it is. */
  readonly reach: (at: Spot) => Reach;
}

export interface PointerInput<S extends Scale> {
  /** The scale that a finger comes down on; null if there is none. */
  readonly scaleAt: (at: Spot) => S | null;
  readonly value: number | null;
  readonly onPoint: (value: number, scale: S) => void;
  /** A finger that pointed is lifted. */
  readonly onRelease?: (value: number, scale: S) => void;
  /** The system took the finger away. */
  readonly onCancel?: () => void;
}

export interface KeyInput {
  readonly range: Range;
  readonly value: number | null;
  readonly onPoint: (value: number) => void;
  readonly onDone?: (() => void) | undefined;
}

/** A finger on the drawing: where it is, how large a pixel is there, and what of it is on screen. */
export interface Finger {
  readonly at: Spot;
  readonly pixel: number;
  readonly seen: Box;
}

type SvgPointer = PointerEvent & { readonly currentTarget: SVGGraphicsElement };

/** @returns null while the drawing is not laid out */
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

interface Held<S> {
  readonly pointer: number;
  readonly scale: S;
  readonly pull: Pull;
  readonly sent: number;
}

/** Handlers for what is dragged over; `finger` is null unless it is being dragged. */
export function usePointers<S extends Scale>(input: PointerInput<S>) {
  const held = useRef<Held<S> | null>(null);
  const [finger, setFinger] = useState<Finger | null>(null);

  const move = (finger: Finger, now: Omit<Held<S>, 'sent'>, before: number | null): void => {
    const sent = snapTo(now.scale.range, now.pull.value);
    held.current = { ...now, sent };
    if (sent !== before) input.onPoint(sent, now.scale);
    setFinger(finger);
  };
  const onPointerDown = (event: SvgPointer): void => {
    const finger = event.isPrimary && event.button === 0 ? fingerOf(event) : null;
    const scale = finger && input.scaleAt(finger.at);
    if (!finger || !scale) return;
    event.currentTarget.setPointerCapture(event.pointerId);
    const pull = pullFrom(scale.range, scale.reach(finger.at));
    move(finger, { pointer: event.pointerId, scale, pull }, input.value);
  };
  const onPointerMove = (event: SvgPointer): void => {
    const now = held.current;
    const finger = now?.pointer === event.pointerId ? fingerOf(event) : null;
    if (!now || !finger) return;
    const pull = pullOn(now.scale.range, now.pull, now.scale.reach(finger.at));
    move(finger, { ...now, pull }, now.sent);
  };
  const letGo = (event: SvgPointer, then: (last: Held<S>) => void): void => {
    const now = held.current;
    if (now?.pointer !== event.pointerId) return;
    held.current = null;
    setFinger(null);
    then(now);
  };
  return {
    finger,
    pointers: {
      onPointerDown,
      onPointerMove,
      onPointerUp: (event: SvgPointer) =>
        letGo(event, ({ sent, scale }) => input.onRelease?.(sent, scale)),
      onPointerCancel: (event: SvgPointer) => letGo(event, () => input.onCancel?.()),
      // Chromium minds touch-action on a drawing, but not on a part of it, and would scroll the page.
      onTouchMove: (event: TouchEvent) => {
        if (held.current && event.cancelable) event.preventDefault();
      },
    },
  };
}

/** A key that a slider takes is nobody else's: the quiz listens to the whole window. */
export function pressOnSlider(input: KeyInput, event: KeyboardEvent): void {
  if (event.ctrlKey || event.metaKey || event.altKey) return;
  const done = event.key === 'Enter' && input.onDone !== undefined;
  const value = done ? null : keyed(event.key, input.value, input.range);
  if (!done && value === null) return;
  event.preventDefault();
  event.stopPropagation();
  if (done && !event.repeat) input.onDone?.();
  if (value !== null && value !== input.value) input.onPoint(value);
}
