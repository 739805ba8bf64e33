/** Tonight's shots worked out beside the page; what is shown is the newest answer. */

import { useEffect, useState } from 'preact/hooks';
import type { Chart, Evening, LineSpeed, TableShot } from '../charts/index.ts';
import type { Fitter } from '../workers/index.ts';

export interface WorkedEvening {
  readonly evening: Evening | null;
  /** Is a newer one being worked out. */
  readonly busy: boolean;
  readonly problem: string | null;
}

const NOTHING: WorkedEvening = { evening: null, busy: true, problem: null };

export function useEvening(
  fitter: Fitter,
  chart: Chart,
  shots: readonly TableShot[],
  without: readonly LineSpeed[],
): WorkedEvening {
  const [worked, setWorked] = useState<WorkedEvening>(NOTHING);
  const { document, naming } = chart;
  useEffect(() => {
    let wanted = true;
    setWorked((before) => ({ ...before, busy: true }));
    fitter.ask({ document, naming, shots, without }, (answered) => {
      if (!wanted) return;
      setWorked(
        answered.ok
          ? { evening: answered.answer.evening, busy: false, problem: null }
          : { evening: null, busy: false, problem: answered.say },
      );
    });
    return () => {
      wanted = false;
    };
  }, [fitter, document, naming, shots, without]);
  return worked;
}
