/** Remembers which charts came from files hosted with the app, and from which file. */

import * as v from 'valibot';
import { type Database, get, update } from './database.ts';

const SOURCES = 'sources';
/** How many sources to keep: more than any player has charts. */
const MOST = 200;

export interface ChartSource {
  /** The file's path, relative to the app. */
  readonly path: string;
  /** The host's tag for the version that was read last (RFC 9110 §8.8.3); null if it gave none. */
  readonly etag: string | null;
  /** The digest of the last revision in that version. */
  readonly tip: string;
}

export type Sources = Readonly<Record<string, ChartSource>>;

const shape = v.record(
  v.string(),
  v.object({
    path: v.pipe(v.string(), v.maxLength(200)),
    etag: v.nullable(v.pipe(v.string(), v.maxLength(200))),
    tip: v.string(),
  }),
);

export interface SourceStore {
  /**
   * Returns the sources by chart id. If they cannot be read, there are none until the player opens a
   * chart's link again.
   */
  readonly load: () => Promise<Sources>;
  readonly save: (chart: string, source: ChartSource) => Promise<void>;
}

export function sourceStore(db: Database): SourceStore {
  return {
    load: async () => parsed(await get<unknown>(SOURCES, db.documents)),
    save: (chart, source) =>
      update<unknown>(
        SOURCES,
        (old) => {
          const others = Object.entries(parsed(old)).filter(([id]) => id !== chart);
          return Object.fromEntries([...others.slice(1 - MOST), [chart, source]]);
        },
        db.documents,
      ),
  };
}

function parsed(stored: unknown): Sources {
  const result = v.safeParse(shape, stored);
  return result.success ? result.output : {};
}
