import { useState } from 'preact/hooks';
import { markLine } from '../../quiz/index.ts';
import { Problem } from '../parts/saving.tsx';

export type MarkingModel = Parameters<typeof markLine>[0];

/** Focuses an element that has just appeared. */
function focusOn(element: HTMLElement | null): void {
  element?.focus();
}

/** Buttons that set lines aside in two steps. */
export function SetAsideKeys(props: {
  readonly model: MarkingModel;
  /** Ids of the lines. */
  readonly lines: readonly string[];
  readonly label: string;
  /** What a screen reader says instead of the label, where several such keys are listed. */
  readonly spoken?: string;
  readonly onDone?: () => void;
}) {
  const { asked, ask, busy, problem, setAside } = useSetAside(props);
  const isOne = props.lines.length === 1;
  const them = isOne ? 'it' : 'them';
  return (
    <>
      {asked ? (
        <div class="stack" tabIndex={-1} ref={focusOn}>
          <p>
            {isOne ? 'This line is' : 'These lines are'} not asked until taken in again, on Charts.
          </p>
          <div class="actions">
            <button type="button" class="key call" disabled={busy} onClick={() => void setAside()}>
              Set {them} aside
            </button>
            <button type="button" class="key" disabled={busy} onClick={() => ask(false)}>
              Keep {them}
            </button>
          </div>
        </div>
      ) : (
        <button type="button" class="key" aria-label={props.spoken} onClick={() => ask(true)}>
          {props.label} …
        </button>
      )}
      <Problem say={problem} />
    </>
  );
}

function useSetAside(props: {
  readonly model: MarkingModel;
  readonly lines: readonly string[];
  readonly onDone?: () => void;
}) {
  const [asked, ask] = useState(false);
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState<string | null>(null);
  const setAside = async (): Promise<void> => {
    setBusy(true);
    let fault: string | null = null;
    for (const line of props.lines) {
      fault = await markLine(props.model, { type: 'set aside', line, aside: true });
      // The lines before this one stay set aside. Pressing the key again continues with the others.
      if (fault) break;
    }
    setProblem(fault);
    setBusy(false);
    if (fault) return;
    ask(false);
    props.onDone?.();
  };
  return { asked, ask, busy, problem, setAside };
}
