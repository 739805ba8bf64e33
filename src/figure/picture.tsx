import type { ComponentChildren } from 'preact';
import type { Count } from '../table/index.ts';
import { type Frame, viewBox } from './frame.ts';
import { Silent } from './silent.tsx';

interface PictureProps {
  readonly frame: Frame;
  /** What screen readers say instead of the picture, or its name if they find something in it. */
  readonly label: string;
  /** Rails whose diamonds are numbered. */
  readonly counts: readonly Count[];
  readonly children: ComponentChildren;
  /** What a screen reader finds in the picture; it ignores the children of an image. */
  readonly heard?: ComponentChildren;
}

/** The frame of a table drawn to scale. */
export function Picture({ frame, label, counts, children, heard }: PictureProps) {
  const { x, y, width, height } = viewBox(frame, counts);
  return (
    <svg
      class="table-figure"
      viewBox={`${x} ${y} ${width} ${height}`}
      role={heard ? 'group' : 'img'}
      aria-label={label}
      {...(frame.lettering ? { style: { '--lettering': frame.lettering } } : {})}
    >
      <Silent>{children}</Silent>
      {heard}
    </svg>
  );
}
