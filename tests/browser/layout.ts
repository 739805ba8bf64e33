import type { Page } from 'playwright-core';
import { expect } from 'vitest';

/** The page is no wider than the screen: nothing is cut off, nothing scrolls sideways. */
export async function expectNothingBeyond(page: Page): Promise<void> {
  const beyond = await page.evaluate(
    () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
  );
  expect(beyond).toBeLessThanOrEqual(0);
}
