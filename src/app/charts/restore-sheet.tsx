import { useMemo, useState } from 'preact/hooks';
import { type ChartDocument, type Revision, restore } from '../../charts/index.ts';
import { notSaved } from '../../quiz/index.ts';
import { effectWords } from '../parts/changes/effect-words.ts';
import { type EffectsModel, useEffects } from '../parts/changes/known-effects.ts';
import { Problem } from '../parts/saving.tsx';
import {
  SignatureFields,
  type Signing,
  type SigningModel,
  useSigning,
} from '../parts/signature.tsx';
import type { Saved } from '../state/chart-ports.ts';
import type { Model } from '../state/model.ts';

export type RestoringModel = SigningModel & EffectsModel & Pick<Model, 'keepChart'>;

interface RestoreProps {
  readonly model: RestoringModel;
  readonly document: ChartDocument;
  readonly revision: Revision;
  /** Called with words for what was restored, or with an empty text if the player canceled. */
  readonly onDone: (words: string) => void;
}

/**
 * Restores a revision. First it shows the effect on memory, and asks who restores the revision and
 * why.
 */
export function RestoreSheet(props: RestoreProps) {
  const { model, document, revision, onDone } = props;
  const { number } = revision;
  const signing = useSigning(model, `Back to revision ${number}.`);
  // The effect depends on the restored state, not on the signature.
  const restored = useMemo(
    () => restore(document, number, { date: revision.date, author: '-', why: '-' }),
    [document, number],
  );
  const effects = useEffects(model, restored);
  const { problem, busy, save } = useRestoring(props, signing);
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
      <Problem say={problem} />
    </section>
  );
}

function useRestoring({ model, document, revision, onDone }: RestoreProps, signing: Signing) {
  const [problem, setProblem] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const { number } = revision;
  const save = async (): Promise<void> => {
    setBusy(true);
    try {
      const signed = restore(document, number, signing.signature);
      if (!signed) throw new Error(`no revision ${number}`);
      await signing.remember();
      const saved = model.charts.peek().includes(document)
        ? await model.keepChart(signed)
        : CHANGED;
      if (saved.ok) onDone(`Revision ${number} is restored.`);
      else setProblem(saved.say);
    } catch (error) {
      setProblem(notSaved(error));
    } finally {
      setBusy(false);
    }
  };
  return { problem, busy, save };
}

const CHANGED: Saved = {
  ok: false,
  say: 'The chart was changed in another tab or window meanwhile. Nothing was saved.',
};
