import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import { lastRevision } from '../../charts/index.ts';
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
import type { Editing } from '../state/editing/editing.ts';
import { typedKey } from '../state/editing/typed-texts.ts';

export type SavingModel = SigningModel & EffectsModel;

interface PanelProps {
  readonly model: SavingModel;
  readonly editing: Editing;
  /** Closes the panel. @param said what was saved; null if nothing was */
  readonly close: (said: string | null) => void;
}

/**
 * Saves a revision. First it shows the effect on memory, and asks who makes the revision and why.
 */
export function SavePanel({ model, editing, close }: PanelProps) {
  const signing = useSigning(model, '');
  const [problem, setProblem] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const head = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    head.current?.focus();
    head.current?.closest('form')?.scrollIntoView({ block: 'center' });
  }, []);
  const save = async (event: Event): Promise<void> => {
    event.preventDefault();
    const fault = unreadable(editing) ?? signing.missing;
    setProblem(fault);
    if (fault !== null || busy) return;
    setBusy(true);
    const said = await saveRevision(editing, signing);
    setBusy(false);
    if (said.ok) close(said.say);
    else setProblem(said.say);
  };
  return (
    <form class="sheet save-panel" aria-labelledby="save-title" onSubmit={save}>
      <h2 id="save-title" tabIndex={-1} ref={head}>
        Save as a revision
      </h2>
      <EffectLine model={model} editing={editing} />
      <SignatureFields signing={signing} />
      <Problem say={problem} />
      <div class="actions">
        <button type="submit" class="key call" disabled={busy || signing.missing !== null}>
          {busy ? 'Saving' : 'Save the revision'}
        </button>
        <button type="button" class="key" onClick={() => close(null)}>
          Not yet
        </button>
      </div>
    </form>
  );
}

/**
 * Names a cell whose text is not a number, because such a cell prevents saving; null if there is
 * none.
 */
function unreadable(editing: Editing): string | null {
  const [bad] = editing.faulty.peek();
  return bad
    ? `${typedKey(bad)} holds no number that can be used: mend it or empty it first.`
    : null;
}

async function saveRevision(
  editing: Editing,
  signing: Signing,
): Promise<{ readonly ok: boolean; readonly say: string }> {
  try {
    // Store the name first, so that nothing can fail once the revision is written.
    await signing.remember();
    const saved = await editing.save(signing.signature);
    if (!saved.ok) return saved;
    const { number } = lastRevision(editing.document.peek());
    return { ok: true, say: `Saved as revision ${number}.` };
  } catch (error) {
    return { ok: false, say: notSaved(error) };
  }
}

/** Says what saving does to memory, which takes a moment to compute. */
function EffectLine({ model, editing }: Pick<PanelProps, 'model' | 'editing'>) {
  const { now } = editing.draft.value;
  const document = editing.document.value;
  // The effect depends on the changes, not on the signature.
  const revised = useMemo(
    () => editing.revised({ date: model.date(), author: '-', why: '-' }),
    [document, now],
  );
  const effects = useEffects(model, revised);
  return (
    <p role="status">
      {effects ? effectWords(effects) : 'Working out what it does to your memory'}
    </p>
  );
}
