import type { RehearsalDraft } from '../../scheduler/index.ts';
import { formatScreen } from '../router.ts';

/** Links to the rehearsal that is under way. */
export function RehearsalLine({ draft }: { readonly draft: RehearsalDraft | null }) {
  if (!draft) return null;
  return (
    <a class="sheet rehearsal-line" href={formatScreen({ name: 'rehearsal' })}>
      <strong>A rehearsal is under way</strong>
      <span class="soft-words">
        {draft.answers.length} of {draft.cards.length} answered
      </span>
    </a>
  );
}
