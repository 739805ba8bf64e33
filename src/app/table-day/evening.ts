/** Computes tonight's results in a worker; the page shows the latest reply. */

import { useEffect, useState } from 'preact/hooks';
import type { Chart } from '../../charts/index.ts';
import type { Evening, LineSpeed, TableShot } from '../../shots/index.ts';
import type { Fitter } from '../../workers/index.ts';

export interface WorkedEvening {
  readonly evening: Evening | null;
  /** Whether a newer result is being computed. */
  readonly busy: boolean;
  readonly problem: string | null;
}

/** What a result was computed from. Comparing it shows at once that a newer result is wanted. */
type Asked = readonly [Chart, readonly TableShot[], readonly LineSpeed[]];

interface Worked {
  readonly of: Asked | null;
  readonly evening: Evening | null;
  readonly problem: string | null;
}

export function useEvening(
  fitter: Fitter,
  chart: Chart,
  shots: readonly TableShot[],
  without: readonly LineSpeed[],
): WorkedEvening {
  const [worked, setWorked] = useState<Worked>({ of: null, evening: null, problem: null });
  const asked: Asked = [chart, shots, without];
  useEffect(() => {
    let wanted = true;
    const { document, naming } = chart;
    fitter.ask({ document, naming, shots, without }, (answered) => {
      if (!wanted) return;
      setWorked(
        answered.ok
          ? { of: asked, evening: answered.answer, problem: null }
          : { of: asked, evening: null, problem: answered.say },
      );
    });
    return () => {
      wanted = false;
    };
  }, [fitter, ...asked]);
  const busy = !asked.every((one, at) => one === worked.of?.[at]);
  return { evening: worked.evening, problem: worked.problem, busy };
}
