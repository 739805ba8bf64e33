import { useState } from 'preact/hooks';
import type { Files } from '../device/files.ts';
import { pictureOf, pixelsOf } from '../device/picture-file.ts';

/** Saves the figure that stands beside it, in the same part of the screen, as it stands. */
export function SaveFigure({ files, name }: { readonly files: Files; readonly name: string }) {
  const [problem, setProblem] = useState<string | null>(null);
  const save = async (from: HTMLElement, kind: 'svg' | 'png'): Promise<void> => {
    try {
      const picture = pictureOf(figureBeside(from));
      const file =
        kind === 'svg'
          ? new Blob([picture.svg], { type: 'image/svg+xml' })
          : await pixelsOf(picture);
      files.save(`${name}.${kind}`, file);
      setProblem(null);
    } catch (error) {
      const why = error instanceof Error ? error.message : String(error);
      setProblem(`The picture could not be made: ${why}.`);
    }
  };
  return (
    <div class="save-figure">
      <span>Save the picture:</span>
      {(['svg', 'png'] as const).map((kind) => (
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
      {problem && (
        <p class="problem" role="alert">
          {problem}
        </p>
      )}
    </div>
  );
}

function figureBeside(element: HTMLElement): SVGSVGElement {
  const part = element.closest('[data-figures], main');
  const figure = part?.querySelector<SVGSVGElement>('svg.table-figure, svg.error-plot');
  if (!figure) throw new Error('there is no figure here');
  return figure;
}
