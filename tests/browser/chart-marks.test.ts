import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { isLineCard } from '../../src/cards/index.ts';
import { toDecimal } from '../../src/charts/index.ts';
import { type App, beginQuiz, startApp, watchErrors } from './app.ts';
import { readEvents } from './events.ts';
import { everywhere } from './everywhere.ts';
import { type Player, playerWho } from './seed.ts';

let app: App;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.close());

const LINE = { pattern: 'cross-side', start: toDecimal(6) } as const;
const LINE_PAGE = '#/charts/cross-side/6';

/** One who has flagged that line by a number that is not its own. */
function flagging(): Promise<Player> {
  return playerWho(async (model) => {
    const card = model.cards.value
      .filter(isLineCard)
      .find(({ pattern, start }) => pattern === LINE.pattern && start === LINE.start);
    if (!card) throw new Error('the chart has no such line');
    const when = { day: model.today(), at: Date.now() };
    const flag = { line: card.lineId, speed: 'medium', number: 0.25 } as const;
    await model.append({ type: 'flagged', ...flag, ...when });
  });
}

/** What is printed at medium on a line's row of the table. */
async function mediumOf(page: Page): Promise<string> {
  const text = await page.locator('.number-table tr.chosen td.medium').first().textContent();
  return /^[\d.]+/.exec(text ?? '')?.[0] ?? '';
}

/** Flags the line that the quiz asks first, by a number that is not its own; ends on its page. */
async function flagFirst(page: Page): Promise<void> {
  await beginQuiz(page);
  await page.getByRole('button', { name: 'Show me' }).click();
  await page.locator('main.quiz[data-phase="answered"]').waitFor();
  await page.getByText('This line', { exact: true }).click();
  await page.getByRole('textbox', { name: /should be/ }).fill('0.25');
  await page.getByRole('button', { name: /^Flag it/ }).click();
  await page.getByText('Your marks', { exact: true }).waitFor();
}

describe('marks on a chart', () => {
  it('a flag is drawn beside the chart’s number, marked, counted, and taken down', async () => {
    const page = await app.open();
    const errors = watchErrors(page);
    await flagFirst(page);
    const medium = await mediumOf(page);
    const said = `You flagged this line: 0.25 instead of ${medium} at medium.`;
    await page.getByText(said).waitFor();
    await page.getByText(/^With 0\.25 the ball .*With the chart’s [\d.]+ it /).waitFor();
    expect(await pathsOn(page)).toEqual(['path yours', 'path true']);
    await page.getByRole('button', { name: /^Draw the line from .*, flagged$/ }).waitFor();
    await everywhere(page);
    await page.getByRole('button', { name: 'Draw the three speeds' }).click();
    expect(await pathsOn(page)).toEqual(['path soft', 'path medium', 'path firm']);
    await page.getByRole('button', { name: 'Draw your flagged number' }).click();
    const address = page.url();

    await page.goto(`${app.url}#/charts`);
    await page.getByText('1 line flagged').waitFor();
    await everywhere(page);

    await page.goto(address);
    await page.getByText(said).waitFor();
    await page.getByRole('button', { name: 'Take the flag down' }).click();
    await page.getByText('The flag is down.').waitFor();
    await page.getByText(said).waitFor({ state: 'detached' });
    expect(await pathsOn(page)).toEqual(['path soft', 'path medium', 'path firm']);
    expect((await readEvents(page)).at(-1)).toMatchObject({ type: 'flagged', number: null });
    await page.goto(`${app.url}#/charts`);
    await page.getByRole('heading', { level: 1, name: 'Charts' }).waitFor();
    expect(await page.getByText('flagged').count()).toBe(0);
    expect(errors).toEqual([]);
    await page.context().close();
  });

  it('a line is set aside on its page and taken in again on Charts', async () => {
    const page = await app.open({ fragment: LINE_PAGE, player: await flagging() });
    const errors = watchErrors(page);
    await page.getByRole('heading', { name: /^From 6\.0/ }).waitFor();
    await page.getByRole('button', { name: 'Set aside' }).click();
    await page.getByText('This line is set aside: it is not asked.').waitFor();
    await page.getByText('You flagged this line: 0.25').waitFor();
    await everywhere(page);
    await page.goto(`${app.url}#/charts`);
    await page.getByText('1 line flagged').waitFor();
    const sheet = page.getByRole('region', { name: 'Set aside' });
    await sheet.getByText('Cross-side from 6.0', { exact: true }).waitFor();
    await everywhere(page);
    await sheet.getByRole('button', { name: 'Take in again: Cross-side from 6.0' }).click();
    await sheet.getByText('Cross-side from 6.0 is asked again.').waitFor();
    expect(await sheet.getByRole('listitem').count()).toBe(0);
    const events = await readEvents(page);
    expect(events.map(({ type, aside }) => [type, aside])).toEqual([
      ['flagged', undefined],
      ['set aside', true],
      ['set aside', false],
    ]);
    expect(errors).toEqual([]);
    await page.context().close();
  });
});

describe('a note', () => {
  it('is kept with its line, changed and removed', async () => {
    const page = await app.open({ fragment: LINE_PAGE });
    await page.getByRole('textbox', { name: 'Note' }).fill('Short on table 3.');
    await page.getByRole('button', { name: 'Keep the note' }).click();
    await page.getByText('Noted.').waitFor();
    await page.getByRole('button', { name: /^Draw the line from 7\.0/ }).click();
    expect(await page.getByRole('textbox', { name: 'Note' }).inputValue()).toBe('');
    await page.close();

    const again = await app.open({ of: page.context(), fragment: LINE_PAGE });
    const note = again.getByRole('textbox', { name: 'Note' });
    await note.waitFor();
    expect(await note.inputValue()).toBe('Short on table 3.');
    await note.fill('');
    await again.getByRole('button', { name: 'Keep the note' }).click();
    await again.getByText('Noted.').waitFor();
    expect((await readEvents(again)).map(({ text }) => text)).toEqual(['Short on table 3.', '']);
    await again.context().close();
  });
});

describe('another table that is tried', () => {
  it('keeps the flag in words, and draws its own three speeds', async () => {
    const page = await app.open({ fragment: LINE_PAGE, player: await flagging() });
    await page.locator('.path.yours').waitFor();
    expect(await pathsOn(page)).toEqual(['path yours', 'path true']);
    await page.getByLabel('Size').selectOption({ index: 2 });
    await page.getByText('Trying a table out').waitFor();
    await page.locator('.path.medium').waitFor();
    expect(await page.locator('.path.yours').count()).toBe(0);
    await page.getByText('You flagged this line: 0.25').waitFor();
    await page.context().close();
  });
});

async function pathsOn(page: Page): Promise<readonly (string | null)[]> {
  return page
    .locator('.pattern-figure .path')
    .evaluateAll((paths) => paths.map((path) => path.getAttribute('class')));
}
