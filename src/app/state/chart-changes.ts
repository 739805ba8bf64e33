/** Changing the charts on a device, and what that writes to memory: fetched when it is wanted. */

import type { ReadonlySignal, Signal } from '@preact/signals';
import type { Effects } from '../../cards/index.ts';
import { type ChartDocument, digestOf, lastRevision } from '../../charts/index.ts';
import {
  type ChartUse,
  type EventDraft,
  effectsOnMemory,
  MOST_MOVES,
  overdueOn,
  sharingMoves,
} from '../../scheduler/index.ts';
import { toleranceOf } from '../../store/index.ts';
import type { Naming } from '../../table/index.ts';
import type { ChartPorts, Kept, ReadableCharts } from './chart-ports.ts';
import { chartUseOf } from './chart-use.ts';

interface ChangePorts extends ChartPorts {
  readonly charts: Signal<readonly ChartDocument[]>;
  readonly naming: ReadonlySignal<Naming>;
}

export type ChartChanges = Pick<
  ReadableCharts,
  'effectsIf' | 'keepChart' | 'removeChart' | 'useChart' | 'catchUp'
>;

export function chartChanges(ports: ChangePorts): ChartChanges {
  const { store, log, settings, charts, naming } = ports;

  const known = () => ({
    charts: charts.peek(),
    log: log.peek(),
    tolerance: toleranceOf(settings.peek()),
  });

  const effectsIf = async (document: ChartDocument): Promise<Effects | null> => {
    const before = charts.peek().find(({ id }) => id === document.id);
    if (!before) return null;
    return effectsOnMemory({
      before,
      after: document,
      ...known(),
      naming: naming.peek(),
    });
  };

  const replace = (document: ChartDocument): void => {
    const others = charts.peek().filter(({ id }) => id !== document.id);
    const kept = others.length < charts.peek().length;
    charts.value = kept
      ? charts.peek().map((one) => (one.id === document.id ? document : one))
      : [...others, document];
  };

  const overdue = (document: ChartDocument): Effects['moves'] => overdueOn(document, known());

  const catchUp = async (): Promise<void> => {
    for (const document of charts.peek()) {
      const moves = overdue(document);
      if (moves.length === 0) continue;
      ports.shareEvents(await store.appendAll(revisedDrafts(document, moves, ports.when())));
    }
  };

  const useChart = async (id: string, wanted: ChartUse): Promise<void> => {
    const document = charts.peek().find((one) => one.id === id);
    if (!document) throw new Error(`no chart ${id}`);
    const when = ports.when();
    const moves = sharingMoves({
      document,
      from: chartUseOf(log.peek(), id).shares,
      to: wanted.shares,
      ...known(),
    });
    const drafts: EventDraft[] = [{ type: 'chart used', chart: id, ...wanted, ...when }];
    if (moves.length > 0) drafts.push(...revisedDrafts(document, moves, when));
    ports.shareEvents(await store.appendAll(drafts));
  };

  const keepChart = async (document: ChartDocument): Promise<Kept> => {
    const before = charts.peek().find(({ id }) => id === document.id);
    const effects = (await effectsIf(document)) ?? { moves: overdue(document) };
    const base = before ? digestOf(lastRevision(before)) : null;
    // A new chart of which nothing is remembered tells the log nothing.
    const tells = before !== undefined || effects.moves.length > 0;
    const drafts = tells ? revisedDrafts(document, effects.moves, ports.when()) : [];
    const written = await store.keepChart(document, base, drafts);
    if (!written) return { ok: false, say: GONE_ON };
    replace(document);
    ports.shareEvents(written);
    ports.tellReload();
    return { ok: true };
  };

  const removeChart = async (id: string): Promise<Kept> => {
    if (charts.peek().length < 2) return { ok: false, say: LAST };
    // What their lines share with it goes on in them.
    for (const { id: other } of charts.peek()) {
      const its = chartUseOf(log.peek(), other);
      if (its.shares === id) await useChart(other, { ...its, shares: null });
    }
    if (!(await store.removeChart(id))) return { ok: false, say: LAST };
    charts.value = charts.peek().filter((one) => one.id !== id);
    ports.tellReload();
    return { ok: true };
  };

  return { effectsIf, keepChart, removeChart, useChart, catchUp };
}

const LAST = 'The last chart cannot be removed.';
const GONE_ON =
  'This chart was changed in another tab or window meanwhile. Nothing was saved; look at it again.';

/** One event or, if it says more than one may say, several. */
function revisedDrafts(
  document: ChartDocument,
  moves: Effects['moves'],
  when: { readonly day: number; readonly at: number },
): readonly EventDraft[] {
  const last = lastRevision(document);
  const { number: revision } = last;
  const about = { type: 'revised', chart: document.id, revision, digest: digestOf(last) } as const;
  const parts = Math.max(1, Math.ceil(moves.length / MOST_MOVES));
  return Array.from({ length: parts }, (_, n) => ({
    ...about,
    moves: moves.slice(n * MOST_MOVES, (n + 1) * MOST_MOVES),
    ...when,
  }));
}
