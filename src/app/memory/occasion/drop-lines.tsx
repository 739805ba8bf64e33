import { useState } from 'preact/hooks';
import type { LineCard } from '../../../cards/index.ts';
import { markLine } from '../../../quiz/index.ts';
import type { Model } from '../../state/model.ts';
import { linesByPattern } from './words.ts';

/** The keyboard goes on where something new came up. */
function focusOn(element: HTMLElement | null): void {
  element?.focus();
}

/** Lines that a plan gives up, and a way to set them aside, in two steps. */
export function DropLines(props: { readonly model: Model; readonly lines: readonly LineCard[] }) {
  const { model, lines } = props;
  const [asked, setAsked] = useState(false);
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState<string | null>(null);
  const what = lines.length === 1 ? 'this line' : `these ${lines.length} lines`;
  const setAside = async (): Promise<void> => {
    setBusy(true);
    let said: string | null = null;
    for (const { lineId } of lines) {
      said = await markLine(model, { type: 'set aside', line: lineId, aside: true });
      // What is set aside by then stays so; pressing again goes on with the others.
      if (said) break;
    }
    setProblem(said);
    setBusy(false);
    if (!said) setAsked(false);
  };
  return (
    <div class="stack">
      <ul class="bulleted">
        {linesByPattern(lines).map((words) => (
          <li key={words}>{words}</li>
        ))}
      </ul>
      {asked ? (
        <div class="stack" tabIndex={-1} ref={focusOn}>
          <p>Set aside, they are not asked until you take them in again, on Charts.</p>
          <div class="actions">
            <button type="button" class="key call" disabled={busy} onClick={() => void setAside()}>
              Set them aside
            </button>
            <button type="button" class="key" disabled={busy} onClick={() => setAsked(false)}>
              Keep them
            </button>
          </div>
        </div>
      ) : (
        <button type="button" class="key" onClick={() => setAsked(true)}>
          Set {what} aside …
        </button>
      )}
      {problem && (
        <p class="problem" role="alert">
          {problem}
        </p>
      )}
    </div>
  );
}
