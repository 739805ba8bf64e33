/** Computes how a change to a chart affects memory, in both namings and on all charts. */

import {
  type Effects,
  effectsOf,
  type Move,
  overdueMoves,
  type Remembered,
  renamedCards,
  toleranceFor,
} from '../../cards/index.ts';
import {
  type Chart,
  type ChartDocument,
  computeChart,
  type Decimal,
  sharedLines,
} from '../../charts/index.ts';
import { NAMINGS, type Naming } from '../../table/index.ts';
import { lastTruth } from '../log/revised.ts';
import type { LogState } from '../log/state.ts';
import { partnerOf } from './partner.ts';

interface Known {
  readonly charts: readonly ChartDocument[];
  readonly log: LogState;
  /** The player's tolerance, before the chart's printed step widens it. */
  readonly tolerance: Decimal;
}

interface Change extends Known {
  readonly before: ChartDocument;
  readonly after: ChartDocument;
  /** The naming in which lines are counted. */
  readonly naming: Naming;
}

/**
 * Returns the effects of a change. The counts are for the changed chart only, in the player's naming.
 * The moves are for all charts and both namings. Other charts may have lines that can no longer share
 * the changed chart's memory. Those lines copy that memory before it moves.
 */
export function effectsOnMemory(change: Change): Effects {
  const { before, after, log, naming } = change;
  const remembered = rememberedIn(log);
  const tolerance = toleranceFor(change.tolerance, after.printStep);
  const inNaming = (one: Naming) =>
    effectsOf(chartIn(before, one, change), chartIn(after, one, change), tolerance, remembered);
  const effects = inNaming(naming);
  const others = NAMINGS.filter((one) => one !== naming && isUsed(log, one)).flatMap(
    (one) => inNaming(one).moves,
  );
  return { ...effects, moves: [...separations(change), ...effects.moves, ...others] };
}

/** Returns moves for the lines of other charts that can no longer share the changed chart's memory. */
function separations({ before, after, charts, log, tolerance }: Change): readonly Move[] {
  const sharing = charts.filter(
    ({ id }) => id !== after.id && log.uses.get(id)?.shares === after.id,
  );
  return sharing.flatMap((document) =>
    carried(document, before, after, { charts, log, tolerance }),
  );
}

interface Sharing extends Known {
  readonly document: ChartDocument;
  /** The id of the chart with the memory that `document` used. `to` is the one it will use. */
  readonly from: string | null;
  readonly to: string | null;
}

/**
 * Returns the moves when a chart begins or stops using another chart's memory. The memory continues
 * under the new ids. A line is learned again if the player knows it on the other chart with a number
 * that differs by more than the tolerance.
 */
export function sharingMoves({ document, from, to, ...known }: Sharing): readonly Move[] {
  const of = (id: string | null) =>
    known.charts.find((one) => one.id === id && id !== document.id) ?? null;
  const [before, after] = [of(from), of(to)];
  if (before?.id === after?.id) return [];
  const continued = carried(document, before, after, known);
  if (!after) return continued;
  const tolerance = toleranceFor(known.tolerance, document.printStep);
  const own = rememberedIn(known.log);
  const differing = NAMINGS.filter((one) => isUsed(known.log, one)).flatMap((naming) => {
    const here = computeChart(document, naming, sharedLines(document, after));
    return effectsOf(computeChart(after, naming), here, tolerance, own).moves;
  });
  return [
    ...continued,
    ...differing.filter(({ was, card }) => was !== undefined && !own.has(card)),
  ];
}

/**
 * Returns the moves of memory that continues under a new id, because a line is now shared with another
 * chart or no longer shared.
 */
function carried(
  document: ChartDocument,
  before: ChartDocument | null,
  after: ChartDocument | null,
  { log, tolerance }: Known,
): readonly Move[] {
  const remembered = rememberedIn(log);
  const t = toleranceFor(tolerance, document.printStep);
  const sharing = (other: ChartDocument | null) => other && sharedLines(document, other);
  return NAMINGS.filter((one) => isUsed(log, one)).flatMap((naming) => {
    const [old, now] = [
      computeChart(document, naming, sharing(before)),
      computeChart(document, naming, sharing(after)),
    ];
    const { moves } = effectsOf(old, now, t, remembered);
    const renamed = renamedCards(old, now, t, remembered);
    return [...moves.filter(({ was }) => was !== undefined), ...renamed];
  });
}

/**
 * Returns what the player remembers, by the log. A card that moved stands for the number that was
 * learned until the player sees the new one.
 */
function rememberedIn(log: LogState): Remembered {
  const { memories, moved, shifts } = log;
  return {
    marked: (line) => log.aside.has(line) || log.notes.has(line) || log.flags.has(line),
    has: (card) => memories.has(card) || moved.has(card),
    standsFor: (card) => {
      const waiting = moved.get(card);
      if (waiting) return waiting.shown ? waiting.to : waiting.from;
      const memory = memories.get(card);
      return shifts.get(card)?.from ?? (memory ? lastTruth(memory) : null);
    },
    pending: (card) => (moved.get(card) ?? shifts.get(card))?.to ?? null,
  };
}

/**
 * Returns the moves of cards with a memory for numbers that differ from the chart's, in both namings.
 * The chart may have come from another device or arrived after the memory.
 */
export function overdueOn(document: ChartDocument, known: Known): readonly Move[] {
  const remembered = rememberedIn(known.log);
  const tolerance = toleranceFor(known.tolerance, document.printStep);
  return NAMINGS.filter((one) => isUsed(known.log, one)).flatMap((naming) =>
    overdueMoves(chartIn(document, naming, known), tolerance, remembered),
  );
}

function chartIn(document: ChartDocument, naming: Naming, { charts, log }: Known): Chart {
  const other = partnerOf(document, charts, log);
  return computeChart(document, naming, other && sharedLines(document, other));
}

/**
 * Returns whether anything is remembered in a naming. Only ids in the naming 'opposite' contain its
 * name (cards/card.ts).
 */
function isUsed({ memories, moved, notes, flags, aside }: LogState, naming: Naming): boolean {
  for (const ids of [memories, moved, notes, flags, aside])
    for (const id of ids.keys())
      if (id.includes('/opposite') === (naming === 'opposite')) return true;
  return false;
}
