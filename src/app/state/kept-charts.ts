/**
 * Holds the charts on the device: the one in use with its numbers and cards, and the functions that
 * change any of them.
 */

import { computed, type ReadonlySignal, type Signal, signal } from '@preact/signals';
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
import { type ChartUse, partnerOf } from '../../scheduler/index.ts';
import { type Settings, toleranceOf } from '../../store/index.ts';
import type { Naming } from '../../table/index.ts';
import type { ChangePorts } from './chart-changes.ts';
import type { ChartPorts, DeviceCharts, ReadableCharts } from './chart-ports.ts';
import { chartUseOf } from './chart-use.ts';

export function keepCharts(ports: ChartPorts): ReadableCharts {
  const { store, settings, changeSettings } = ports;
  const charts = signal<readonly ChartDocument[]>([HARBOUR_LANE]);
  const naming = computed(() => settings.value.naming);
  const inUse = computed(() => chartWith(charts, settings.value.chart) ?? firstOf(charts));
  const use = chartUse(ports, inUse);
  const { chart, chartOf } = numbersOf(ports, charts, inUse, naming);
  return {
    charts,
    chart,
    cards: cardsIn(chart, settings, use),
    use,
    chartOf,
    chooseChart: (id) => changeSettings({ chart: id }),
    ...changesTo({ ...ports, charts, naming }),
    loadDraft: (id) => store.loadDraft(id),
    saveDraft: (id, draft) => store.saveDraft(id, draft),
    dropDraft: (id, mine) => store.dropDraft(id, mine),
    readCharts: (read) => replaceChanged(charts, read),
  };
}

function chartWith(charts: ReadonlySignal<readonly ChartDocument[]>, id: string) {
  return charts.value.find((one) => one.id === id) ?? null;
}

function firstOf(charts: ReadonlySignal<readonly ChartDocument[]>): ChartDocument {
  return charts.value[0] ?? HARBOUR_LANE;
}

function chartUse({ log }: ChartPorts, inUse: ReadonlySignal<ChartDocument>) {
  // These compare by value, because an answer makes a new log state, which must not restart a session.
  const shares = computed(() => chartUseOf(log.value, inUse.value.id).shares);
  const level = computed(() => chartUseOf(log.value, inUse.value.id).level);
  return computed<ChartUse>(() => ({ shares: shares.value, level: level.value }));
}

function numbersOf(
  { log, solved }: ChartPorts,
  charts: ReadonlySignal<readonly ChartDocument[]>,
  inUse: ReadonlySignal<ChartDocument>,
  naming: ReadonlySignal<Naming>,
): Pick<DeviceCharts, 'chart' | 'chartOf'> {
  const partner = computed(() => partnerOf(inUse.value, charts.value, log.value));
  const shared = computed(() => partner.value && sharedLines(inUse.value, partner.value));
  const chart = computed(() => computeChart(inUse.value, naming.value, shared.value, solved));
  const chartOf = (id: string | undefined): Chart => {
    const document = id === undefined ? null : chartWith(charts, id);
    if (!document || document === inUse.value) return chart.value;
    const other = partnerOf(document, charts.value, log.value);
    return computeChart(document, naming.value, other && sharedLines(document, other), solved);
  };
  return { chart, chartOf };
}

function cardsIn(
  chart: ReadonlySignal<Chart>,
  settings: ReadonlySignal<Settings>,
  use: ReadonlySignal<ChartUse>,
): ReadonlySignal<readonly Card[]> {
  const tolerance = computed(() =>
    toleranceFor(toleranceOf(settings.value), chart.value.document.printStep),
  );
  const level = computed(() => use.value.level);
  return computed(() => {
    const all = cardsOf(chart.value, tolerance.value);
    // The chart may have lost its levels since the player chose one.
    const most = chart.value.state.levels === null ? null : level.value;
    return most === null ? all : all.filter(inLevel(chart.value, most));
  });
}

function inLevel(chart: Chart, most: number): (card: Card) => boolean {
  return (card) => {
    if (!isLineCard(card)) return true;
    const level = levelOf(chart.state, card);
    return level !== null && level <= most;
  };
}

type Changes = Pick<
  ReadableCharts,
  'effectsIf' | 'keepChart' | 'removeChart' | 'useChart' | 'catchUp'
>;

/** Returns the functions that change charts. Their code loads at the first change. */
function changesTo(ports: ChangePorts): Changes {
  const changes = () => import('./chart-changes.ts');
  return {
    effectsIf: async (document) => (await changes()).effectsIf(ports, document),
    keepChart: async (document) => (await changes()).keepChart(ports, document),
    removeChart: async (id) => (await changes()).removeChart(ports, id),
    useChart: async (id, use) => (await changes()).changeUse(ports, id, use),
    catchUp: async () => (await changes()).catchUp(ports),
  };
}

/**
 * Replaces the charts that have changed. Equal documents stay the same objects, because a session in
 * progress belongs to the object of its chart.
 */
function replaceChanged(
  charts: Signal<readonly ChartDocument[]>,
  read: readonly ChartDocument[],
): void {
  const known = new Map(charts.peek().map((one) => [canonical(one), one]));
  const now = read.map((one) => known.get(canonical(one)) ?? one);
  const isSame =
    now.length === charts.peek().length && now.every((one, n) => one === charts.peek()[n]);
  if (!isSame && now.length > 0) charts.value = now;
}
