import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  computeChart,
  HARBOUR_LANE,
  type Line,
  lastRevision,
  patternOf,
  toNumber,
} from '../../src/charts/index.ts';
import { missOf } from '../../src/shots/arrival.ts';
import { playIntoPocket, type Setting } from '../../src/table/index.ts';
import { type App, startApp, watchErrors } from './app.ts';
import { readType } from './events.ts';
import { everywhere, type Law } from './everywhere.ts';

let app: App;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.close());

const chart = computeChart(HARBOUR_LANE);
/** The same table with dead cushions. */
const dead: Setting = {
  ...chart.setting,
  condition: { ...chart.setting.condition, restitution: 0.76 },
};
const deadChart = computeChart({
  ...HARBOUR_LANE,
  revisions: [{ ...lastRevision(HARBOUR_LANE), condition: dead.condition }],
});
/** Foot-rail lines at medium, and one of the lines across. */
const lines = chart.lines.filter(
  ({ pattern, start }) =>
    (pattern === 'foot-to-side' && start % 10_000 === 0 && start <= 60_000) ||
    (pattern === 'foot-to-far-corner' && start % 20_000 === 0) ||
    (pattern === 'up-and-back' && start === 20_000),
);

/** What a player of the dead table would tell of the printed number: made, or to a quarter. */
function arrival(line: Line): number | null {
  const route = patternOf(line.pattern);
  const start = toNumber(line.start);
  const aim = toNumber(line.numbers.medium.printed);
  const launch = { speed: dead.condition.speeds.medium };
  if (playIntoPocket(dead, route, start, aim, launch)?.kind === 'drops') return null;
  const miss = missOf(dead, { route, start, speed: 'medium', aim });
  if (miss === null) throw new Error('it does not arrive');
  return Math.max(-1, Math.min(1, Math.round(miss * 4) / 4));
}

const KEYS: Readonly<Record<string, string>> = {
  '0.25': 'a quarter',
  '0.5': 'half a diamond',
  '0.75': 'three quarters',
  '1': '1 diamond',
};

async function logShot(page: Page, line: Line): Promise<void> {
  const details = page.locator('details.other-line');
  if (!(await details.evaluate((one) => (one as HTMLDetailsElement).open))) {
    await details.locator('summary').click();
  }
  await page.getByLabel('Pattern').selectOption({ label: patternOf(line.pattern).name });
  await page.getByLabel('Start').selectOption({ label: toNumber(line.start).toFixed(1) });
  await page.getByRole('radio', { name: 'medium' }).check();
  const miss = arrival(line);
  const side = (miss ?? 0) < 0 ? 'Short' : 'Long';
  const name =
    miss === null
      ? 'Made'
      : miss === 0
        ? 'At the pocket, not made'
        : `${side} by ${KEYS[String(Math.abs(miss))]}`;
  const more = page.getByRole('button', { name: 'More …' });
  if (miss === 0 && (await more.count()) > 0) await more.click();
  const before = (await readType(page, 'table shot')).length;
  await page.getByRole('button', { name, exact: true }).click();
  await expect.poll(async () => (await readType(page, 'table shot')).length).toBe(before + 1);
}

/** A phone's navigation lies over the lowest 56 px. */
const NAVIGATION = 56;

/** The keys and the way back are in reach without scrolling, with text of the usual size. */
const keysInReach: Law = async (page) => {
  const { width = 0, height = 0 } = page.viewportSize() ?? {};
  const text = await page.evaluate(() => getComputedStyle(document.documentElement).fontSize);
  if (text !== '16px' || height < 800) return [];
  const lowest = height - (width < 600 ? NAVIGATION : 0);
  const names = ['Made', 'Short by 1 diamond', 'Long by 1 diamond', 'Undo last'];
  const faults = names.map(async (name) => {
    const box = await page.getByRole('button', { name, exact: true }).boundingBox();
    if (!box) return [`${name} is not there`];
    return [
      ...(box.y + box.height < lowest ? [] : [`${name} is out of reach`]),
      ...(box.height >= 44 ? [] : [`${name} is lower than 44 px`]),
    ];
  });
  return (await Promise.all(faults)).flat();
};

describe('table day, in every theme and size', () => {
  it('hears shots at a dead table, and says what to take off', async () => {
    const page = await app.open();
    const errors = watchErrors(page);
    await page.getByRole('link', { name: /^Table day/ }).click();
    await page.getByText('Most useful next shot').waitFor();
    await everywhere(page, keysInReach);
    for (const line of lines) await logShot(page, line);
    // With the choices of another line open, too, the keys are above a phone's navigation.
    await page.evaluate(() => window.scrollTo(0, 0));
    const lowest = await page.getByRole('button', { name: 'Undo last' }).boundingBox();
    const { height } = page.viewportSize() ?? { height: 0 };
    expect((lowest?.y ?? height) + (lowest?.height ?? 0)).toBeLessThan(height - NAVIGATION);
    const say = page.locator('.say', { hasText: 'Say this in your head tonight' });
    await say.waitFor();
    const words = (await say.textContent()) ?? '';
    const [, amount] = /take (0\.\d+) off every foot-rail number/.exec(words) ?? [];
    // The mean of what the solved numbers of those lines differ by on the dead table.
    const mean =
      lines.reduce((sum, { pattern, start, numbers }) => {
        const other = deadChart.lines.find((one) => one.pattern === pattern && one.start === start);
        return sum + (other?.numbers.medium.exact ?? Number.NaN) - numbers.medium.exact;
      }, 0) / lines.length;
    expect(mean).toBeLessThan(-0.1);
    expect(Math.abs(Number(amount) + mean), words).toBeLessThanOrEqual(0.1);
    await page.getByRole('img', { name: /within 0.1 of a diamond/ }).waitFor();
    await everywhere(page);

    const shots = await readType(page, 'table shot');
    expect(shots.map(({ pattern, start, miss }) => [pattern, start, miss])).toEqual(
      lines.map((line) => [line.pattern, toNumber(line.start), arrival(line)]),
    );

    await page.getByRole('link', { name: 'Today' }).click();
    await page.getByRole('link', { name: /^Look up/ }).click();
    await page.getByText('Tap the start on a rail.').waitFor();
    const band = page.getByRole('slider', { name: 'left rail' });
    await band.focus();
    for (const key of ['Home', 'PageUp', 'PageUp', 'PageUp', 'Enter'])
      await page.keyboard.press(key);
    await page.getByRole('button', { name: 'head-right corner', exact: true }).click();
    await page
      .locator('.tonight-numbers', { hasText: `With tonight’s −${amount}: soft` })
      .waitFor();
    await everywhere(page);
    await page.goto(`${app.url}#/table-day`);
    await page.reload();
    await say.waitFor();
    await page.getByText(/^Cushions: deader/).waitFor();
    await page.getByRole('button', { name: 'Keep as a table of its own' }).click();
    // Bug: a revision was signed by nobody and not asked why.
    await page.getByText('Say who you are').waitFor();
    expect(await page.getByRole('button', { name: 'Keep the table' }).isDisabled()).toBe(true);
    await page.getByLabel('Your name').fill('Pier');
    await everywhere(page);
    await page.getByRole('button', { name: 'Keep the table' }).click();
    await page.getByText('Choose it under Charts.').waitFor();
    await page.getByRole('button', { name: 'Make it a revision of this chart' }).click();
    await page.getByText(/that you have learned|You have learned none/).waitFor();
    await everywhere(page);
    expect(await page.getByLabel('Your name').inputValue()).toBe('Pier');
    expect(await page.getByLabel('Why').inputValue()).toMatch(/^Fitted to \d+ test shots/);
    await page.getByRole('button', { name: 'Save the revision' }).click();
    await page.getByText('Kept as a revision of this chart.').waitFor();
    // On the corrected chart the same shots ask for nothing large any more.
    await page.getByText('plays as the chart says').waitFor();
    const revisions = await readType(page, 'revised');
    expect(revisions.map(({ chart: id }) => id)).toEqual([HARBOUR_LANE.id]);
    expect(errors).toEqual([]);
    await page.context().close();
  });
});

describe('table day', () => {
  it('takes back the last shot and any other, by the keyboard alone', async () => {
    const page = await app.open({ fragment: '#/table-day' });
    for (const n of [1, 2, 3]) {
      await page.getByText('Most useful next shot').waitFor();
      const key = page.getByRole('button', { name: 'Short by a quarter' });
      await key.focus();
      await page.keyboard.press('Enter');
      await page.getByRole('button', { name: new RegExp(`^Remove shot ${n}`) }).waitFor();
    }
    const undo = page.getByRole('button', { name: 'Undo last' });
    await undo.focus();
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: /^Remove shot 3/ }).waitFor({ state: 'detached' });
    const first = page.getByRole('button', { name: /^Remove shot 1/ });
    await first.focus();
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: /^Remove shot 2/ }).waitFor({ state: 'detached' });
    const taken = await readType(page, 'taken back');
    const shots = await readType(page, 'table shot');
    expect(taken.map(({ answered }) => answered)).toEqual([shots[2]?.id, shots[0]?.id]);
    await page.context().close();
  });

  it('hears a double tap once, and keeps the focus on the key', async () => {
    const page = await app.open({ fragment: '#/table-day' });
    await page.getByText('Most useful next shot').waitFor();
    const key = page.getByRole('button', { name: 'Long by a quarter' });
    await key.dblclick();
    await page.getByRole('button', { name: /^Remove shot 1/ }).waitFor();
    expect(await key.evaluate((one) => one === document.activeElement)).toBe(true);
    await page.getByText('Most useful next shot').waitFor();
    expect(await readType(page, 'table shot')).toHaveLength(1);
    const remove = page.getByRole('button', { name: /^Remove shot 1/ });
    await remove.focus();
    await page.keyboard.press('Enter');
    await remove.waitFor({ state: 'detached' });
    const made = page.getByRole('button', { name: 'Made', exact: true });
    await expect.poll(() => made.evaluate((one) => one === document.activeElement)).toBe(true);
    await page.context().close();
  });

  it('stays with a line that was picked, and goes back when it is told', async () => {
    const page = await app.open({ width: 1280, height: 800, fragment: '#/table-day' });
    await page.getByText('Chart: Harbour Lane').waitFor();
    await page.getByText('Most useful next shot').waitFor();
    await page.locator('details.other-line summary').click();
    await page.getByLabel('Pattern').selectOption({ label: 'Up and back' });
    await page.getByRole('button', { name: '0.1 more' }).click();
    await page.getByText('0.1 more than printed').waitFor();
    await page.getByRole('radio', { name: 'firm' }).check();
    await page.getByText('0.1 more than printed').waitFor();
    await page.getByRole('button', { name: 'Short by a quarter' }).click();
    await page.getByRole('button', { name: /^Remove shot 1/ }).waitFor();
    await page
      .getByText(/for every foot-rail number|Nothing to say yet/)
      .first()
      .waitFor();
    expect(await page.locator('.shoot-name strong').textContent()).toBe('Up and back');
    await page.getByRole('button', { name: 'Back to the suggested line' }).click();
    await page.getByText('Most useful next shot').waitFor();
    await page.context().close();
  });

  it('asks another line where one did not get there, and logs nothing', async () => {
    const page = await app.open({ fragment: '#/table-day' });
    await page.getByText('Most useful next shot').waitFor();
    const checked = page.locator('input[name=table-day-speed]:checked');
    const asked = async () => [
      await page.locator('.shoot-name').textContent(),
      await page.locator('label.chip', { has: checked }).textContent(),
    ];
    const before = await asked();
    const key = page.getByRole('button', { name: 'Did not get there' });
    await key.click();
    await page.getByText('Not logged, and not asked again tonight').waitFor();
    await page.locator('.shoot-line[aria-busy=false]').waitFor();
    await page.getByText('Most useful next shot').waitFor();
    expect(await asked()).not.toEqual(before);
    expect(await readType(page, 'table shot')).toEqual([]);
    await page.context().close();
  });

  it('keeps the number that was aimed at, if it is not the printed one', async () => {
    const page = await app.open({ fragment: '#/table-day' });
    await page.getByText('Most useful next shot').waitFor();
    const output = page.getByLabel('The number aimed at');
    const printed = Number(await output.textContent());
    await page.getByRole('button', { name: '0.1 more' }).click();
    expect(Number(await output.textContent())).toBeCloseTo(printed + 0.1, 9);
    await page.getByRole('button', { name: 'Made', exact: true }).click();
    await page.getByText('Last:').waitFor();
    const [shot] = await readType(page, 'table shot');
    expect(shot?.aim).toBeCloseTo(printed + 0.1, 9);
    expect(shot?.miss).toBe(null);
    await page.context().close();
  });
});
