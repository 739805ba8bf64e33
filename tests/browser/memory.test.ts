import { readFileSync } from 'node:fs';
import ICAL from 'ical.js';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { LineCard } from '../../src/cards/index.ts';
import { cardName } from '../../src/quiz/index.ts';
import { type App, type PageOptions, startApp, watchErrors } from './app.ts';
import { readType } from './events.ts';
import {
  everywhere,
  expectNothingBeyond,
  expectSound,
  smallerThanThumb,
  violationsOn,
} from './everywhere.ts';
import { learner } from './learner.ts';
import { callRight, firstNumbers, type Player, playerWho } from './seed.ts';

let app: App;
let learned: Player;
beforeAll(async () => {
  app = await startApp();
  learned = await learner();
});
afterAll(() => app.close());

/** The day so many days from now by the local calendar, as a field for a date has it. */
function isoIn(days: number): string {
  const now = new Date();
  const local = new Date(Date.UTC(now.getFullYear(), now.getMonth(), now.getDate() + days));
  return local.toISOString().slice(0, 10);
}

const withinReach = smallerThanThumb('main button:visible, main summary:visible');

describe('in every theme and size', () => {
  it('no errors, nothing beyond the edge, nothing inaccessible, nothing cut off', async () => {
    const page = await openLearned({});
    const errors = watchErrors(page);
    await setDay(page, 'The long-named invitational of the Harbour Lane league', 24, 10);
    await everywhere(page);
    await expectNothingBeyondAt360(page);
    await page.getByRole('button', { name: 'Change the day' }).click();
    await page.getByRole('button', { name: 'Save the day' }).waitFor();
    await everywhere(page);
    await expectNothingBeyondAt360(page);
    await page.reload();
    await page.getByRole('button', { name: 'Change the day' }).waitFor();
    const numbers = page.locator('details.plot-numbers');
    await expect.poll(() => numbers.count()).toBe(5);
    for (const summary of await numbers.locator('summary').all()) await summary.click();
    await everywhere(page, withinReach);
    expect(errors).toEqual([]);
    await page.context().close();
  });

  it('letters of the plots are 12 px at least at 360 px', async () => {
    const page = await openLearned({ width: 360, height: 740 });
    const sizes = await page.locator('svg.plot, svg.holds').evaluateAll((all) =>
      all.flatMap((svg) =>
        [...svg.querySelectorAll('text')].map((text) => {
          const [, , width = 1] = (svg.getAttribute('viewBox') ?? '').split(' ').map(Number);
          const scale = svg.getBoundingClientRect().width / width;
          return Number.parseFloat(getComputedStyle(text).fontSize) * scale;
        }),
      ),
    );
    expect(sizes.length).toBeGreaterThan(20);
    expect(Math.min(...sizes)).toBeGreaterThanOrEqual(12);
    await page.context().close();
  });
});

describe('the page', () => {
  it('says the same in words, picture and table', async () => {
    const page = await openLearned({});
    const held = Number(await page.locator('.held-total strong').textContent());
    const curve = page.getByRole('region', { name: 'Forecast', exact: true });
    const label = await curve.locator('svg').getAttribute('aria-label');
    expect(label).toContain(`${held} lines known now`);
    await curve.locator('summary').click();
    expect(await curve.locator('tbody tr').first().locator('td').first().textContent()).toBe(
      String(held),
    );
    await page.context().close();
  });

  it('lists ten weak lines, the weakest first, each a link to its line', async () => {
    const page = await openLearned({});
    const sheet = page.getByRole('region', { name: 'Weakest lines' });
    const holds = (await sheet.locator('.number').allTextContents()).map(Number.parseFloat);
    expect(holds).toHaveLength(10);
    expect([...holds].sort((a, b) => a - b)).toEqual(holds);
    const link = sheet.getByRole('link').first();
    const name = (await link.textContent()) ?? '';
    await link.click();
    await page.getByRole('heading', { level: 1, name: name.split(' from ')[0] ?? '' }).waitFor();
    await page.context().close();
  });

  it('draws the holds of the pattern that is chosen', async () => {
    const page = await openLearned({});
    const sheet = page.getByRole('region', { name: 'On the table' });
    await sheet.getByLabel('Pattern').selectOption({ label: 'Cross-corner' });
    await sheet.getByRole('img', { name: /^Cross-corner on the table/ }).waitFor();
    // Eleven lines from 1.0 to 6.0; six of them at most were asked, every second of the chart's order.
    expect(await sheet.locator('.hold .ring').count()).toBe(11);
    const asked = await sheet.locator('.hold .disc').count();
    await sheet.locator('summary').click();
    const rows = await sheet.locator('tbody td').allTextContents();
    expect(rows.filter((row) => row !== 'not asked yet')).toHaveLength(asked);
    expect(asked).toBeGreaterThan(0);
    await page.context().close();
  });

  it('of a player without an answer is whole, too', async () => {
    const page = await app.open({ fragment: '#/memory' });
    await page.getByText('No line was asked yet.').waitFor();
    await expectSound(page, withinReach);
    await page.context().close();
  });

  it('is reached from the navigation where there is room', async () => {
    const page = await app.open({ width: 1280, height: 800 });
    await page.getByRole('navigation').getByRole('link', { name: 'Memory' }).click();
    await page.getByRole('heading', { level: 1, name: 'Memory' }).waitFor();
    await page.context().close();
  });
});

describe('a card that does not stick', () => {
  it('is shown with what helps, and is set aside in two steps', async () => {
    const { player, name } = await stubborn();
    const page = await app.open({ fragment: '#/memory', player });
    const sheet = page.getByRole('region', { name: 'Not sticking' });
    await sheet.getByRole('link', { name, exact: true }).waitFor();
    expect(await sheet.getByRole('listitem').count()).toBe(1);
    await sheet.getByText(/^(Anchor|Between the anchors)/).waitFor();
    await sheet.getByText(/^From \d+\.\d to \d+\.\d: .+ a diamond\.$/).waitFor();
    await everywhere(page, withinReach);
    await sheet.getByRole('button', { name: `Set aside … ${name}` }).click();
    await expectSound(page, withinReach);
    expect(await readType(page, 'set aside')).toEqual([]);
    await sheet.getByRole('button', { name: 'Keep it' }).click();
    await sheet.getByRole('button', { name: `Set aside … ${name}` }).click();
    await sheet.getByRole('button', { name: 'Set it aside' }).click();
    await sheet.getByText(`Set aside: ${name}.`).waitFor();
    expect(await readType(page, 'set aside')).toHaveLength(1);
    expect(await sheet.getByRole('listitem').count()).toBe(0);
    await expect
      .poll(() => page.evaluate(() => document.activeElement?.textContent))
      .toBe('Not sticking');
    await page.reload();
    await page.getByRole('region', { name: 'Weakest lines' }).waitFor();
    expect(await sheet.count()).toBe(0);
    await page.context().close();
  });

  it('has a drill, and a link to its line', async () => {
    const { player, name } = await stubborn();
    const page = await app.open({ fragment: '#/memory', player });
    const sheet = page.getByRole('region', { name: 'Not sticking' });
    await sheet.getByRole('link', { name: /^Drill / }).click();
    await page.locator('main[data-phase]').waitFor();
    expect(page.url()).toContain('#/drills/');
    await page.goBack();
    await sheet.getByRole('link', { name, exact: true }).click();
    await page.getByRole('heading', { level: 1, name: name.split(' from ')[0] ?? '' }).waitFor();
    await page.context().close();
  });
});

describe('how memory works', () => {
  it('is told after some weeks, and not to a new player', async () => {
    const page = await openLearned({});
    const sheet = page.getByRole('region', { name: 'How your memory works' });
    await sheet.getByText(/^Your memory lasts about .+ average learner’s\.$/).waitFor();
    await sheet
      .getByText('Forecasts use these numbers. They do not change what you are asked.')
      .waitFor();
    // Every answer of this player takes 3 s, and reading the result 6 s.
    await sheet.getByText('A question takes you about 9 seconds.').waitFor();
    await page.context().close();
    const fresh = await app.open({ fragment: '#/memory' });
    await fresh.getByText(/^After about 30 reviews, this page compares/).waitFor();
    await fresh.context().close();
  });
});

describe('the day', () => {
  it('is set by keyboard alone, kept, changed and cleared', async () => {
    const page = await openLearned({});
    await page.getByLabel('What it is called').focus();
    await page.keyboard.type('Quay Cup');
    await page.keyboard.press('Tab');
    await page.keyboard.type(typedDate(isoIn(24)));
    await page.keyboard.press('Tab');
    // Past the parts of the date and the button that opens a calendar, however many there are.
    while ((await focusedName(page)) !== 'minutes') await page.keyboard.press('Tab');
    await page.keyboard.press('Control+A');
    await page.keyboard.type('25');
    await page.keyboard.press('Enter');
    await page.getByText('25 minutes a day').waitFor();
    await page.reload();
    await page.getByText('Quay Cup', { exact: true }).waitFor();
    await page.getByRole('button', { name: 'Change the day' }).click();
    expect(await page.getByLabel('Date').inputValue()).toBe(isoIn(24));
    await page.getByLabel('Minutes a day').fill('40');
    await page.getByRole('button', { name: 'Save the day' }).click();
    await page.getByText('40 minutes a day').waitFor();
    await page.getByRole('button', { name: 'Change the day' }).click();
    await page.getByRole('button', { name: 'Clear it' }).click();
    await page.getByRole('button', { name: 'Set the day' }).waitFor();
    await page.context().close();
  });

  it('says in sentences what is wrong, keeps what was typed and goes to the first fault', async () => {
    const page = await openLearned({});
    await page.getByLabel('What it is called').fill('Quay Cup');
    await page.getByLabel('Date').fill(isoIn(-2));
    await page.getByLabel('Minutes a day').fill('999');
    await page.getByRole('button', { name: 'Set the day' }).click();
    await page.getByText('The day must come after today.').waitFor();
    await page.getByText(/^Give whole minutes, from \d+ to \d+\.$/).waitFor();
    expect(await focusedName(page)).toBe('date');
    expect(await page.getByLabel('What it is called').inputValue()).toBe('Quay Cup');
    expect(await page.getByLabel('Minutes a day').inputValue()).toBe('999');
    expect(await violationsOn(page)).toEqual([]);
    await page.context().close();
  });

  it('is not lost when the device is full', async () => {
    const page = await openLearned({});
    await page.evaluate(() => {
      IDBObjectStore.prototype.put = () => {
        throw new DOMException('no room', 'QuotaExceededError');
      };
    });
    await setDay(page, 'Quay Cup', 24, 10, false);
    await page.getByText('Not saved: the device has no room left.').waitFor();
    expect(await page.getByLabel('What it is called').inputValue()).toBe('Quay Cup');
    await page.context().close();
  });

  it('is practiced for: what is held on it is said in words, and drawn', async () => {
    const page = await openLearned({});
    await setDay(page, 'Quay Cup', 24, 30);
    const said = page.getByText(/^On \w+ \d+ \w+ you will know \d+ of 87 \(\d+–\d+\)$/);
    await said.waitFor();
    const [, held, low, high] = (
      /(\d+) of 87 \((\d+)–(\d+)\)/.exec((await said.textContent()) ?? '') ?? []
    ).map(Number);
    expect(low).toBeLessThanOrEqual(held ?? 0);
    expect(high).toBeGreaterThanOrEqual(held ?? 87);
    const curve = page.getByRole('region', { name: 'Forecast', exact: true });
    expect(await curve.getByRole('img').getAttribute('aria-label')).toContain(`${held} of 87`);
    expect(await curve.locator('.curve:not(.decay)').getAttribute('d')).toMatch(/^M/);
    await page.getByText('On average, with the days that you usually miss.').waitFor();
    await page.context().close();
  });

  it('that cannot be reached says what to drop, and sets it aside in two steps', async () => {
    const page = await openLearned({});
    await setDay(page, 'Quay Cup', 6, 3);
    const words = page.getByText(/^With 3 minutes a day you will know/);
    await words.waitFor();
    await page.goto(`${app.url}#/`);
    // Said on Today too, where the player looks first.
    await page.getByText(/less than nine lines of ten: see what to drop$/).click();
    await words.waitFor();
    const count = Number(/drop these (\d+) lines/.exec((await words.textContent()) ?? '')?.[1]);
    expect(count).toBeGreaterThan(1);
    await page.getByRole('button', { name: `Set these ${count} lines aside …` }).click();
    await expectSound(page, withinReach);
    expect(await readType(page, 'set aside')).toEqual([]);
    await page.getByRole('button', { name: 'Keep them' }).click();
    await page.getByRole('button', { name: `Set these ${count} lines aside …` }).click();
    await page.getByRole('button', { name: 'Set them aside' }).click();
    await expect.poll(async () => (await readType(page, 'set aside')).length).toBe(count);
    await page.goto(`${app.url}#/charts`);
    await page.getByRole('heading', { name: 'Set aside' }).waitFor();
    await page.context().close();
  });

  it('goes into a calendar: a session a day at the time that was chosen, and the day', async () => {
    const page = await openLearned({});
    await setDay(page, 'Quay Cup, final', 24, 25);
    await page.getByLabel('A session begins at').fill('00:00');
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Save the calendar file' }).click(),
    ]);
    expect(download.suggestedFilename()).toBe('quay-cup-final.ics');
    // Midnight is past: from tomorrow to the eve.
    await page.getByText('Saved as quay-cup-final.ics: 23 sessions and the day.').waitFor();
    const root = new ICAL.Component(ICAL.parse(readFileSync(await download.path(), 'utf8')));
    const [sessions, day] = root.getAllSubcomponents('vevent').map((one) => new ICAL.Event(one));
    expect(sessions?.startDate.toString()).toBe(`${isoIn(1)}T00:00:00`);
    expect(sessions?.duration.toString()).toBe('PT25M');
    expect(day?.startDate.toString()).toBe(isoIn(24));
    expect(day?.summary).toBe('Quay Cup, final');
    await page.context().close();
  });
});

/** One who has missed the same number on nine days, and called others right. */
async function stubborn(): Promise<{ readonly player: Player; readonly name: string }> {
  let name = '';
  const player = await playerWho(async (model) => {
    const [missed, ...others] = firstNumbers(model, 5) as [LineCard, ...LineCard[]];
    name = cardName(missed);
    for (let ago = 20; ago > 11; ago--) {
      const when = { day: model.today() - ago, at: model.now() - ago * 86_400_000 };
      const given = {
        kind: 'number',
        answer: [1],
        errors: [0.4],
        outcome: 'off',
        ms: 8000,
      } as const;
      await model.append({ type: 'answered', card: missed.id, ...given, ...when });
      if (ago % 3 === 0) for (const card of others) await callRight(model, card, ago);
    }
  });
  return { player, name };
}

/** Memory as a player sees it who has learned some lines. */
async function openLearned(options: PageOptions): Promise<Page> {
  const page = await app.open({ ...options, fragment: '#/memory', player: learned });
  await page.getByRole('heading', { level: 1, name: 'Memory' }).waitFor();
  return page;
}

async function setDay(
  page: Page,
  name: string,
  inDays: number,
  minutes: number,
  wait = true,
): Promise<void> {
  await page.getByLabel('What it is called').fill(name);
  await page.getByLabel('Date').fill(isoIn(inDays));
  await page.getByLabel('Minutes a day').fill(String(minutes));
  await page.getByRole('button', { name: 'Set the day' }).click();
  if (wait) await page.getByRole('button', { name: 'Change the day' }).waitFor();
}

/** As Chromium's field takes it in American English, its language here: month, day, year. */
function typedDate(iso: string): string {
  const [year, month, day] = iso.split('-');
  return `${month}${day}${year}`;
}

function focusedName(page: Page): Promise<string | null> {
  return page.evaluate(() => document.activeElement?.getAttribute('name') ?? null);
}

/** Many phones are so wide; with text as it is, and at 200 %. */
async function expectNothingBeyondAt360(page: Page): Promise<void> {
  const before = page.viewportSize();
  if (!before) throw new Error('the page has no size of its own');
  await page.setViewportSize({ width: 360, height: 740 });
  await expectNothingBeyond(page);
  await page.evaluate(() => document.documentElement.style.setProperty('font-size', '32px'));
  await expectNothingBeyond(page);
  await page.evaluate(() => document.documentElement.style.removeProperty('font-size'));
  await page.setViewportSize(before);
}
