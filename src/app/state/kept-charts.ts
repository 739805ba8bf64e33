/** The charts as this tab knows them: which is in use, its cards, and what changing one does to memory. */

import { computed, type ReadonlySignal, signal } from '@preact/signals';
import { type Card, cardsOf, type Effects, isLineCard, toleranceFor } from '../../cards/index.ts';
import {
  type Chart,
  type ChartDocument,
  type ChartDraft,
  canonical,
  computeChart,
  HARBOUR_LANE,
  levelOf,
  type Solved,
  sharedLines,
} from '../../charts/index.ts';
import { partnerOf } from '../../scheduler/effects/partner.ts';
import type { ChartUse, LogEvent, LogState } from '../../scheduler/index.ts';
import { type Settings, type SettingsChange, type Store, toleranceOf } from '../../store/index.ts';

export type Kept = { readonly ok: true } | { readonly ok: false; readonly say: string };

export interface KeptCharts {
  /** All charts on the device. */
  readonly charts: ReadonlySignal<readonly ChartDocument[]>;
  /** The one in use. */
  readonly chart: ReadonlySignal<Chart>;
  /** Its cards; of a level, if the player keeps to one. */
  readonly cards: ReadonlySignal<readonly Card[]>;
  /** How the chart in use is used. */
  readonly use: ReadonlySignal<ChartUse>;
  readonly chooseChart: (id: string) => Promise<void>;
  /** The numbers of a kept chart, in use or not; those of the one in use if it is not kept. */
  readonly chartOf: (id: string | undefined) => Chart;
  /**
   * What taking a kept chart on to this document's last revision would do to memory; null for a chart
   * that is not kept. It solves a chart or two: some hundredths of a second.
   */
  readonly effectsIf: (document: ChartDocument) => Promise<Effects | null>;
  /** Keeps a new chart, or takes a kept one on; writes what that does to memory with it. */
  readonly keepChart: (document: ChartDocument) => Promise<Kept>;
  /** Its memory stays in the log. The last chart cannot be removed. */
  readonly removeChart: (id: string) => Promise<Kept>;
  readonly useChart: (id: string, use: ChartUse) => Promise<void>;
  readonly loadDraft: (id: string) => Promise<ChartDraft | null>;
  readonly saveDraft: (id: string, draft: ChartDraft) => Promise<void>;
  /** Not if another tab has written a draft of its own in its place. */
  readonly dropDraft: (id: string, mine: ChartDraft) => Promise<void>;
}

export interface ChartPorts {
  readonly store: Store;
  readonly log: ReadonlySignal<LogState>;
  readonly settings: ReadonlySignal<Settings>;
  readonly changeSettings: (change: SettingsChange) => Promise<void>;
  /** Study-day and time, for an event that is written now. */
  readonly when: () => { readonly day: number; readonly at: number };
  /** Takes written events into this tab's log, and tells the other tabs of them. */
  readonly shareEvents: (events: readonly LogEvent[]) => void;
  /** Tells the other tabs to read again. */
  readonly tellReload: () => void;
  /** Numbers that need not be solved again. */
  readonly solved: Solved | null;
}

export interface ReadableCharts extends KeptCharts {
  /**
   * Writes what the charts' numbers do to memory that came from elsewhere: whether chart or memory was
   * here first makes no difference.
   */
  readonly catchUp: () => Promise<void>;
  /** Takes in what was read from the disk. */
  readonly readCharts: (charts: readonly ChartDocument[]) => void;
}

const AS_IT_IS: ChartUse = { shares: null, level: null };

export function keepCharts(ports: ChartPorts): ReadableCharts {
  const { store, log, settings, solved } = ports;
  const charts = signal<readonly ChartDocument[]>([HARBOUR_LANE]);
  const documentOf = (id: string) => charts.value.find((one) => one.id === id) ?? null;
  const inUse = computed(() => documentOf(settings.value.chart) ?? charts.value[0] ?? HARBOUR_LANE);
  // Texts and numbers, not objects: folding the log again must not begin a session anew.
  const shares = computed(() => useOf(log.value, inUse.value.id).shares);
  const level = computed(() => useOf(log.value, inUse.value.id).level);
  const use = computed(() => ({ shares: shares.value, level: level.value }));
  const naming = computed(() => settings.value.naming);
  const partner = computed(() => partnerOf(inUse.value, charts.value, log.value));
  const shared = computed(() => partner.value && sharedLines(inUse.value, partner.value));
  const chart = computed(() => computeChart(inUse.value, naming.value, shared.value, solved));
  const tolerance = computed(() =>
    toleranceFor(toleranceOf(settings.value), chart.value.document.printStep),
  );
  const cards = computed(() => {
    const all = cardsOf(chart.value, tolerance.value);
    // A chart may lose its levels after one was chosen.
    const kept = chart.value.state.levels === null ? null : level.value;
    return kept === null ? all : all.filter(inLevel(chart.value, kept));
  });

  const chartOf = (id: string | undefined): Chart => {
    const document = id === undefined ? null : documentOf(id);
    if (!document || document === inUse.value) return chart.value;
    const other = partnerOf(document, charts.value, log.value);
    return computeChart(document, naming.value, other && sharedLines(document, other), solved);
  };

  const changes = async () => {
    const { chartChanges } = await import('./chart-changes.ts');
    return chartChanges({ ...ports, charts, naming });
  };

  return {
    charts,
    chart,
    cards,
    use,
    chartOf,
    effectsIf: async (document) => (await changes()).effectsIf(document),
    chooseChart: (id) => ports.changeSettings({ chart: id }),
    keepChart: async (document) => (await changes()).keepChart(document),
    removeChart: async (id) => (await changes()).removeChart(id),
    useChart: async (id, wanted) => (await changes()).useChart(id, wanted),
    catchUp: async () => (await changes()).catchUp(),
    loadDraft: (id) => store.loadDraft(id),
    saveDraft: (id, draft) => store.saveDraft(id, draft),
    dropDraft: (id, mine) => store.dropDraft(id, mine),
    readCharts: (read) => {
      // Equal documents must stay the same ones: a session in progress hangs on its chart.
      const known = new Map(charts.peek().map((one) => [canonical(one), one]));
      const now = read.map((one) => known.get(canonical(one)) ?? one);
      const same =
        now.length === charts.peek().length && now.every((one, n) => one === charts.peek()[n]);
      if (!same && now.length > 0) charts.value = now;
    },
  };
}

export function useOf({ uses }: LogState, id: string): ChartUse {
  return uses.get(id) ?? AS_IT_IS;
}

function inLevel(chart: Chart, most: number): (card: Card) => boolean {
  return (card) => {
    if (!isLineCard(card)) return true;
    const level = levelOf(chart.state, card);
    return level !== null && level <= most;
  };
}
