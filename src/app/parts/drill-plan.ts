/** Plans new drills, from the player's choices or for weak zones. */

import { hashOf, KINDS, type Kind, toleranceFor, ZONES } from '../../cards/index.ts';
import { type Chart, PATTERNS, type PatternId } from '../../charts/index.ts';
import {
  type DrillSpec,
  formatDrill,
  printOf,
  type Run,
  specOf,
  type WeakZone,
  weakZones,
} from '../../quiz/index.ts';
import { toleranceOf } from '../../store/index.ts';
import type { Model } from '../state/model.ts';

/** The parts of the model that drills read. */
export type DrillModel = Pick<Model, 'chart' | 'settings' | 'cards' | 'day' | 'now'>;

/**
 * The parts of a drill that the player chooses. The rest comes from the chart, the settings and the
 * clock.
 */
export type Choices = Pick<DrillSpec, 'patterns' | 'zones' | 'kinds' | 'count' | 'speeds'>;

const FIRST_KINDS: readonly Kind[] = ['in between', 'rail ball', 'off the rail', 'arrival'];
/** How many weak zones are offered. */
const OFFERED = 3;

/** Returns the choices of the last drill on this device, without patterns that the chart lacks. */
export function firstChoices(chart: Chart, runs: readonly Run[]): Choices {
  const last = runs.at(-1);
  const spec = last ? specOf(last) : null;
  const all = patternsOf(chart);
  const kept = all.filter((pattern) => spec?.patterns.includes(pattern));
  return {
    patterns: kept.length > 0 ? kept : all,
    zones: spec?.zones ?? ZONES,
    kinds: spec?.kinds ?? KINDS.filter((kind) => FIRST_KINDS.includes(kind)),
    count: spec ? spec.count : 10,
    speeds: spec?.speeds ?? 'medium',
  };
}

/** Returns a chart's patterns in the order of `PATTERNS`. */
export function patternsOf({ patterns }: Chart): readonly PatternId[] {
  return PATTERNS.map(({ id }) => id).filter((id) => patterns.includes(id));
}

/** Returns a drill under the current settings, complete except for its seed. */
export function plannedDrill(
  model: Pick<Model, 'chart' | 'settings'>,
  choices: Choices,
): Omit<DrillSpec, 'seed'> {
  const chart = model.chart.value;
  const settings = model.settings.value;
  const tolerance = toleranceFor(toleranceOf(settings), chart.document.printStep);
  return { ...choices, tolerance, given: settings.given, print: printOf(chart) };
}

/** Returns the code of a new drill, with a seed from the clock. */
export function freshCode(model: Pick<Model, 'now'>, drill: Omit<DrillSpec, 'seed'>): string {
  return formatDrill({ ...drill, seed: hashOf(String(model.now())) });
}

export interface WeakDrill {
  readonly weak: WeakZone;
  readonly drill: Omit<DrillSpec, 'seed'>;
}

/** Returns drills for the weakest zones that the chart has questions for. */
export function weakDrills(model: DrillModel, runs: readonly Run[]): readonly WeakDrill[] {
  const { speeds } = firstChoices(model.chart.value, runs);
  const cards = model.cards.value;
  const asked = ({ pattern, kind, zone }: WeakZone) =>
    cards.some((card) => card.pattern === pattern && card.kind === kind && card.zone === zone);
  return weakZones(runs, model.day.value)
    .filter(asked)
    .slice(0, OFFERED)
    .map((weak) => {
      const { pattern, kind, zone } = weak;
      const one = { patterns: [pattern], kinds: [kind], zones: [zone], count: 10, speeds } as const;
      return { weak, drill: plannedDrill(model, one) };
    });
}
