import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type App, startApp, watchErrors } from './app.ts';
import { readType } from './events.ts';
import { violationsOn } from './everywhere.ts';
import { firstNumbers, meet, type Player, playerWho } from './seed.ts';

let app: App;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.close());

describe('practice by ear', () => {
  it('by touch: the caution, the question, the number, and both judgements on the disk', async () => {
    const page = await openWithVoice(await playerWithLines());
    const errors = watchErrors(page);
    await page.getByRole('button', { name: 'Begin', exact: true }).waitFor();
    expect(await violationsOn(page)).toEqual([]);
    await page.getByRole('button', { name: 'Begin', exact: true }).click();
    await at(page, 'caution');
    expect(await violationsOn(page)).toEqual([]);
    await endSpeech(page);
    await at(page, 'asking');
    expect(await violationsOn(page)).toEqual([]);
    await endSpeech(page);
    await at(page, 'thinking');
    expect(await violationsOn(page)).toEqual([]);
    // Where a thumb falls: anywhere on the ground skips ahead.
    await page.mouse.click(80, 500);
    await at(page, 'telling');
    await endSpeech(page);
    await at(page, 'judging');
    expect(await violationsOn(page)).toEqual([]);
    expect(await dimmest(page)).toBeGreaterThanOrEqual(4.5);
    const [caution, question, number] = await said(page);
    expect(caution).toBe('Do not practice while driving.');
    const shown = (await page.locator('.ear-number').textContent()) ?? '';
    expect(number?.toLowerCase()).toBe(`${spelt(shown)}.`);
    expect(question).toContain((await page.locator('.ear-words h1').textContent()) ?? 'no heading');
    await settleNumber(page);
    // The right half, near its edge, over the words; then the left one.
    await page.mouse.click(380, 420);
    await at(page, 'asking');
    await page.mouse.click(200, 500);
    await at(page, 'thinking');
    await page.mouse.click(200, 500);
    await at(page, 'telling');
    await settleNumber(page);
    await page.mouse.click(20, 780);
    await at(page, 'asking');
    expect(await answers(page)).toMatchObject([
      { type: 'answered', judged: 'self', answer: null, errors: null, outcome: 'pocketed' },
      { type: 'answered', judged: 'self', answer: null, errors: null, outcome: 'off' },
    ]);
    expect(errors).toEqual([]);
    await page.context().close();
  });

  it('by keys: Enter and arrows, Space, r and Backspace, to the end', async () => {
    const page = await openWithVoice(await playerWithLines());
    const errors = watchErrors(page);
    await page.locator('button:focus', { hasText: 'Begin' }).waitFor();
    await page.keyboard.press('Enter');
    await at(page, 'caution');
    await page.keyboard.press('Enter');
    await at(page, 'asking');
    await page.keyboard.press(' ');
    await at(page, 'paused');
    expect(await violationsOn(page)).toEqual([]);
    await page.keyboard.press(' ');
    await at(page, 'asking');
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Enter');
    await at(page, 'telling');
    await page.keyboard.press('r');
    await at(page, 'asking');
    for (const key of ['Backspace', 'ArrowRight', 'Enter', 'ArrowRight', 'Enter']) {
      await page.keyboard.press('Enter');
      await page.keyboard.press('Enter');
      await at(page, 'telling');
      await settleNumber(page);
      await page.keyboard.press(key);
      await page.locator('main.ear:is([data-phase="asking"], [data-phase="done"])').waitFor();
      if ((await page.locator('main.ear').getAttribute('data-phase')) === 'done') break;
    }
    await page.getByRole('heading', { name: 'Nothing left by ear today' }).waitFor();
    expect(await violationsOn(page)).toEqual([]);
    const written = await answers(page);
    expect(written[0]).toMatchObject({ judged: 'self', outcome: 'off' });
    expect(written.slice(1).every((event) => event.outcome === 'pocketed')).toBe(true);
    expect(written.length).toBeGreaterThan(1);
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: 'Today', exact: true }).waitFor();
    expect(errors).toEqual([]);
    await page.context().close();
  });

  it('a button reached with Tab answers to its own Enter, and a key held down judges nothing', async () => {
    const page = await openWithVoice(await playerWithLines());
    await page.locator('button:focus', { hasText: 'Begin' }).waitFor();
    await page.keyboard.press('Enter');
    await at(page, 'caution');
    await page.keyboard.down('Enter');
    await at(page, 'asking');
    for (let n = 0; n < 5; n++) await page.keyboard.down('Enter');
    await page.keyboard.up('Enter');
    await at(page, 'asking');
    await page.keyboard.press('Enter');
    await page.keyboard.press('Enter');
    await at(page, 'telling');
    await settleNumber(page);
    await page.getByRole('button', { name: 'Missed', exact: true }).focus();
    await page.keyboard.press('Enter');
    await at(page, 'asking');
    expect(await answers(page)).toMatchObject([{ outcome: 'off' }]);
    await page.context().close();
  });

  it('says a question again at a press, and calls that so', async () => {
    const page = await openWithVoice(await playerWithLines());
    await page.getByText('R say it again').waitFor();
    await page.getByRole('button', { name: 'Begin', exact: true }).click();
    await at(page, 'caution');
    await endSpeech(page);
    await at(page, 'asking');
    await endSpeech(page);
    await at(page, 'thinking');
    await page.getByRole('button', { name: 'Say it again', exact: true }).click();
    await at(page, 'asking');
    const [, first, second] = await said(page);
    expect(second).toBe(first);
    // On a narrow phone the name of the button stays on one line, and nothing scrolls sideways.
    await page.setViewportSize({ width: 320, height: 568 });
    const lines = await page.getByRole('button', { name: 'Say it again' }).evaluate((button) => {
      const text = document.createRange();
      text.selectNodeContents(button);
      return text.getClientRects().length;
    });
    expect(lines).toBe(1);
    const wider = 'document.documentElement.scrollWidth - window.innerWidth';
    expect(await page.evaluate(wider)).toBeLessThanOrEqual(0);
    expect(await violationsOn(page)).toEqual([]);
    await page.context().close();
  });

  it('left, falls silent', async () => {
    const page = await openWithVoice(await playerWithLines());
    await page.getByRole('button', { name: 'Begin', exact: true }).click();
    await at(page, 'caution');
    expect(await page.evaluate(() => navigator.mediaSession.metadata?.title)).toBe('By ear');
    await page.getByRole('button', { name: 'Stop' }).click();
    await page.getByRole('heading', { name: 'Today', exact: true }).waitFor();
    await page.waitForFunction('window.speaking === null');
    await page.waitForFunction(() => navigator.mediaSession.metadata === null);
    await page.context().close();
  });

  it('plays silence that Chromium decodes: ten seconds, every sample nought', async () => {
    const page = await openWithVoice(await playerWithLines());
    await page.evaluate(() => {
      const create = URL.createObjectURL;
      URL.createObjectURL = (blob: Blob) => {
        (window as unknown as { sound: Blob }).sound = blob;
        return create.call(URL, blob);
      };
    });
    await page.getByRole('button', { name: 'Begin', exact: true }).click();
    await at(page, 'caution');
    const heard = await page.evaluate(async () => {
      const { sound } = window as unknown as { sound: Blob };
      const context = new OfflineAudioContext(1, 8000, 8000);
      const decoded = await context.decodeAudioData(await sound.arrayBuffer());
      const loudest = decoded.getChannelData(0).reduce((most, x) => Math.max(most, Math.abs(x)), 0);
      return { seconds: decoded.duration, loudest };
    });
    expect(heard).toEqual({ seconds: 10, loudest: 0 });
    await page.context().close();
  });
});

describe('without a voice', () => {
  it('says so and what to do, and asks to be read', async () => {
    // Headless Chromium has speech and no voices.
    const player = await playerWithLines();
    const page = await app.open({ player, fragment: '#/ear', colorScheme: 'dark' });
    const errors = watchErrors(page);
    await page.getByText(/no English voice .* can be installed/).waitFor();
    expect(await violationsOn(page)).toEqual([]);
    await page.clock.install();
    await page.getByRole('button', { name: 'Begin without voice' }).click();
    await at(page, 'thinking');
    expect(await violationsOn(page)).toEqual([]);
    await page.emulateMedia({ reducedMotion: 'reduce' });
    await page.getByText('4 seconds to think').waitFor();
    expect(await page.locator('.ear-ring').isVisible()).toBe(false);
    await page.clock.fastForward(4000);
    await at(page, 'judging');
    expect(await page.locator('.ear-number').textContent()).toMatch(/^−?\d\.\d$/);
    await settleNumber(page);
    await page.getByRole('button', { name: 'Got it' }).click();
    await at(page, 'thinking');
    expect(await answers(page)).toMatchObject([{ judged: 'self', outcome: 'pocketed' }]);
    expect(errors).toEqual([]);
    await page.context().close();
  });

  it('a voice that fails midway says so, and the questions go on', async () => {
    const page = await openWithVoice(await playerWithLines());
    await page.getByRole('button', { name: 'Begin', exact: true }).click();
    await at(page, 'caution');
    await endSpeech(page);
    await at(page, 'asking');
    await page.evaluate('window.speaking.onerror({ error: "synthesis-failed" })');
    await page.getByText('The voice has failed.').waitFor();
    await at(page, 'thinking');
    expect(await violationsOn(page)).toEqual([]);
    await page.context().close();
  });
});

describe('with nothing met', () => {
  it('says so and leads to the quiz', async () => {
    const page = await app.open({ fragment: '#/ear' });
    await page.getByRole('heading', { name: 'No line met yet' }).waitFor();
    expect(await violationsOn(page)).toEqual([]);
    await page.getByRole('button', { name: 'Quiz' }).click();
    await page.locator('main.quiz').waitFor();
    await page.context().close();
  });
});

describe('the settings of practice by ear', () => {
  it('are kept, and the pause and the voice follow them', async () => {
    const page = await openWithVoice(await playerWithLines(), '#/settings');
    await page.getByLabel('Pause before the number').selectOption({ label: '2 seconds' });
    await page.getByLabel('Voice').selectOption({ label: 'slow' });
    expect(await violationsOn(page)).toEqual([]);
    await page.goto(`${app.url}#/ear`);
    await page.getByText(/2 seconds later/).waitFor();
    await page.getByRole('button', { name: 'Begin', exact: true }).click();
    await at(page, 'caution');
    expect(await page.evaluate('window.speaking.rate')).toBe(0.8);
    await endSpeech(page);
    await endSpeech(page);
    await at(page, 'thinking');
    const ring = page.locator('.ear-ring circle');
    expect(await ring.evaluate((circle) => getComputedStyle(circle).animationDuration)).toBe('2s');
    await page.context().close();
  });
});

/** A player who has looked at two lines, and has been asked neither. */
function playerWithLines(): Promise<Player> {
  return playerWho(async (model) => {
    await model.changeSettings({ newLinesADay: 2 });
    for (const card of firstNumbers(model, 2)) await meet(model, card);
  });
}

/** Opens the page with a voice that says nothing and ends when the test says so. */
async function openWithVoice(player: Player, fragment = '#/ear'): Promise<Page> {
  const page = await app.open({ player, fragment });
  await page.addInitScript(installVoice);
  await page.reload();
  return page;
}

function installVoice(): void {
  interface Utterance {
    readonly text: string;
    onend?: () => void;
    onerror?: (event: { readonly error: string }) => void;
  }
  const here = window as unknown as { said: string[]; speaking: Utterance | null };
  here.said = [];
  here.speaking = null;
  const synthesis = Object.assign(new EventTarget(), {
    getVoices: () => [{ name: 'Test', lang: 'en-GB', localService: true, default: true }],
    speak: (utterance: Utterance) => {
      here.said.push(utterance.text);
      here.speaking = utterance;
    },
    cancel: () => {
      const cut = here.speaking;
      here.speaking = null;
      // As browsers do: the error comes after the call.
      if (cut) setTimeout(() => cut.onerror?.({ error: 'interrupted' }));
    },
  });
  Object.defineProperty(window, 'speechSynthesis', { value: synthesis });
  Object.defineProperty(window, 'SpeechSynthesisUtterance', {
    value: class {
      constructor(readonly text: string) {}
    },
  });
}

async function endSpeech(page: Page): Promise<void> {
  await page.waitForFunction('window.speaking !== null');
  await page.evaluate(
    '(() => { const u = window.speaking; window.speaking = null; u.onend(); })()',
  );
}

function said(page: Page): Promise<string[]> {
  return page.evaluate('window.said');
}

async function at(page: Page, phase: string): Promise<void> {
  await page.locator(`main.ear[data-phase="${phase}"]`).waitFor();
}

/** A press just after the number is taken for the end of the one before; half a second later it is not. */
async function settleNumber(page: Page): Promise<void> {
  await page.evaluate(() => {
    const now = Date.now;
    Date.now = () => now() + 500;
  });
}

/** Digits read one by one, as the number is said: common practice, no source. */
function spelt(written: string): string {
  const names = ['zero', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine'];
  const [, minus, whole, part] = /^(−?)(\d)\.(\d)$/.exec(written) ?? [];
  const tenths = part === '0' ? [] : ['point', names[Number(part)]];
  const ones = whole === '0' && part !== '0' ? [] : [names[Number(whole)]];
  return [...(minus ? ['minus'] : []), ...ones, ...tenths].join(' ');
}

/**
 * The least contrast of any text on the screen to any ground that may lie under it: relative
 * luminance and ratio of WCAG 2.2, "contrast ratio" and "relative luminance".
 */
function dimmest(page: Page): Promise<number> {
  return page.evaluate(() => {
    const luminance = (color: string): number => {
      const parts = (color.match(/[\d.]+/g) ?? []).slice(0, 3).map((part) => Number(part) / 255);
      const [r = 0, g = 0, b = 0] = parts.map((c) =>
        c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4,
      );
      return 0.2126 * r + 0.7152 * g + 0.0722 * b;
    };
    const styles = (selector: string) =>
      [...document.querySelectorAll(selector)].map((element) => getComputedStyle(element));
    const texts = styles('.ear-words *, .ear-foot *, .ear-area span, .ear-bar *');
    const grounds = styles('.ear, .ear-area').map((style) => luminance(style.backgroundColor));
    const ratios = texts.flatMap(({ color }) =>
      grounds.map((ground) => {
        const [low, high] = [luminance(color), ground].sort((a, b) => a - b) as [number, number];
        return (high + 0.05) / (low + 0.05);
      }),
    );
    return Math.min(...ratios);
  });
}

/** The answers as they lie on the disk, in order. */
function answers(page: Page) {
  return readType(page, 'answered');
}
