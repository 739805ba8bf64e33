/** The DOM's part of pointing at a number: pointers and keys in, numbers out. */

import { useRef, useState } from 'preact/hooks';
import type { Box, Spot } from './frame.ts';
import { keyed, type Pull, pullFrom, pullOn, type Range, type Reach, snapTo } from './pointing.ts';

export interface SliderInput {
  readonly range: Range;
  readonly value: number | null;
  /** Which number a spot of the drawing is level with, and how far from the scale it is. */
  readonly reach: (at: Spot) => Reach;
  readonly onPoint: (value: number) => void;
  readonly onDone?: (() => void) | undefined;
  /** A finger that pointed is lifted. */
  readonly onRelease?: ((value: number) => void) | undefined;
  /** The system took the finger away. */
  readonly onCancel?: (() => void) | undefined;
}

/** A finger on the drawing: where it is, how large a pixel is there, and what of it is on screen. */
export interface Finger {
  readonly at: Spot;
  readonly pixel: number;
  readonly seen: Box;
}

type SvgPointer = PointerEvent & { readonly currentTarget: SVGGraphicsElement };

/** @returns null while the drawing is not laid out */
export function fingerOf(event: SvgPointer): Finger | null {
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

interface Held {
  readonly pointer: number;
  readonly pull: Pull;
  readonly sent: number;
}

/** Handlers for what is dragged over and for what has the focus; `finger` is null unless dragging. */
export function useSlider(input: SliderInput) {
  const held = useRef<Held | null>(null);
  const [finger, setFinger] = useState<Finger | null>(null);

  const send = (pointer: number, pull: Pull, before: number | null): void => {
    const sent = snapTo(input.range, pull.value);
    held.current = { pointer, pull, sent };
    if (sent !== before) input.onPoint(sent);
  };
  const onPointerDown = (event: SvgPointer): void => {
    const finger = fingerOf(event);
    if (!finger || !event.isPrimary || event.button !== 0) return;
    event.currentTarget.setPointerCapture(event.pointerId);
    send(event.pointerId, pullFrom(input.range, input.reach(finger.at)), input.value);
    setFinger(finger);
  };
  const onPointerMove = (event: SvgPointer): void => {
    const now = held.current;
    const finger = now?.pointer === event.pointerId ? fingerOf(event) : null;
    if (!now || !finger) return;
    send(now.pointer, pullOn(input.range, now.pull, input.reach(finger.at)), now.sent);
    setFinger(finger);
  };
  const letGo = (event: SvgPointer, then: (sent: number) => void): void => {
    const now = held.current;
    if (now?.pointer !== event.pointerId) return;
    held.current = null;
    setFinger(null);
    then(now.sent);
  };
  return {
    finger,
    pointers: {
      onPointerDown,
      onPointerMove,
      onPointerUp: (event: SvgPointer) => letGo(event, (sent) => input.onRelease?.(sent)),
      onPointerCancel: (event: SvgPointer) => letGo(event, () => input.onCancel?.()),
    },
    onKeyDown: (event: KeyboardEvent) => press(input, event),
  };
}

/** A key that the slider takes is nobody else's: the quiz listens to the whole window. */
function press(input: SliderInput, event: KeyboardEvent): void {
  if (event.ctrlKey || event.metaKey || event.altKey) return;
  const done = event.key === 'Enter' && input.onDone !== undefined;
  const value = done ? null : keyed(event.key, input.value, input.range);
  if (!done && value === null) return;
  event.preventDefault();
  event.stopPropagation();
  if (done && !event.repeat) input.onDone?.();
  if (value !== null && value !== input.value) input.onPoint(value);
}
