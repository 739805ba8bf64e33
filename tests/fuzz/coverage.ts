/** Which blocks of the program's code have run: V8's own coverage, asked for in this process. */

import { type Profiler, Session } from 'node:inspector';

export interface Coverage {
  /** The blocks that have run since this was last asked. */
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
      // In one process the answer is there when the call returns.
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
