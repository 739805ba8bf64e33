/** Draws counts, marks and their labels, on and outside the rails. */

import {
  type Count,
  divisions,
  isLongRail,
  pointAt,
  sightAt,
  type Target,
  targetPoint,
} from '../table/index.ts';
import type { FigureAim, FigureMark } from './drawn.ts';
import { type Frame, holes, letteringOf, MARGIN, RAIL, spot, tidy } from './frame.ts';

/** The width of a drawn character, and the room between two labels side by side, in millimeters. */
const CHARACTER = 52;
const ROOM = 29;
/**
 * The distance between the middles of two stacked labels, or of a label and a diamond's number, in
 * millimeters.
 */
const ABOVE = { label: 114, diamond: 92 } as const;

/**
 * Returns how far a label must be from another label, or from a diamond's number, in diamonds.
 * Labels are stacked beside a long rail and side by side at a short one.
 */
function labelGap(
  frame: Frame,
  { rail }: Count,
  [one, other]: readonly [string, string],
  kind: keyof typeof ABOVE,
): number {
  const { table } = frame;
  const long = isLongRail(rail);
  const gap = long ? ABOVE[kind] : ((one.length + other.length) / 2) * CHARACTER + ROOM;
  const diamond = ((long ? table.length : table.width) * 1000) / divisions(rail);
  return (gap * letteringOf(frame)) / diamond;
}

/**
 * Returns where a mark's label goes: at its diamond, or moved aside from the number of the chart's
 * line.
 */
function labelDiamond(frame: Frame, mark: FigureMark, marks: readonly FigureMark[]): number {
  const line = marks.find((one) => one.tone === 'true' && one.label !== undefined);
  if (mark.tone !== 'yours' || !line || line.count.rail !== mark.count.rail) return mark.diamond;
  const apart = mark.diamond - line.diamond;
  const gap = labelGap(frame, mark.count, [mark.label ?? '', line.label ?? ''], 'label');
  return Math.abs(apart) >= gap ? mark.diamond : line.diamond + (apart < 0 ? -gap : gap);
}

/**
 * Draws the numbers of a rail's diamonds, outside the rail. A marked diamond has its own label
 * instead.
 */
export function CountLabels(props: {
  readonly frame: Frame;
  readonly count: Count;
  readonly marks: readonly FigureMark[];
}) {
  const { frame, count, marks } = props;
  const taken = marks.filter((mark) => mark.label && mark.count.rail === count.rail);
  const isFree = (diamond: number) =>
    taken.every((mark) => {
      const apart = Math.abs(labelDiamond(frame, mark, marks) - diamond);
      return apart > labelGap(frame, count, [mark.label ?? '', String(diamond)], 'diamond');
    });
  const diamonds = Array.from({ length: divisions(count.rail) + 1 }, (_, n) => n).filter(isFree);
  return (
    <g class="counts">
      {diamonds.map((diamond) => {
        const { x, y, anchor } = outside(frame, count, diamond);
        return (
          <text key={diamond} x={tidy(x)} y={tidy(y)} dy="0.36em" text-anchor={anchor}>
            {diamond}
          </text>
        );
      })}
    </g>
  );
}

/** Returns a label's place outside the wooden rail, level with a diamond, and its text anchor. */
function outside(frame: Frame, count: Count, diamond: number) {
  const beyond = (isLongRail(count.rail) ? 26 : MARGIN / 2) * letteringOf(frame);
  const place = spot(frame, pointAt(frame.table, count, diamond, (RAIL + beyond) / 1000));
  const anchor = isLongRail(count.rail) ? (place.x < 0 ? 'end' : 'start') : 'middle';
  return { ...place, anchor: anchor as 'start' | 'middle' | 'end' };
}

/** Draws a ring around the target: a pocket, or the place of a ball. */
export function TargetRing({ frame, target }: { readonly frame: Frame; readonly target: Target }) {
  const ring = ringAt(frame, target);
  if (!ring) return null;
  // The dark edge is visible on the pale rail, the light one on the cloth.
  return (
    <g class="target">
      <circle class="edge" {...ring} />
      <circle {...ring} />
    </g>
  );
}

function ringAt(frame: Frame, target: Target): { cx: number; cy: number; r: number } | null {
  if (target.kind === 'rail') {
    const { x, y } = spot(frame, targetPoint(frame.table, target));
    return { cx: x, cy: y, r: frame.table.ballRadius * 1000 + 26 };
  }
  const hole = holes(frame).find((one) => one.pocket === target.pocket);
  return hole ? { cx: hole.x, cy: hole.y, r: hole.r + 26 } : null;
}

export function AimLine({ frame, aim }: { readonly frame: Frame; readonly aim: FigureAim }) {
  const from = spot(frame, sightAt(frame.table, aim.from.count, aim.from.diamond));
  const through = spot(frame, sightAt(frame.table, aim.through.count, aim.through.diamond));
  return (
    <line
      class={`aim ${aim.tone}`}
      x1={tidy(from.x)}
      y1={tidy(from.y)}
      x2={tidy(through.x)}
      y2={tidy(through.y)}
    />
  );
}

interface MarkProps {
  readonly frame: Frame;
  readonly mark: FigureMark;
  readonly marks: readonly FigureMark[];
}

export function Mark({ frame, mark, marks }: MarkProps) {
  const at = spot(frame, sightAt(frame.table, mark.count, mark.diamond));
  return (
    <g class={`mark ${mark.tone}`}>
      <circle cx={tidy(at.x)} cy={tidy(at.y)} r="27" />
      <MarkLabel frame={frame} mark={mark} marks={marks} />
    </g>
  );
}

/** Draws the chosen number as an arrowhead over the sight, with its tip toward the nose. */
export function PointedMark({ frame, mark, marks }: MarkProps) {
  const at = spot(frame, sightAt(frame.table, mark.count, mark.diamond));
  const nose = spot(frame, pointAt(frame.table, mark.count, mark.diamond));
  // The sight is straight behind the nose, so the arrowhead is turned by a multiple of a right
  // angle.
  const turn = Math.round((Math.atan2(nose.y - at.y, nose.x - at.x) * 180) / Math.PI);
  return (
    <g class={`mark ${mark.tone}`}>
      <path
        class="arrow"
        transform={`translate(${tidy(at.x)} ${tidy(at.y)}) rotate(${turn})`}
        d="M68 0L8 -40L-44 -40L-44 40L8 40Z"
      />
      <MarkLabel frame={frame} mark={mark} marks={marks} />
    </g>
  );
}

function MarkLabel({ frame, mark, marks }: MarkProps) {
  if (!mark.label) return null;
  const label = outside(frame, mark.count, labelDiamond(frame, mark, marks));
  return (
    <text x={tidy(label.x)} y={tidy(label.y)} dy="0.36em" text-anchor={label.anchor}>
      {mark.label}
    </text>
  );
}
