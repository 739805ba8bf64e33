import {
  type Count,
  divisions,
  isLongRail,
  type Point,
  pointAt,
  RAILS,
  type Rail,
  type Stretch,
  sightAt,
  type Table,
  type Target,
  targetPoint,
} from '../table/index.ts';
import {
  CUSHION,
  cushions,
  type Frame,
  holes,
  MARGIN,
  pathData,
  RAIL,
  spot,
  tidy,
  viewBox,
} from './frame.ts';

/** `true`: the chart's line. `yours`: what the player's number does. The rest: the three speeds. */
export type Tone = 'true' | 'yours' | 'soft' | 'medium' | 'firm';

export interface FigurePath {
  readonly tone: Tone;
  readonly stretches: readonly Stretch[];
}

/** A sight, or a point between two, that a line is aimed from or through. */
export interface FigureMark {
  readonly tone: Tone | 'start';
  readonly count: Count;
  readonly diamond: number;
  readonly label?: string;
}

/** The straight that a line is named by: from sight to sight. */
export interface FigureAim {
  readonly tone: Tone;
  readonly from: { readonly count: Count; readonly diamond: number };
  readonly through: { readonly count: Count; readonly diamond: number };
}

export interface TableFigureProps {
  readonly frame: Frame;
  /** Said by screen readers in place of the picture. */
  readonly label: string;
  /** Rails whose diamonds are written out. */
  readonly counts: readonly Count[];
  readonly ball?: Point | null;
  readonly target?: Target | null;
  readonly paths?: readonly FigurePath[];
  readonly aims?: readonly FigureAim[];
  readonly marks?: readonly FigureMark[];
}

/** A table drawn to scale. */
export function TableFigure(props: TableFigureProps) {
  const { frame } = props;
  const box = viewBox(frame, props.counts);
  return (
    <svg
      class="table-figure"
      viewBox={`${box.x} ${box.y} ${box.width} ${box.height}`}
      role="img"
      aria-label={props.label}
    >
      <Bed table={frame.table} />
      {holes(frame).map((hole) => (
        <circle key={hole.pocket} class="hole" cx={hole.x} cy={hole.y} r={hole.r} />
      ))}
      <Cushions table={frame.table} />
      <Sights frame={frame} />
      {props.counts.map((count) => (
        <CountLabels key={count.rail} frame={frame} count={count} marks={props.marks ?? []} />
      ))}
      {props.target && <TargetRing frame={frame} target={props.target} />}
      {props.aims?.map((aim) => (
        <AimLine key={aim.tone} frame={frame} aim={aim} />
      ))}
      {props.paths?.map((path) => (
        <path key={path.tone} class={`way ${path.tone}`} d={pathData(frame, path.stretches)} />
      ))}
      {props.marks?.map((mark) => (
        <Mark
          key={`${mark.tone}${mark.diamond}`}
          frame={frame}
          mark={mark}
          marks={props.marks ?? []}
        />
      ))}
      {props.ball && <BallAt frame={frame} at={props.ball} />}
    </svg>
  );
}

function Bed({ table }: { readonly table: Table }) {
  const W = table.width * 1000;
  const L = table.length * 1000;
  return (
    <>
      <rect class="rail" x={-RAIL} y={-RAIL} width={W + 2 * RAIL} height={L + 2 * RAIL} rx="70" />
      <rect
        class="slot"
        x={-CUSHION}
        y={-CUSHION}
        width={W + 2 * CUSHION}
        height={L + 2 * CUSHION}
      />
      <rect class="cloth" width={W} height={L} />
    </>
  );
}

function Cushions({ table }: { readonly table: Table }) {
  return (
    <g class="cushions">
      {cushions(table).map((points) => (
        <polygon key={points} points={points} />
      ))}
    </g>
  );
}

function Sights({ frame }: { readonly frame: Frame }) {
  const sights = RAILS.flatMap((rail) => {
    const last = divisions(rail);
    const inner = Array.from({ length: last - 1 }, (_, n) => n + 1);
    return inner
      .filter((diamond) => !(isLongRail(rail) && diamond === 4))
      .map((diamond) => spot(frame, sightAt(frame.table, countOf(rail), diamond)));
  });
  return (
    <g class="sights">
      {sights.map(({ x, y }) => (
        <path key={`${x} ${y}`} d={`M${tidy(x)} ${tidy(y - 15)}l15 15l-15 15l-15 -15z`} />
      ))}
    </g>
  );
}

function countOf(rail: Rail): Count {
  return { rail, from: isLongRail(rail) ? 'foot' : 'left' };
}

/** How far apart two labels of a rail must stand, diamonds. */
function labelGap(count: Count): number {
  return isLongRail(count.rail) ? 0.36 : 0.58;
}

/** Where a mark's label stands: at its diamond, or moved aside from the line's own number. */
function labelDiamond(mark: FigureMark, marks: readonly FigureMark[]): number {
  const line = marks.find((one) => one.tone === 'true' && one.label !== undefined);
  if (mark.tone !== 'yours' || !line || line.count.rail !== mark.count.rail) return mark.diamond;
  const apart = mark.diamond - line.diamond;
  const gap = labelGap(mark.count);
  return Math.abs(apart) >= gap ? mark.diamond : line.diamond + (apart < 0 ? -gap : gap);
}

/** The diamonds of a rail in its count, outside the rail. A marked diamond carries its own label. */
function CountLabels(props: {
  readonly frame: Frame;
  readonly count: Count;
  readonly marks: readonly FigureMark[];
}) {
  const { frame, count, marks } = props;
  const taken = marks
    .filter((mark) => mark.label && mark.count.rail === count.rail)
    .map((mark) => labelDiamond(mark, marks));
  const diamonds = Array.from({ length: divisions(count.rail) + 1 }, (_, n) => n).filter(
    (diamond) => taken.every((place) => Math.abs(place - diamond) > labelGap(count) * 0.8),
  );
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

/** Where a label stands outside the wooden rail, level with a diamond, and how it is anchored. */
function outside(frame: Frame, count: Count, diamond: number) {
  const beyond = isLongRail(count.rail) ? 26 : MARGIN / 2;
  const place = spot(frame, pointAt(frame.table, count, diamond, (RAIL + beyond) / 1000));
  const anchor = isLongRail(count.rail) ? (place.x < 0 ? 'end' : 'start') : 'middle';
  return { ...place, anchor: anchor as 'start' | 'middle' | 'end' };
}

/** A ring around the pocket, or around the place of a ball that touches the rail at the target. */
function TargetRing({ frame, target }: { readonly frame: Frame; readonly target: Target }) {
  const ring = ringAt(frame, target);
  if (!ring) return null;
  // The dark edge shows the ring on the pale rail, the light one on the cloth.
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

function AimLine({ frame, aim }: { readonly frame: Frame; readonly aim: FigureAim }) {
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

function Mark(props: {
  readonly frame: Frame;
  readonly mark: FigureMark;
  readonly marks: readonly FigureMark[];
}) {
  const { frame, mark, marks } = props;
  const at = spot(frame, sightAt(frame.table, mark.count, mark.diamond));
  const label = outside(frame, mark.count, labelDiamond(mark, marks));
  return (
    <g class={`mark ${mark.tone}`}>
      <circle cx={tidy(at.x)} cy={tidy(at.y)} r="27" />
      {mark.label && (
        <text x={tidy(label.x)} y={tidy(label.y)} dy="0.36em" text-anchor={label.anchor}>
          {mark.label}
        </text>
      )}
    </g>
  );
}

function BallAt({ frame, at }: { readonly frame: Frame; readonly at: Point }) {
  const { x, y } = spot(frame, at);
  const r = frame.table.ballRadius * 1000;
  return (
    <g class="ball">
      <circle cx={tidy(x)} cy={tidy(y)} r={tidy(r)} />
    </g>
  );
}
