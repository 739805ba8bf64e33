/** A student of the demo's instructor who has learned some lines, to begin a page with. */

import { isLineCard, type LineCard, questionOf } from '../../src/cards/index.ts';
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
  toNumber,
} from '../../src/charts/index.ts';
import { type Player, playerWho } from './seed.ts';

export interface Place {
  readonly pattern: PatternId;
  readonly start: number;
}

const demo = computeChart(HARBOUR_LANE);
const tolerance = toDecimal(0.1);
const TWO_DAYS = 2 * 86_400_000;

/** Answered well two days ago, the number and the window of each; no new line is wanted. */
export function studentWith(...places: readonly Place[]): Promise<Player> {
  return playerWho(async (model) => {
    await model.changeSettings({
      newLinesPerDay: 0,
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
    const when = { day: model.today() - 2, at: Date.now() - TWO_DAYS };
    for (const card of wanted) {
      const question = questionOf({ chart: demo, tolerance, speeds: ['medium'] }, card, 0);
      const truth = question?.truth ?? [];
      await model.append({ type: 'met', line: card.lineId, ...when });
      await model.append({
        type: 'answered',
        card: card.id,
        kind: card.kind,
        answer: truth.map(toNumber),
        errors: truth.map(() => 0),
        outcome: 'dead center',
        ms: 3000,
        ...when,
      });
    }
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
