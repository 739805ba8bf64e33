import type { Count, Point, Target } from '../table/index.ts';
import { BareTable } from './bare-table.tsx';
import type { FigureAim, FigureMark, FigureObject, FigurePath } from './drawn.ts';
import { type Frame, pathData, spot, tidy, viewBox } from './frame.ts';
import { AimLine, CountLabels, Mark, PointedMark, TargetRing } from './marks.tsx';
import { Picture } from './picture.tsx';
import { formatStep, type Pointing, RailSlider } from './rail-slider.tsx';
import { RollingPaths, rolls } from './rolling.tsx';

export interface TableFigureProps {
  readonly frame: Frame;
  /**
   * What screen readers say instead of the picture; or the picture's name, if the player can point
   * at it.
   */
  readonly label: string;
  /** The rails with numbered diamonds. */
  readonly counts: readonly Count[];
  readonly ball?: Point | null;
  readonly target?: Target | null;
  readonly objects?: readonly FigureObject[];
  readonly paths?: readonly FigurePath[];
  readonly aims?: readonly FigureAim[];
  readonly marks?: readonly FigureMark[];
  /** A rail on which the player sets a number by finger or key. */
  readonly pointing?: Pointing;
  /**
   * If present, balls run along the paths `true` and `yours`. A different `turn` starts them again.
   */
  readonly rolling?: { readonly turn: number };
  /** SVG path data for hatching over cushions that have no color (`hatching`). */
  readonly hatching?: string;
}

/** Draws a table to scale. */
export function TableFigure(props: TableFigureProps) {
  const { frame, pointing } = props;
  const box = viewBox(frame, props.counts);
  return (
    <Picture {...props} heard={pointing && <RailSlider {...pointing} frame={frame} box={box} />}>
      <Drawing {...props} />
    </Picture>
  );
}

function Drawing(props: TableFigureProps) {
  const { frame } = props;
  const pointed = pointedMark(props.pointing);
  const marks = [...(props.marks ?? []), ...(pointed ? [pointed] : [])];
  return (
    <>
      <BareTable frame={frame} hatching={props.hatching} />
      {props.counts.map((count) => (
        <CountLabels key={count.rail} frame={frame} count={count} marks={marks} />
      ))}
      {props.target && <TargetRing frame={frame} target={props.target} />}
      {props.objects?.map((object) => (
        <ObjectBall key={`${object.at.x} ${object.at.y}`} frame={frame} object={object} />
      ))}
      {props.aims?.map((aim) => (
        <AimLine key={aim.tone} frame={frame} aim={aim} />
      ))}
      <Paths {...props} />
      {props.marks?.map((mark) => (
        <Mark
          key={`${mark.tone} ${mark.count.rail} ${mark.count.from} ${mark.diamond}`}
          frame={frame}
          mark={mark}
          marks={marks}
        />
      ))}
      {pointed && <PointedMark frame={frame} mark={pointed} marks={marks} />}
    </>
  );
}

function pointedMark(pointing: Pointing | undefined): FigureMark | null {
  if (!pointing || pointing.value === null) return null;
  const { count, value, step } = pointing;
  return { tone: 'yours', count, diamond: value, label: formatStep(value, step) };
}

/**
 * Draws the paths and the ball. There is one ball on its line, or one at the end of each rolling
 * path.
 */
function Paths({ frame, counts, paths = [], ball, rolling }: TableFigureProps) {
  const moving = rolling ? paths.filter(rolls) : [];
  const still = paths.filter((path) => !moving.includes(path));
  return (
    <>
      {still.map((path) => (
        <path key={path.tone} class={`path ${path.tone}`} d={pathData(frame, path.stretches)} />
      ))}
      {rolling && moving.length > 0 && (
        <RollingPaths
          frame={frame}
          box={viewBox(frame, counts)}
          paths={moving}
          turn={rolling.turn}
        />
      )}
      {ball && moving.length === 0 && <BallAt frame={frame} at={ball} />}
    </>
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

/** Draws another ball on the table. A band tells it from the ball being played. */
function ObjectBall({ frame, object }: { readonly frame: Frame; readonly object: FigureObject }) {
  const { x, y } = spot(frame, object.at);
  const r = frame.table.ballRadius * 1000;
  const right = x < (frame.table.width * 1000) / 2;
  return (
    <g class="object" transform={`translate(${tidy(x)} ${tidy(y)})`}>
      <circle r={tidy(r)} />
      <path d={`M${tidy(-r * 0.7)} ${tidy(r * 0.5)}L${tidy(r * 0.7)} ${tidy(-r * 0.5)}`} />
      {object.label && (
        <text x={right ? 62 : -62} dy="0.36em" text-anchor={right ? 'start' : 'end'}>
          {object.label}
        </text>
      )}
    </g>
  );
}
