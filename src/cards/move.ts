/** Describes what a revision of a chart does to one card, by the rule in effect.ts. */

export const EFFECTS = ['unchanged', 'shifted', 'moved', 'left'] as const;
export type Effect = (typeof EFFECTS)[number];

/** What a revision does to the memory of one card. */
export interface Move {
  readonly card: string;
  readonly line: string;
  /** The card's former id, if it has a different id in the new chart. */
  readonly was?: string;
  readonly effect: Effect;
  /** The number that memory stood for, in diamonds, one per field. */
  readonly from: readonly number[];
  /** The new number; null if the card has left the chart. */
  readonly to: readonly number[] | null;
}
