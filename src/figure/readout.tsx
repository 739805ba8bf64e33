import type { Box, Spot } from './frame.ts';
import { besideThumb, type Range, type Side, wholesAround } from './pointing.ts';
import { Silent } from './silent.tsx';
import type { Finger } from './slider.ts';

export interface ReadoutProps {
  readonly finger: Finger;
  /** The drawing's box. The readout stays between its left and right edges. */
  readonly box: Box;
  readonly value: number;
  readonly text: string;
  readonly range: Range;
  readonly sides: readonly Side[];
  /**
   * The magnified stretch of the scale: whether it is vertical, and whether its numbers rise with x
   * or y.
   */
  readonly stretch?: { readonly vertical: boolean; readonly rising: boolean };
}

/** Half a thumb's width plus some space beside it, in pixels (common practice, no source). */
const GAP = 40;
const NUMBER_HEIGHT = 60;
/**
 * Sizes of the magnified stretch: length and depth in pixels, and how far it extends beyond one
 * diamond at each end, in diamonds.
 */
const STRETCH = 138;
const DEPTH = 46;
const PAST = 0.14;

/**
 * Shows the number under the finger, large, where the thumb does not cover it. One unit inside it
 * is one pixel.
 */
export function Readout(props: ReadoutProps) {
  const { finger, box, stretch } = props;
  const number = { width: numberWidth(props.text), height: NUMBER_HEIGHT };
  const size = sizeOf(number, stretch);
  const room: Box = { ...finger.seen, x: box.x, width: box.width };
  // The readout shrinks if the picture is narrower than the readout.
  const unit = Math.min(finger.pixel, box.width / size.width);
  const place = besideThumb(
    finger.at,
    { width: size.width * unit, height: size.height * unit },
    GAP * finger.pixel,
    room,
    props.sides,
  );
  return (
    <Silent>
      <g class="readout" transform={`translate(${place.x} ${place.y}) scale(${unit})`}>
        <rect class="sheet" x="1" y="1" width={size.width - 2} height={size.height - 2} rx="10" />
        <text class="number" x={size.number.x} y={size.number.y} dy="0.36em" text-anchor="middle">
          {props.text}
        </text>
        {stretch && <Stretch {...props} stretch={stretch} size={size} />}
      </g>
    </Silent>
  );
}

/**
 * Returns the room for the number, in pixels. Tabular digits of 44 px are at most 26 px wide, and
 * the sheet has 8 px on either side.
 */
function numberWidth(text: string): number {
  return 16 + 26 * Math.max(3, text.length);
}

interface Size {
  readonly width: number;
  readonly height: number;
}

/** Returns the readout's size and the middle of its number. */
function sizeOf(number: Size, stretch: ReadoutProps['stretch']): Size & { readonly number: Spot } {
  const { width, height } = number;
  const middle = { x: width / 2, y: height / 2 };
  if (!stretch) return { width, height, number: middle };
  if (stretch.vertical)
    return { width: width + DEPTH, height: STRETCH, number: { x: middle.x, y: STRETCH / 2 } };
  return { width: STRETCH, height: height + DEPTH, number: { x: STRETCH / 2, y: middle.y } };
}

/** Draws one diamond of the rail with its tenths, and marks the number's place in it. */
function Stretch({
  value,
  range,
  stretch,
  size,
}: ReadoutProps & {
  readonly size: Size;
  readonly stretch: { readonly vertical: boolean; readonly rising: boolean };
}) {
  const [low, high] = wholesAround(value, range);
  const along = (number: number): number => {
    const part = (number - low + PAST) / (1 + 2 * PAST);
    return STRETCH * (stretch.rising ? part : 1 - part);
  };
  // Returns a point from its number along the stretch and its depth from the readout's border.
  const at = (number: number, depth: number): Spot =>
    stretch.vertical
      ? { x: size.width - depth, y: along(number) }
      : { x: along(number), y: size.height - depth };
  const line = (number: number, from: number, to: number): string => {
    const a = at(number, from);
    const b = at(number, to);
    return `M${a.x} ${a.y}L${b.x} ${b.y}`;
  };
  const tenths = Array.from({ length: 11 }, (_, n) => low + n / 10);
  return (
    <g class="stretch">
      {tenths.map((tenth, n) => (
        <path key={tenth} d={line(tenth, 24, n % 10 === 0 ? 44 : n === 5 ? 38 : 33)} />
      ))}
      {[low, high].map((whole) => (
        <text key={whole} {...at(whole, 13)} dy="0.36em" text-anchor="middle">
          {whole < 0 ? `−${-whole}` : whole}
        </text>
      ))}
      <path class="here" d={line(value, 20, 46)} />
    </g>
  );
}
