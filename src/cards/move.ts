/** What a revision of a chart makes of one card; by which rule is in effect.ts. */

export const EFFECTS = ['unchanged', 'shifted', 'moved', 'left'] as const;
export type Effect = (typeof EFFECTS)[number];

/** A card whose memory a revision touches. */
export interface Move {
  readonly card: string;
  readonly line: string;
  /** The card whose memory goes on in this one, where the two have not the same id. */
  readonly was?: string;
  readonly effect: Effect;
  /** What memory stood for, diamonds, one per field. */
  readonly from: readonly number[];
  /** What is right from now on; null if the card has left the chart. */
  readonly to: readonly number[] | null;
}
