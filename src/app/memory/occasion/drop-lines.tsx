import { useState } from 'preact/hooks';
import type { LineCard } from '../../../cards/index.ts';
import { markLine } from '../../../quiz/index.ts';
import { Problem } from '../../parts/saving.tsx';
import { linesByPattern } from './words.ts';

type MarkingModel = Parameters<typeof markLine>[0];

/** Focuses an element that has just appeared. */
function focusOn(element: HTMLElement | null): void {
  element?.focus();
}

/** Lines that a forecast would drop, and keys that set them aside in two steps. */
export function DropLines(props: {
  readonly model: MarkingModel;
  readonly lines: readonly LineCard[];
}) {
  const { lines } = props;
  const { asked, ask, busy, problem, setAside } = useSetAside(props.model, lines);
  const what = lines.length === 1 ? 'this line' : `these ${lines.length} lines`;
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
            <button type="button" class="key" disabled={busy} onClick={() => ask(false)}>
              Keep them
            </button>
          </div>
        </div>
      ) : (
        <button type="button" class="key" onClick={() => ask(true)}>
          Set {what} aside …
        </button>
      )}
      <Problem say={problem} />
    </div>
  );
}

function useSetAside(model: MarkingModel, lines: readonly LineCard[]) {
  const [asked, ask] = useState(false);
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState<string | null>(null);
  const setAside = async (): Promise<void> => {
    setBusy(true);
    let fault: string | null = null;
    for (const { lineId } of lines) {
      fault = await markLine(model, { type: 'set aside', line: lineId, aside: true });
      // The lines before this one stay set aside. Pressing the key again continues with the others.
      if (fault) break;
    }
    setProblem(fault);
    setBusy(false);
    if (!fault) ask(false);
  };
  return { asked, ask, busy, problem, setAside };
}
