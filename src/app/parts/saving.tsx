import { useState } from 'preact/hooks';
import { notSaved } from '../../quiz/index.ts';

/**
 * Follows writes. `problem` is a sentence that says why the last one failed; null if it succeeded.
 */
export interface Saving {
  readonly problem: string | null;
  /** Waits for a write. If the write succeeds, the problem of an earlier write is cleared. */
  readonly save: (job: Promise<unknown>) => void;
}

export function useSaving(): Saving {
  const [problem, setProblem] = useState<string | null>(null);
  const save = (job: Promise<unknown>): void => {
    job.then(
      () => setProblem(null),
      (error: unknown) => setProblem(notSaved(error)),
    );
  };
  return { problem, save };
}

export function Problem({ say }: { readonly say: string | null }) {
  if (!say) return null;
  return (
    <p class="problem" role="alert">
      {say}
    </p>
  );
}
