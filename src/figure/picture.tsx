import type { ComponentChildren } from 'preact';
import type { Count } from '../table/index.ts';
import { type Frame, viewBox } from './frame.ts';
import { Silent } from './silent.tsx';

interface PictureProps {
  readonly frame: Frame;
  /** Said by screen readers in place of the picture, or as its name if something in it is heard. */
  readonly label: string;
  /** Rails whose diamonds are written out. */
  readonly counts: readonly Count[];
  /** What is drawn. */
  readonly children: ComponentChildren;
  /** What a screen reader finds in the picture: the children of an image do not exist for it. */
  readonly heard?: ComponentChildren;
}

/** The room around a table drawn to scale. */
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
