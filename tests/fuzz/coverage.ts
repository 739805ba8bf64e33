/** Which blocks of code have run, by V8's own coverage in this process. */

import { type Profiler, Session } from 'node:inspector';

export interface Coverage {
  /** The blocks that have run since the last call. */
  readonly take: () => ReadonlySet<string>;
  readonly stop: () => void;
}

export function watchCoverage(): Coverage {
  const session = new Session();
  session.connect();
  session.post('Profiler.enable');
  session.post('Profiler.startPreciseCoverage', { callCount: true, detailed: true });
  return {
    take: () => {
      let scripts: readonly Profiler.ScriptCoverage[] = [];
      // Within one process the answer arrives before the call returns.
      session.post('Profiler.takePreciseCoverage', (error, { result }) => {
        if (error) throw error;
        scripts = result;
      });
      return new Set(
        scripts
          .filter(({ url }) => url.startsWith('file:'))
          .flatMap(({ functions }) =>
            functions.flatMap(({ ranges }) =>
              ranges
                .filter(({ count }) => count > 0)
                .map(({ startOffset, endOffset }) => `${startOffset}-${endOffset}`),
            ),
          ),
      );
    },
    stop: () => session.disconnect(),
  };
}
