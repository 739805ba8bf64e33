/** Every kind of question in a real browser: by the pad, by pointing, by the keyboard alone. */

import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  type Card,
  cardsOf,
  fieldsOf,
  isSkill,
  KINDS,
  type Kind,
  pictureFor,
  type Question,
  questionOf,
  seedFor,
} from '../../src/cards/index.ts';
import {
  computeChart,
  type Decimal,
  formatDecimal,
  HARBOUR_LANE,
  roundTo,
  toDecimal,
  toNumber,
  VERDICTS,
} from '../../src/charts/index.ts';
import { spot } from '../../src/figure/frame.ts';
import { wishOf } from '../../src/quiz/index.ts';
import {
  type Answered,
  type EventDraft,
  foldLog,
  type LogEvent,
  nextStep,
} from '../../src/scheduler/index.ts';
import { DEFAULT_SETTINGS, formatBackup, type Settings } from '../../src/store/index.ts';
import { type Mirror, sightAt } from '../../src/table/index.ts';
import { type App, startApp, watchErrors } from './app.ts';
import { readEvents } from './events.ts';
import { violationsOn } from './everywhere.ts';
import { playerOf, studyDayNow } from './seed.ts';

const chart = computeChart(HARBOUR_LANE);
const tolerance = toDecimal(0.1);
const cards = cardsOf(chart, tolerance);

let app: App;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.close());

const WAYS = { pad: byPad, pointer: byPointer, keyboard: byKeyboard } as const;

describe.each(KINDS)('%s', (kind) => {
  it('is asked, answered three ways, graded alike and shown, on a phone', async () => {
    const { page, events } = await pageWith(kind);
    const errors = watchErrors(page);
    for (const [way, answerBy] of Object.entries(WAYS)) {
      const asked = questionNow(events, kind);
      await page.locator('main.quiz[data-phase="asking"]').waitFor();
      // Nothing of the answer is drawn, and nothing has to be scrolled to.
      expect(await page.locator('.table-figure :is(.path, .aim)').count()).toBe(0);
      expect(await scrolls(page)).toBe(false);
      if (way === 'pad') expect(await violationsOn(page)).toEqual([]);
      await answerBy(page, asked);
      await page.locator('main.quiz[data-phase="answered"]').waitFor();
      const stored = (await readEvents(page)) as unknown as readonly LogEvent[];
      const last = stored.filter(({ device }) => device !== 'seeded').at(-1);
      if (last?.type !== 'answered') throw new Error(`a ${last?.type} came last`);
      expect(last.card).toBe(asked.card.id);
      expect(['pocketed', 'dead center']).toContain(last.outcome);
      expect(last.answer).toEqual(answersTo(asked.question).map(toNumber));
      expect(last.asked !== undefined).toBe(isSkill(kind));
      if (way === 'pad') expect(await violationsOn(page)).toEqual([]);
      // The table is drawn anew once the outcome is told, and what leads to the number stands with it.
      await page.locator('.table-figure .path').first().waitFor();
      expect(await page.locator('.working-steps').count()).toBe(hasWorking(asked.question) ? 1 : 0);
      events.push(last);
      await page.keyboard.press('Enter');
    }
    expect(errors).toEqual([]);
    await page.context().close();
  });
});

interface Asked {
  readonly card: Card;
  readonly question: Question;
  readonly mirror: Mirror;
}

/** What the page is to ask by its log: worked out here from the same events. */
function questionNow(events: readonly LogEvent[], kind: Kind): Asked {
  const log = foldLog(events);
  const { step } = nextStep(cards, log, studyDayNow(), wishOf(settingsFor(kind)));
  if (step?.type !== 'ask' || step.card.kind !== kind) throw new Error(`no ${kind} is next`);
  const { card } = step;
  const times = log.memories.get(card.id)?.answers ?? 0;
  const asker = { chart, tolerance, speeds: ['medium'] as const };
  const question = questionOf(asker, card, seedFor(card.id, times));
  if (!question) throw new Error(card.id);
  return { card, question, mirror: pictureFor(card.id, times) };
}

/** The right answer to the tenth that can be pointed at. */
function answersTo({ truth, kind }: Question): readonly Decimal[] {
  return kind === 'trust' ? truth : truth.map((value) => roundTo(toNumber(value), toDecimal(0.1)));
}

function hasWorking(question: Question): boolean {
  if (question.kind === 'arrival') return question.known !== null;
  return isSkill(question.kind);
}

async function byPad(page: Page, { question }: Asked): Promise<void> {
  const press = (name: string) => page.getByRole('button', { name, exact: true }).click();
  if (question.kind === 'trust') {
    await press(VERDICTS[toNumber(question.truth[0])] ?? '');
    return;
  }
  const answers = answersTo(question);
  for (const [n, value] of answers.entries()) {
    if (value < 0) await press('change the sign');
    for (const character of formatDecimal(Math.abs(value) as Decimal)) {
      await press(character === '.' ? 'decimal point' : character);
    }
    await press(n < answers.length - 1 ? 'Then firm' : 'Call it');
  }
}

async function byPointer(page: Page, asked: Asked): Promise<void> {
  const { question, mirror } = asked;
  if (question.kind === 'trust') return byPad(page, asked);
  const press = (name: string) => page.getByRole('button', { name, exact: true }).click();
  const answers = answersTo(question);
  for (const [n, value] of answers.entries()) {
    const { count } = fieldsOf(question)[n] ?? {};
    if (count) {
      const { table } = chart.setting;
      const at = spot({ table, mirror }, sightAt(table, count, toNumber(value)));
      await tapOnTable(page, at);
    } else {
      // The ruler's box is 360 wide with its zero in the middle; a diamond is drawn alike all over.
      await page.getByRole('slider').focus();
      await page.keyboard.press('ArrowRight');
      await page.keyboard.press('Home');
      const ruler = await page.getByRole('slider').boundingBox();
      if (!ruler) throw new Error('no ruler');
      await page.mouse.click(ruler.x + ruler.width / 2, ruler.y + ruler.height / 2);
      for (let tenth = 0; tenth < Math.abs(value) / 1000; tenth++) {
        await page.keyboard.press(value < 0 ? 'ArrowLeft' : 'ArrowRight');
      }
    }
    await press(n < answers.length - 1 ? 'Then firm' : 'Call it');
  }
}

/** A tap on the drawn table, in the drawing's millimeters. */
async function tapOnTable(page: Page, at: { readonly x: number; readonly y: number }) {
  const place = await page.locator('svg.table-figure').evaluate((svg, spotAt) => {
    const matrix = (svg as SVGSVGElement).getScreenCTM();
    if (!matrix) throw new Error('the table is not drawn');
    const { x, y } = new DOMPoint(spotAt.x, spotAt.y).matrixTransform(matrix);
    return { x, y };
  }, at);
  await page.mouse.click(place.x, place.y);
}

async function byKeyboard(page: Page, { question }: Asked): Promise<void> {
  if (question.kind === 'trust') {
    await page.keyboard.press(String(toNumber(question.truth[0]) + 1));
    return;
  }
  for (const value of answersTo(question)) {
    await page.keyboard.type(formatDecimal(value).replace('−', '-'));
    // One step there and one back: the arrow keys move what was typed.
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowLeft');
    await page.keyboard.press('Enter');
  }
}

async function scrolls(page: Page): Promise<boolean> {
  return page.evaluate(() => document.documentElement.scrollHeight > window.innerHeight + 1);
}

function settingsFor(kind: Kind): Settings {
  const kinds = kind === 'number' ? (['number'] as const) : (['number', kind] as const);
  return { ...DEFAULT_SETTINGS, kinds, newLinesADay: 0 };
}

/** An answer that was right: it tells the chart's number, or the card would be met as moved. */
function rightly(card: Card): Pick<Answered, 'answer' | 'errors'> {
  if (isSkill(card.kind)) return { answer: null, errors: null };
  const truth = questionOf({ chart, tolerance, speeds: ['medium'] }, card, 0)?.truth ?? [];
  return { answer: truth.map(toNumber), errors: truth.map(() => 0) };
}

/** A player who knows all numbers well, and was asked all of the kind once, long ago. */
async function pageWith(kind: Kind): Promise<{ page: Page; events: LogEvent[] }> {
  const long = cards.filter((card) => card.kind === kind).map((card) => ({ card, day: 60 }));
  const numbers = cards
    .filter((card) => card.kind === 'number' && kind !== 'number')
    .flatMap((card) => [90, 87, 80, 62, 1].map((day) => ({ card, day })));
  const oldestFirst = [...long, ...numbers].sort((a, b) => b.day - a.day);
  const events = oldestFirst.map(({ card, day: ago }, seq): LogEvent => {
    const draft: EventDraft = {
      type: 'answered',
      card: card.id,
      kind: card.kind,
      ...rightly(card),
      outcome: 'dead center',
      ms: 3000,
      day: studyDayNow() - ago,
      at: (studyDayNow() - ago) * 86_400_000 + seq,
    };
    return { ...draft, version: 1, id: `seeded:${seq}`, device: 'seeded', seq };
  });
  const backup = { events, charts: [], settings: settingsFor(kind), unread: [] };
  const player = await playerOf(formatBackup(backup, '2026-01-01T00:00:00Z'));
  const page = await app.open({ player, fragment: '#/quiz' });
  await page.emulateMedia({ reducedMotion: 'reduce' });
  return { page, events };
}
