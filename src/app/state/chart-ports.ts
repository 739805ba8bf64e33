/** Types for the charts on the device as this tab knows them, and for what they need from the model. */

import type { ReadonlySignal } from '@preact/signals';
import type { Card, Effects } from '../../cards/index.ts';
import type { Chart, ChartDocument, ChartDraft, Solved } from '../../charts/index.ts';
import type { ChartUse, LogEvent, LogState } from '../../scheduler/index.ts';
import type { Settings, SettingsChange, Store } from '../../store/index.ts';
import type { StudyDays } from './study-day.ts';
import type { TabMessage } from './tabs.ts';

/** `say` is a sentence that tells why nothing was saved. */
export type Saved = { readonly ok: true } | { readonly ok: false; readonly say: string };

export interface DeviceCharts {
  /** All charts on the device. */
  readonly charts: ReadonlySignal<readonly ChartDocument[]>;
  /** The chart in use. */
  readonly chart: ReadonlySignal<Chart>;
  /** The cards of the chart in use; if the player chose a level, only the cards of that level. */
  readonly cards: ReadonlySignal<readonly Card[]>;
  /** The level and the shared memory of the chart in use. */
  readonly use: ReadonlySignal<ChartUse>;
  readonly chooseChart: (id: string) => Promise<void>;
  /** Returns any chart on the device with its numbers; the chart in use if there is no such chart. */
  readonly chartOf: (id: string | undefined) => Chart;
  /**
   * Returns the effects on memory of replacing a chart with this document; null if the chart is not on
   * the device. It solves one or two charts, which takes a few hundredths of a second.
   */
  readonly effectsIf: (document: ChartDocument) => Promise<Effects | null>;
  /** Saves a new chart or new revisions of a chart, together with the effects on memory. */
  readonly keepChart: (document: ChartDocument) => Promise<Saved>;
  /** Removes a chart. The memory of its lines stays in the log. The last chart cannot be removed. */
  readonly removeChart: (id: string) => Promise<Saved>;
  readonly useChart: (id: string, use: ChartUse) => Promise<void>;
  readonly loadDraft: (id: string) => Promise<ChartDraft | null>;
  readonly saveDraft: (id: string, draft: ChartDraft) => Promise<void>;
  /** Removes the draft, unless another tab has replaced it. */
  readonly dropDraft: (id: string, mine: ChartDraft) => Promise<void>;
}

export interface ChartPorts extends Pick<StudyDays, 'today' | 'now'> {
  readonly store: Store;
  readonly log: ReadonlySignal<LogState>;
  readonly settings: ReadonlySignal<Settings>;
  readonly changeSettings: (change: SettingsChange) => Promise<void>;
  /** Adds a stored event to the log in memory, in this tab and in other tabs. */
  readonly shareEvent: (event: LogEvent) => void;
  readonly tell: (message: TabMessage) => void;
  /** Numbers that are already solved. */
  readonly solved?: Solved;
}

export interface ReadableCharts extends DeviceCharts {
  /**
   * Applies revisions to memory that arrived after them, as from a backup. So the result does not
   * depend on which of the two came first. Appends the effects to the log.
   */
  readonly catchUp: () => Promise<void>;
  /** Replaces the charts with the ones read from the disk. */
  readonly readCharts: (charts: readonly ChartDocument[]) => void;
}
