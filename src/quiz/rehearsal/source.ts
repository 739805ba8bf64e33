/**
 * The chart and the cards of a rehearsal. The draft keeps the settings that the rehearsal began
 * with. A card's id and number depend on the naming, so a resumed rehearsal must not follow a
 * setting that has changed since.
 */

import { type Asker, type Card, cardsOf } from '../../cards/index.ts';
import { type Chart, computeChart, toDecimal, toNumber } from '../../charts/index.ts';
import type { RehearsalTerms } from '../../scheduler/index.ts';
import type { Settings } from '../../store/index.ts';
import { askerFor } from '../stage/questions.ts';

export interface RehearsalSource {
  readonly chart: Chart;
  readonly asker: Asker;
  readonly cards: readonly Card[];
}

/** Returns the terms of a rehearsal that begins now. */
export function termsOf(chart: Chart, settings: Settings): RehearsalTerms {
  const { tolerance } = askerFor(chart, settings);
  return {
    naming: chart.naming,
    tolerance: toNumber(tolerance),
    pictures: settings.pictures,
    chart: chart.document.id,
  };
}

/** @param chart the chart named in the terms, as it is now, in any naming */
export function sourceOf(chart: Chart, terms: RehearsalTerms): RehearsalSource {
  const { naming } = terms;
  const begun =
    chart.naming === naming ? chart : computeChart(chart.document, naming, chart.shared);
  const tolerance = toDecimal(terms.tolerance);
  return {
    chart: begun,
    asker: { chart: begun, tolerance, speeds: ['medium'] },
    cards: cardsOf(begun, tolerance),
  };
}
