import type { Revision } from '../../charts/index.ts';
import { isolated } from '../../charts/index.ts';
import { Page } from '../parts/page.tsx';
import type { Editing } from '../state/editing/editing.ts';

/** What stands in the way of editing: changes of another time, to go on with or to throw away. */
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
            Go on with them
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

/** The chart went on meanwhile, or the changes cannot be kept on the device. */
export function EditingNotes({ editing }: { readonly editing: Editing }) {
  const goneOn = editing.newer.value;
  const problem = editing.problem.value;
  return (
    <>
      {problem && (
        <p class="problem" role="alert">
          {problem}
        </p>
      )}
      {goneOn && (
        <section class="sheet unsaved" aria-label="The chart went on" role="status">
          <p>
            The chart went on meanwhile to {revisionWords(goneOn)}, by {isolated(goneOn.author)}:{' '}
            {isolated(goneOn.why)}
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
