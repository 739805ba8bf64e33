/** A student of the demo's instructor who has learned some lines, to begin a page with. */

import { isLineCard, type LineCard } from '../../src/cards/index.ts';
import {
  type ChartDocument,
  computeChart,
  formatDecimal,
  HARBOUR_LANE,
  lastRevision,
  type MeasuredLine,
  type PatternId,
  plus,
  revise,
  stateOf,
  toDecimal,
} from '../../src/charts/index.ts';
import { callRight, meet, type Player, playerWho } from './seed.ts';

export interface Place {
  readonly pattern: PatternId;
  readonly start: number;
}

const demo = computeChart(HARBOUR_LANE);

/**
 * Called the number and the window of each right two days ago, and the number again today. So
 * nothing is left for today: no new line is wanted, and a line has one question a day.
 */
export function studentWith(...places: readonly Place[]): Promise<Player> {
  return playerWho(async (model) => {
    await model.changeSettings({
      newLinesADay: 0,
      kinds: ['number', 'window'],
      pictures: 'one',
    });
    const wanted = places.flatMap((place) =>
      model.cards.value.filter(
        (card): card is LineCard =>
          isLineCard(card) &&
          card.pattern === place.pattern &&
          card.start === toDecimal(place.start) &&
          (card.kind === 'number' || card.kind === 'window'),
      ),
    );
    for (const card of wanted) {
      await meet(model, card, 2);
      await callRight(model, card, 2);
    }
    for (const card of wanted) if (card.kind === 'number') await callRight(model, card);
  });
}

/** What the demo's chart prints at medium. */
export function printedAt({ pattern, start }: Place) {
  const line = demo.lines.find((one) => one.pattern === pattern && one.start === toDecimal(start));
  if (!line) throw new Error(`no ${pattern} from ${start}`);
  return line.numbers.medium.printed;
}

/** The number as it is said once it has moved. */
export function movedWords(place: Place, by: number): string {
  return formatDecimal(plus(printedAt(place), toDecimal(by)));
}

/** The chart with numbers measured anew at medium; the windows stay as computed. */
export function corrected(
  document: ChartDocument,
  moves: readonly (Place & { readonly by: number })[],
  author: string,
): ChartDocument {
  const state = stateOf(lastRevision(document));
  const measured = moves.map(
    ({ by, ...place }): MeasuredLine => ({
      pattern: place.pattern,
      start: toDecimal(place.start),
      medium: plus(printedAt(place), toDecimal(by)),
    }),
  );
  const kept = state.measured.filter(
    (old) => !measured.some((one) => one.pattern === old.pattern && one.start === old.start),
  );
  const date = new Date(Date.now()).toISOString().slice(0, 10);
  const why = 'Measured again: <b>short</b> & sweet.';
  return revise(document, { ...state, measured: [...kept, ...measured] }, { date, author, why });
}
