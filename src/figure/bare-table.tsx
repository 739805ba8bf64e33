import './figure.css';
import { divisions, isLongRail, RAILS, sightAt, type Table } from '../table/index.ts';
import { CUSHION, countOf, cushions, type Frame, holes, RAIL, spot, tidy } from './frame.ts';

/** Draws the table with nothing on it: rails, cloth, pockets, cushions and sights. */
export function BareTable(props: {
  readonly frame: Frame;
  /** SVG path data for hatching over the cushions (`hatching`). */
  readonly hatching?: string | undefined;
}) {
  const { frame, hatching } = props;
  return (
    <>
      <Bed table={frame.table} />
      {holes(frame).map((hole) => (
        <circle key={hole.pocket} class="hole" cx={hole.x} cy={hole.y} r={hole.r} />
      ))}
      <Cushions table={frame.table} />
      {hatching && <path class="hatching" d={hatching} />}
      <Sights frame={frame} />
    </>
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
