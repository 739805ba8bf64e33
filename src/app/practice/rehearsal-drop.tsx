import { useEffect, useRef, useState } from 'preact/hooks';
import { notSaved } from '../../quiz/index.ts';
import { Problem } from '../parts/saving.tsx';
import type { Model } from '../state/model.ts';

export type DroppingModel = Pick<Model, 'dropRehearsal'>;

/** Drops a rehearsal, after asking a second time. */
export function Drop(props: {
  readonly model: DroppingModel;
  /**
   * The rehearsal to drop. Left out, whatever is stored is dropped, even if this version cannot
   * read it.
   */
  readonly id?: string;
  readonly dropped?: () => void;
}) {
  const { model, id, dropped } = props;
  const [sure, ask] = useState(false);
  const first = useRef<HTMLButtonElement>(null);
  const asked = useRef(false);
  // The pressed button is gone, so the button in its place takes the focus.
  useEffect(() => {
    if (asked.current) first.current?.focus();
    asked.current = true;
  }, [sure]);
  const [problem, setProblem] = useState<string | null>(null);
  const drop = (): void => {
    model.dropRehearsal(id).then(dropped, (error: unknown) => setProblem(notSaved(error)));
  };
  return (
    <>
      <Problem say={problem} />
      {sure ? (
        <>
          <p role="status">Drop it for good? Its answers go with it.</p>
          <button type="button" ref={first} class="key quiet" onClick={() => ask(false)}>
            Keep it
          </button>
          <button type="button" class="key quiet" onClick={drop}>
            Yes, drop it
          </button>
        </>
      ) : (
        <button type="button" ref={first} class="key quiet" onClick={() => ask(true)}>
          Drop it
        </button>
      )}
    </>
  );
}
