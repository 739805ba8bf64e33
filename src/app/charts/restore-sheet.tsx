import { useMemo, useState } from 'preact/hooks';
import { type ChartDocument, type Revision, restore } from '../../charts/index.ts';
import { notSaved } from '../../quiz/index.ts';
import { effectWords } from '../parts/changes/effect-words.ts';
import { useEffects } from '../parts/changes/known-effects.ts';
import { SignatureFields, useSigning } from '../parts/signature.tsx';
import type { Model } from '../state/model.ts';

/** Going back to a revision: what that does to memory first, then who and why. */
export function RestoreSheet(props: {
  readonly model: Model;
  readonly document: ChartDocument;
  readonly revision: Revision;
  /** With what is to be said of it; empty if the player thought better of it. */
  readonly onDone: (words: string) => void;
}) {
  const { model, document, revision, onDone } = props;
  const { number } = revision;
  const signing = useSigning(model, `Back to revision ${number}.`);
  const [problem, setProblem] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  // What it does hangs on the state that comes back, not on who signs for it.
  const restored = useMemo(
    () => restore(document, number, { date: revision.date, author: '-', why: '-' }),
    [document, number],
  );
  const effects = useEffects(model, restored);
  const save = async (): Promise<void> => {
    setBusy(true);
    try {
      const signed = restore(document, number, signing.signature);
      if (!signed) throw new Error(`no revision ${number}`);
      await signing.remember();
      if (!model.charts.peek().includes(document)) {
        setProblem('The chart was changed in another tab or window meanwhile. Nothing was saved.');
        return;
      }
      const kept = await model.keepChart(signed);
      if (kept.ok) onDone(`Revision ${number} is restored.`);
      else setProblem(kept.say);
    } catch (error) {
      setProblem(notSaved(error));
    } finally {
      setBusy(false);
    }
  };
  return (
    <section class="restore" aria-label={`Restore revision ${number}`}>
      <p>Its numbers come back as a new revision; nothing of the others is lost.</p>
      <p role="status">{effects ? effectWords(effects) : 'Working it out'}</p>
      <SignatureFields signing={signing} />
      <div class="restore-actions">
        <button
          type="button"
          class="key call"
          disabled={busy || !effects || signing.missing !== null}
          onClick={() => void save()}
        >
          Restore it
        </button>
        <button type="button" class="key quiet" onClick={() => onDone('')}>
          Leave it
        </button>
      </div>
      {problem && (
        <p class="problem" role="alert">
          {problem}
        </p>
      )}
    </section>
  );
}
