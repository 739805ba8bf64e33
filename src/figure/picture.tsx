import type { ComponentChildren } from 'preact';
import type { Count } from '../table/index.ts';
import { type Frame, viewBox } from './frame.ts';
import { Silent } from './silent.tsx';

interface PictureProps {
  readonly frame: Frame;
  /**
   * What screen readers say instead of the picture; or the picture's name, if it contains something
   * for them.
   */
  readonly label: string;
  /** The rails with numbered diamonds. */
  readonly counts: readonly Count[];
  readonly children: ComponentChildren;
  /**
   * The part of the picture that screen readers can reach. They ignore the children of an image.
   */
  readonly heard?: ComponentChildren;
}

/** Draws the frame of a picture of a table drawn to scale. */
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
