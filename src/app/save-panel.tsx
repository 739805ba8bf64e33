import { useEffect, useRef, useState } from 'preact/hooks';
import type { ChartDocument } from '../charts/index.ts';
import { notSaved } from '../quiz/index.ts';
import type { Editing } from './editing.ts';
import { effectWords } from './effect-words.ts';
import type { Model } from './model.ts';

interface PanelProps {
  readonly model: Model;
  readonly editing: Editing;
  /** @param said what came of it; null if nothing was saved */
  readonly close: (said: string | null) => void;
}

/** Before a revision is saved: what it does to memory, by whom it is, and why. */
export function SavePanel({ model, editing, close }: PanelProps) {
  const [author, setAuthor] = useState(model.settings.peek().author);
  const [why, setWhy] = useState('');
  const [problem, setProblem] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const head = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    head.current?.focus();
    head.current?.scrollIntoView({ block: 'center' });
  }, []);
  const save = async (event: Event): Promise<void> => {
    event.preventDefault();
    const fault = faultOf(editing, author, why);
    setProblem(fault);
    if (fault !== null || busy) return;
    setBusy(true);
    const signature = { date: model.date(), author: author.trim(), why: why.trim() };
    const said = await saved(model, editing, signature);
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
      <Field label="Your name" most={80} value={author} set={setAuthor} />
      <Field label="Why" most={400} value={why} set={setWhy} />
      {problem && (
        <p class="problem" role="alert">
          {problem}
        </p>
      )}
      <div class="actions">
        <button type="submit" class="key call" disabled={busy}>
          {busy ? 'Saving' : 'Save the revision'}
        </button>
        <button type="button" class="key" onClick={() => close(null)}>
          Not yet
        </button>
      </div>
    </form>
  );
}

function Field(props: {
  readonly label: string;
  readonly most: number;
  readonly value: string;
  readonly set: (text: string) => void;
}) {
  const { label, most, value, set } = props;
  return (
    <label class="field">
      <span>{label}</span>
      <input
        type="text"
        maxLength={most}
        value={value}
        onInput={(event) => set(event.currentTarget.value)}
      />
    </label>
  );
}

/** Why it cannot be saved as it stands. */
function faultOf(editing: Editing, author: string, why: string): string | null {
  const bad = [...editing.typed.peek()].find(([, { isNumber }]) => !isNumber);
  if (bad) return `${bad[0]} holds no number that can be read: mend it or empty it first.`;
  if (author.trim() === '') return 'Type your name, so that others know whose revision it is.';
  if (why.trim() === '') return 'Say why, in a few words: it is what others read first.';
  return null;
}

async function saved(
  model: Model,
  editing: Editing,
  signature: Parameters<Editing['save']>[0],
): Promise<{ readonly ok: boolean; readonly say: string }> {
  try {
    const kept = await editing.save(signature);
    if (!kept.ok) return kept;
    const { author } = signature;
    if (model.settings.peek().author !== author) await model.changeSettings({ author });
    return { ok: true, say: `Saved as revision ${numberOf(editing.document.peek())}.` };
  } catch (error) {
    return { ok: false, say: notSaved(error) };
  }
}

function numberOf({ revisions }: ChartDocument): number {
  return revisions.at(-1)?.number ?? 0;
}

/** What saving does to memory: worked out after it is said that it is, for it takes a moment. */
function EffectLine({ model, editing }: Pick<PanelProps, 'model' | 'editing'>) {
  const { now } = editing.draft.value;
  const [words, setWords] = useState<string | null>(null);
  useEffect(() => {
    let wanted = true;
    const work = async (): Promise<void> => {
      const said = await effectLine(model, editing);
      if (wanted) setWords(said);
    };
    setWords(null);
    const callOff = afterPaint(() => void work());
    return () => {
      wanted = false;
      callOff();
    };
  }, [now]);
  return (
    <p class="effect" role="status">
      {words ?? 'Working out what it does to your memory'}
    </p>
  );
}

async function effectLine(model: Model, editing: Editing): Promise<string> {
  try {
    const document = editing.revised({ date: model.date(), author: '–', why: '–' });
    const effects = await model.effectsIf(document);
    return effects ? effectWords(effects) : 'This chart is new: nothing of it is remembered.';
  } catch {
    return 'What it does to your memory could not be worked out.';
  }
}

/** @returns calls it off */
function afterPaint(act: () => void): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const frame = requestAnimationFrame(() => {
    timer = setTimeout(act);
  });
  return () => {
    cancelAnimationFrame(frame);
    clearTimeout(timer);
  };
}
