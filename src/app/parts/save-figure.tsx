import { useState } from 'preact/hooks';
import type { Files } from '../device/files.ts';
import { pictureOf, pixelsOf } from '../device/picture-file.ts';
import { Problem } from './saving.tsx';

const KINDS = ['svg', 'png'] as const;
type Kind = (typeof KINDS)[number];

/** Buttons that save the figure beside them as a file, as it is drawn now. */
export function SaveFigure({ files, name }: { readonly files: Files; readonly name: string }) {
  const [problem, setProblem] = useState<string | null>(null);
  const save = async (from: HTMLElement, kind: Kind): Promise<void> => {
    try {
      files.save(`${name}.${kind}`, await pictureFile(from, kind));
      setProblem(null);
    } catch (error) {
      const why = error instanceof Error ? error.message : String(error);
      setProblem(`The picture could not be made: ${why}.`);
    }
  };
  return (
    <div class="save-figure">
      <span>Save the picture:</span>
      {KINDS.map((kind) => (
        <button
          key={kind}
          type="button"
          class="plain"
          aria-label={`Save the picture as ${kind.toUpperCase()}`}
          onClick={(event) => void save(event.currentTarget, kind)}
        >
          {kind.toUpperCase()}
        </button>
      ))}
      <Problem say={problem} />
    </div>
  );
}

async function pictureFile(from: HTMLElement, kind: Kind): Promise<Blob> {
  const picture = pictureOf(figureBeside(from));
  if (kind === 'png') return pixelsOf(picture);
  return new Blob([picture.svg], { type: 'image/svg+xml' });
}

function figureBeside(element: HTMLElement): SVGSVGElement {
  const part = element.closest('[data-figures], main');
  const figure = part?.querySelector<SVGSVGElement>('svg.table-figure, svg.error-plot');
  if (!figure) throw new Error('there is no figure here');
  return figure;
}
