import { useState } from 'preact/hooks';
import { patternOf, type SheetLine } from '../../charts/index.ts';
import { TableFigure } from '../../figure/index.ts';
import { Legend } from '../../quiz/index.ts';
import type { FlagPlayed } from '../parts/flags.ts';
import { PRINTED } from '../parts/shot.ts';
import type { SolvedSheet } from '../state/workbench.ts';
import { PatternFigure } from './figure.tsx';

/**
 * Draws the chosen line at three speeds. A flagged line is drawn with the chart's number and the
 * player's instead.
 */
export function LineFigure(props: {
  readonly worked: SolvedSheet;
  readonly line: SheetLine;
  readonly played: FlagPlayed | null;
}) {
  const { worked, line, played } = props;
  const [speeds, showSpeeds] = useState(false);
  if (!played) return <PatternFigure worked={worked} line={line} />;
  return (
    <div class="flagged-figure">
      {speeds ? (
        <PatternFigure worked={worked} line={line} />
      ) : (
        <FlagFigure worked={worked} played={played} />
      )}
      <button type="button" class="plain" onClick={() => showSpeeds(!speeds)}>
        {speeds ? 'Draw your flagged number' : 'Draw the three speeds'}
      </button>
    </div>
  );
}

function FlagFigure({
  worked,
  played,
}: {
  readonly worked: SolvedSheet;
  readonly played: FlagPlayed;
}) {
  const { start, aim } = patternOf(worked.pattern);
  const { paths, aims, marks } = played.figure;
  return (
    <div class="pattern-figure">
      <TableFigure
        frame={{ table: worked.request.setting.table, mirror: PRINTED }}
        label={`${played.yours} ${played.charts}`}
        counts={[start, aim]}
        target={worked.request.route.target}
        paths={paths}
        aims={aims}
        marks={marks}
      />
      <Legend legend="both" speed={played.speed} />
    </div>
  );
}
