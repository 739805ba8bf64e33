/** Changes the charts on the device and applies the effects on memory. This loads on first use. */

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
import type { ChartPorts, Saved } from './chart-ports.ts';
import { chartUseOf } from './chart-use.ts';

export interface ChangePorts extends ChartPorts {
  readonly charts: Signal<readonly ChartDocument[]>;
  readonly naming: ReadonlySignal<Naming>;
}

export async function effectsIf(
  ports: ChangePorts,
  document: ChartDocument,
): Promise<Effects | null> {
  const before = chartOn(ports, document.id);
  if (!before) return null;
  const naming = ports.naming.peek();
  return effectsOnMemory({ before, after: document, ...known(ports), naming });
}

export async function keepChart(ports: ChangePorts, document: ChartDocument): Promise<Saved> {
  const before = chartOn(ports, document.id);
  const effects = (await effectsIf(ports, document)) ?? {
    moves: overdueOn(document, known(ports)),
  };
  const base = before ? digestOf(lastRevision(before)) : null;
  // A new chart needs no event if nothing is remembered of its lines.
  const isEvent = before !== undefined || effects.moves.length > 0;
  const drafts = isEvent ? revisedDrafts(document, effects.moves, whenNow(ports)) : [];
  const written = await ports.store.keepChart(document, base, drafts);
  if (!written) return { ok: false, say: GONE_ON };
  replace(ports.charts, document);
  written.forEach(ports.shareEvent);
  ports.tell({ type: 'reload' });
  return { ok: true };
}

export async function removeChart(ports: ChangePorts, id: string): Promise<Saved> {
  const { store, log, charts } = ports;
  if (charts.peek().length < 2) return { ok: false, say: LAST };
  // Other charts that share its memory keep the part that is about their lines.
  for (const { id: other } of charts.peek()) {
    const use = chartUseOf(log.peek(), other);
    if (use.shares === id) await changeUse(ports, other, { ...use, shares: null });
  }
  if (!(await store.removeChart(id))) return { ok: false, say: LAST };
  charts.value = charts.peek().filter((one) => one.id !== id);
  ports.tell({ type: 'reload' });
  return { ok: true };
}

export async function changeUse(ports: ChangePorts, id: string, use: ChartUse): Promise<void> {
  const document = chartOn(ports, id);
  if (!document) throw new Error(`no chart ${id}`);
  const when = whenNow(ports);
  const from = chartUseOf(ports.log.peek(), id).shares;
  const moves = sharingMoves({ document, from, to: use.shares, ...known(ports) });
  const drafts: EventDraft[] = [{ type: 'chart used', chart: id, ...use, ...when }];
  if (moves.length > 0) drafts.push(...revisedDrafts(document, moves, when));
  await appendAll(ports, drafts);
}

export async function catchUp(ports: ChangePorts): Promise<void> {
  for (const document of ports.charts.peek()) {
    const moves = overdueOn(document, known(ports));
    if (moves.length === 0) continue;
    await appendAll(ports, revisedDrafts(document, moves, whenNow(ports)));
  }
}

async function appendAll(ports: ChangePorts, drafts: readonly EventDraft[]): Promise<void> {
  const events = await ports.store.appendAll(drafts);
  events.forEach(ports.shareEvent);
}

function whenNow({ today, now }: ChangePorts) {
  return { day: today(), at: now() };
}

function chartOn({ charts }: ChangePorts, id: string): ChartDocument | undefined {
  return charts.peek().find((one) => one.id === id);
}

/** Returns the data from which effects on memory are computed. */
function known({ charts, log, settings }: ChangePorts) {
  return { charts: charts.peek(), log: log.peek(), tolerance: toleranceOf(settings.peek()) };
}

function replace(charts: ChangePorts['charts'], document: ChartDocument): void {
  const isKnown = charts.peek().some(({ id }) => id === document.id);
  charts.value = isKnown
    ? charts.peek().map((one) => (one.id === document.id ? document : one))
    : [...charts.peek(), document];
}

const LAST = 'The last chart cannot be removed.';
const GONE_ON =
  'This chart was changed in another tab or window meanwhile. Nothing was saved; look at it again.';

/** Returns one event, or several if there are more moves than one event may have. */
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
