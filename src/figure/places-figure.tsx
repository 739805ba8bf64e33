import { BareTable } from './bare-table.tsx';
import type { FigureMark } from './drawn.ts';
import type { Frame } from './frame.ts';
import { Mark } from './marks.tsx';
import { Picture } from './picture.tsx';

export interface PlacesFigureProps {
  readonly frame: Frame;
  /** What screen readers say instead of the picture. */
  readonly label: string;
  readonly marks: readonly FigureMark[];
}

/**
 * Draws a table with places on its rails. The code is kept small because the first screen loads it.
 */
export function PlacesFigure({ frame, label, marks }: PlacesFigureProps) {
  return (
    <Picture frame={frame} label={label} counts={[]}>
      <BareTable frame={frame} hatching={undefined} />
      {marks.map((mark) => (
        <Mark
          key={`${mark.tone} ${mark.count.rail} ${mark.count.from} ${mark.diamond}`}
          frame={frame}
          mark={mark}
          marks={marks}
        />
      ))}
    </Picture>
  );
}
