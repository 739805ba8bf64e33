/** The charts as this tab knows them: which is in use, its cards, and what changing one does to memory. */

import { computed, signal } from '@preact/signals';
import { type Card, cardsOf, isLineCard, toleranceFor } from '../../cards/index.ts';
import {
  type Chart,
  type ChartDocument,
  canonical,
  computeChart,
  HARBOUR_LANE,
  levelOf,
  sharedLines,
} from '../../charts/index.ts';
import { partnerOf } from '../../scheduler/index.ts';
import { toleranceOf } from '../../store/index.ts';
import type { ChartPorts, ReadableCharts } from './chart-ports.ts';
import { chartUseOf } from './chart-use.ts';

export function keepCharts(ports: ChartPorts): ReadableCharts {
  const { store, log, settings, solved } = ports;
  const charts = signal<readonly ChartDocument[]>([HARBOUR_LANE]);
  const documentOf = (id: string) => charts.value.find((one) => one.id === id) ?? null;
  const inUse = computed(() => documentOf(settings.value.chart) ?? charts.value[0] ?? HARBOUR_LANE);
  // Texts and numbers, not objects: folding the log again must not begin a session anew.
  const shares = computed(() => chartUseOf(log.value, inUse.value.id).shares);
  const level = computed(() => chartUseOf(log.value, inUse.value.id).level);
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

function inLevel(chart: Chart, most: number): (card: Card) => boolean {
  return (card) => {
    if (!isLineCard(card)) return true;
    const level = levelOf(chart.state, card);
    return level !== null && level <= most;
  };
}
