import './hold-figure.css';
import { type Count, isLongRail, pointAt, sightAt, type Target } from '../table/index.ts';
import { BareTable } from './bare-table.tsx';
import { type Frame, letteringOf, spot, tidy, viewBox } from './frame.ts';
import { CountLabels, TargetRing } from './marks.tsx';
import { Silent } from './silent.tsx';

/** A start of a pattern, and how well the player knows its line. */
export interface HoldPlace {
  readonly diamond: number;
  /** The predicted probability of recall, 0–1; null if the line was never asked. */
  readonly hold: number | null;
  /** The diamond through which the line is aimed. */
  readonly aim: number;
}

export interface HoldFigureProps {
  readonly frame: Frame;
  /** The facts that screen readers read out instead of the picture. */
  readonly label: string;
  /** How starts and aims are counted. */
  readonly start: Count;
  readonly aim: Count;
  readonly target: Target;
  readonly places: readonly HoldPlace[];
}

/** Radii of the ring around a start and of the smallest disc in the ring, in millimeters. */
const RING = 44;
const LEAST = 9;
/** The recall at which the disc is smallest. A line below it is as good as forgotten. */
const HALF = 0.5;
/** Distance of a start's number from the nose, and distance between two numbers, in millimeters. */
const INSIDE = 60;
const APART = 84;

/**
 * Draws the starts of a pattern on their rail. The better the player knows a line, the fuller its
 * ring and the wider its stroke. The percentage is written beside it. A small dot means half or
 * less; an empty ring means that the line was never asked.
 */
export function HoldFigure(props: HoldFigureProps) {
  const { frame, start, aim, places } = props;
  const counts = start.rail === aim.rail ? [start] : [start, aim];
  const box = viewBox(frame, counts);
  const written = withRoom(frame, start, places);
  return (
    <svg
      class="table-figure holds"
      viewBox={`${box.x} ${box.y} ${box.width} ${box.height}`}
      role="img"
      aria-label={props.label}
    >
      <Silent>
        <BareTable frame={frame} />
        {counts.map((count) => (
          <CountLabels key={count.rail} frame={frame} count={count} marks={[]} />
        ))}
        <TargetRing frame={frame} target={props.target} />
        {places.map((place) => (
          <HoldLine key={place.diamond} {...{ frame, start, aim, place }} />
        ))}
        {places.map((place) => (
          <HoldRing key={place.diamond} {...{ frame, start, place }} />
        ))}
        {written.map((place) => (
          <HoldNumber key={place.diamond} {...{ frame, start, place }} />
        ))}
      </Silent>
    </svg>
  );
}

/**
 * Draws a line from sight to sight. A line that was never asked is not drawn, because that would
 * give its number away.
 */
function HoldLine(props: {
  readonly frame: Frame;
  readonly start: Count;
  readonly aim: Count;
  readonly place: HoldPlace;
}) {
  const { frame, start, aim, place } = props;
  if (place.hold === null) return null;
  const from = spot(frame, sightAt(frame.table, start, place.diamond));
  const through = spot(frame, sightAt(frame.table, aim, place.aim));
  return (
    <line
      class="hold-line"
      x1={tidy(from.x)}
      y1={tidy(from.y)}
      x2={tidy(through.x)}
      y2={tidy(through.y)}
      stroke-width={tidy(3 + 8 * strength(place.hold))}
      stroke-opacity={0.4 + 0.6 * strength(place.hold)}
    />
  );
}

interface PlaceProps {
  readonly frame: Frame;
  readonly start: Count;
  readonly place: HoldPlace;
}

function HoldRing({ frame, start, place }: PlaceProps) {
  const { x, y } = spot(frame, sightAt(frame.table, start, place.diamond));
  return (
    <g class="hold" transform={`translate(${tidy(x)} ${tidy(y)})`}>
      <circle class="ring" r={RING} />
      {place.hold !== null && (
        <circle class="disc" r={tidy(LEAST + (RING - LEAST) * strength(place.hold))} />
      )}
    </g>
  );
}

function HoldNumber({ frame, start, place }: PlaceProps) {
  const at = spot(frame, pointAt(frame.table, start, place.diamond, -INSIDE / 1000));
  const middle = (frame.table.width * 1000) / 2;
  const anchor = !isLongRail(start.rail) ? 'middle' : at.x < middle ? 'start' : 'end';
  return (
    <text class="hold-number" x={tidy(at.x)} y={tidy(at.y)} dy="0.36em" text-anchor={anchor}>
      {holdPercent(place.hold)}
    </text>
  );
}

/**
 * Returns how strongly to draw a hold: 0 at half or less, 1 at certainty. This spreads out the
 * values that occur, so that differences are visible.
 */
function strength(hold: number): number {
  return Math.max(0, (hold - HALF) / (1 - HALF));
}

/** Returns a hold in percent, such as "83". It is never 100, because no line is certain. */
export function holdPercent(hold: number | null): string {
  return hold === null ? '–' : String(Math.min(99, Math.round(100 * hold)));
}

/**
 * Returns the places for which there is room to write the number. If two are too close together,
 * the number of the weaker line is kept.
 */
function withRoom(frame: Frame, start: Count, places: readonly HoldPlace[]): readonly HoldPlace[] {
  const at = ({ diamond }: HoldPlace) => {
    const { x, y } = spot(frame, pointAt(frame.table, start, diamond));
    return isLongRail(start.rail) ? y : x;
  };
  // Numbers are one above the other at a long rail and side by side at a short one.
  const gap = APART * letteringOf(frame) * (isLongRail(start.rail) ? 1 : 1.5);
  const weakest = [...places].sort((a, b) => (a.hold ?? 2) - (b.hold ?? 2));
  const written: HoldPlace[] = [];
  for (const place of weakest) {
    if (written.every((other) => Math.abs(at(other) - at(place)) >= gap)) written.push(place);
  }
  return written;
}
