/** Where charts came from that are files beside the app. */

import * as v from 'valibot';
import { type Database, get, update } from './database.ts';

const SOURCES = 'sources';
/** More charts than a player keeps. */
const MOST = 200;

export interface ChartSource {
  /** Relative to the app. */
  readonly path: string;
  /** The host's tag of the version that was read last (RFC 9110 §8.8.3); null if it gave none. */
  readonly etag: string | null;
  /** Digest of that version's last revision. */
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
  /** By the charts' ids; none if they cannot be read, until a chart's link is opened again. */
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
