import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import { lastRevision } from '../../charts/index.ts';
import { notSaved } from '../../quiz/index.ts';
import { effectWords } from '../parts/changes/effect-words.ts';
import { useEffects } from '../parts/changes/known-effects.ts';
import { SignatureFields, type Signing, useSigning } from '../parts/signature.tsx';
import type { Editing } from '../state/editing/editing.ts';
import { typedKey } from '../state/editing/typed-texts.ts';
import type { Model } from '../state/model.ts';

interface PanelProps {
  readonly model: Model;
  readonly editing: Editing;
  /** @param said what came of it; null if nothing was saved */
  readonly close: (said: string | null) => void;
}

/** Before a revision is saved: what it does to memory, by whom it is, and why. */
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
    const said = await saved(editing, signing);
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
      {problem && (
        <p class="problem" role="alert">
          {problem}
        </p>
      )}
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

/** A cell whose text is no number: nothing is saved until it is. */
function unreadable(editing: Editing): string | null {
  const [bad] = editing.faulty.peek();
  return bad
    ? `${typedKey(bad)} holds no number that can be used: mend it or empty it first.`
    : null;
}

async function saved(
  editing: Editing,
  signing: Signing,
): Promise<{ readonly ok: boolean; readonly say: string }> {
  try {
    // First the name, so that nothing can go wrong once the revision is written.
    await signing.remember();
    const kept = await editing.save(signing.signature);
    if (!kept.ok) return kept;
    const { number } = lastRevision(editing.document.peek());
    return { ok: true, say: `Saved as revision ${number}.` };
  } catch (error) {
    return { ok: false, say: notSaved(error) };
  }
}

/** What saving does to memory; it takes a moment to work out. */
function EffectLine({ model, editing }: Pick<PanelProps, 'model' | 'editing'>) {
  const { now } = editing.draft.value;
  const document = editing.document.value;
  // What it does hangs on what is changed, not on who signs for it.
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
