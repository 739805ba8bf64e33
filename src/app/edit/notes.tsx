import { isolated, type Revision } from '../../charts/index.ts';
import { Page } from '../parts/page.tsx';
import { Problem } from '../parts/saving.tsx';
import type { Editing } from '../state/editing/editing.ts';

/**
 * Shown in place of the editor if an earlier page left unsaved changes. The player resumes or
 * discards them.
 */
export function Unsaved({ editing, title }: { readonly editing: Editing; readonly title: string }) {
  const found = editing.found.value;
  if (found === null || found === 'loading') return <main class="page" aria-busy="true" />;
  return (
    <Page title={title}>
      <section class="sheet unsaved" aria-label="Unsaved changes">
        <p>
          You have unsaved changes
          {found.from ? ` from ${revisionWords(found.from)}` : ' from an earlier revision'}.
        </p>
        <div class="actions">
          <button type="button" class="key call" onClick={editing.resume}>
            Continue with them
          </button>
          <button type="button" class="key" onClick={editing.discard}>
            Throw them away
          </button>
        </div>
      </section>
    </Page>
  );
}

function revisionWords({ number, date }: Revision): string {
  return `revision ${number} of ${date}`;
}

/** Warns if the chart has a newer revision, or if the draft cannot be stored. */
export function EditingNotes({ editing }: { readonly editing: Editing }) {
  const newer = editing.newer.value;
  return (
    <>
      <Problem say={editing.problem.value} />
      {newer && (
        <section class="sheet unsaved" aria-label="The chart went on" role="status">
          <p>
            The chart went on meanwhile to {revisionWords(newer)}, by {isolated(newer.author)}:{' '}
            {isolated(newer.why)}
          </p>
          <p class="soft-words">
            Carried over, your changes stand on it; where both changed the same, yours holds.
          </p>
          <div class="actions">
            <button type="button" class="key call" onClick={editing.rebase}>
              Carry my changes over
            </button>
            <button type="button" class="key" onClick={editing.discard}>
              Throw my changes away
            </button>
          </div>
        </section>
      )}
    </>
  );
}
