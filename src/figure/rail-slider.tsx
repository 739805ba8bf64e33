import './pointing.css';
import { formatDecimal, toDecimal } from '../charts/index.ts';
import { type Count, diamondLength, divisions, isLongRail, pointAt } from '../table/index.ts';
import {
  type Box,
  behindNose,
  diamondAt,
  type Frame,
  railBand,
  type Spot,
  spot,
  tidy,
} from './frame.ts';
import { middleOf, type Range, type Reach, type Side } from './pointing.ts';
import { Readout } from './readout.tsx';
import { type Finger, pressOnSlider, type Scale, usePointers } from './slider.ts';

/** A number of a rail, in diamonds, that a player can point at. */
export interface Pointing {
  readonly count: Count;
  /** The number; null until the player points at one. */
  readonly value: number | null;
  /** Numbers are whole multiples of this, in diamonds. */
  readonly step: number;
  /** The number's name, for screen readers. */
  readonly label: string;
  /** Returns the value as screen readers say it. */
  readonly words: (value: number | null) => string;
  readonly onPoint: (diamond: number) => void;
  /** Called when the player presses Enter. */
  readonly onDone?: () => void;
}

function railRange(count: Count, step: number): Range {
  return { least: 0, most: divisions(count.rail), step };
}

/** Formats a number for a scale with this step: "3.5", or "3.50" if the step is finer than 0.1. */
export function formatStep(value: number, step: number, signed = false): string {
  return formatDecimal(toDecimal(value), step < 0.1 ? 2 : 1, signed);
}

export interface RailScale extends Scale {
  readonly count: Count;
}

/**
 * Returns a rail as a scale: its numbers, and the distance of a finger from its row of sights, in
 * diamonds.
 */
export function railScale(frame: Frame, count: Count, step: number): RailScale {
  const { table } = frame;
  const reach = (at: Spot): Reach => ({
    along: diamondAt(frame, count, at),
    away:
      Math.abs(behindNose(frame, count.rail, at) / 1000 - table.sightSetback) /
      diamondLength(table, count.rail),
  });
  return { count, range: railRange(count, step), reach };
}

interface InPicture {
  readonly frame: Frame;
  /** The picture's box. */
  readonly box: Box;
}

/** Draws a slider over a drawn rail. */
export function RailSlider(props: Pointing & InPicture) {
  const { frame, count, step } = props;
  const scale = railScale(frame, count, step);
  const { finger, pointers } = usePointers({ ...props, scaleAt: () => scale });
  return (
    <>
      <g {...pointers}>
        <RailKeys {...props} />
      </g>
      {finger && <RailReadout {...props} finger={finger} />}
    </>
  );
}

/** Draws the part of a rail's slider that takes the focus and the keys. */
export function RailKeys(props: Pointing & { readonly frame: Frame }) {
  const { count, value } = props;
  const range = railRange(count, props.step);
  const band = railBand(props.frame, count.rail);
  return (
    <g
      class="pointing"
      role="slider"
      tabindex={0}
      aria-label={props.label}
      aria-orientation={isLongRail(count.rail) ? 'vertical' : 'horizontal'}
      aria-valuemin={range.least}
      aria-valuemax={range.most}
      // ARIA requires a number even before the player has chosen one. The text then says that there
      // is none.
      aria-valuenow={value ?? middleOf(range)}
      aria-valuetext={props.words(value)}
      onKeyDown={(event) => pressOnSlider({ ...props, range }, event)}
    >
      <FocusRing band={band} />
      <rect class="band" {...band} />
    </g>
  );
}

/**
 * Returns the sides to try for the readout: beside the thumb first on a long rail, above it first
 * on a short rail.
 */
function sidesOf(count: Count): readonly Side[] {
  return isLongRail(count.rail)
    ? ['right', 'left', 'above', 'below']
    : ['above', 'right', 'left', 'below'];
}

export function RailReadout(
  props: InPicture & Pick<Pointing, 'count' | 'value' | 'step'> & { readonly finger: Finger },
) {
  const { frame, count, value, step } = props;
  if (value === null) return null;
  const vertical = isLongRail(count.rail);
  return (
    <Readout
      finger={props.finger}
      box={props.box}
      value={value}
      text={formatStep(value, step)}
      range={railRange(count, step)}
      sides={sidesOf(count)}
      stretch={{ vertical, rising: risesInPicture(frame, count) }}
    />
  );
}

/** Returns whether a rail's numbers rise to the right or downward in the picture. */
function risesInPicture(frame: Frame, count: Count): boolean {
  const a = spot(frame, pointAt(frame.table, count, 0));
  const b = spot(frame, pointAt(frame.table, count, 1));
  return b.x + b.y > a.x + a.y;
}

/**
 * Draws the focus ring as a dark and a light line, so that it is visible on paper, rail and cloth.
 */
function FocusRing({ band }: { readonly band: Box }) {
  const inside = {
    x: tidy(band.x + 12),
    y: tidy(band.y + 12),
    width: tidy(band.width - 24),
    height: tidy(band.height - 24),
    rx: 40,
  };
  return (
    <g class="focus-ring">
      <rect class="edge" {...inside} />
      <rect {...inside} />
    </g>
  );
}
