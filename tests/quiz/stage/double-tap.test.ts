import { describe, expect, it } from 'vitest';
import { isSecondTap } from '../../../src/quiz/stage/double-tap.ts';

const press = (detail: number, pointerType?: string) =>
  ({ detail, ...(pointerType ? { pointerType } : {}) }) as unknown as MouseEvent;

describe('a press on something that has just appeared', () => {
  // Found by testers: a double tap answered two questions, or skipped the answer.
  it.each([
    ['a second click of the mouse', press(2, 'mouse'), 100, true],
    ['a tap', press(1, 'touch'), 100, true],
    ['a click, as of a test or a switch', press(1, 'mouse'), 100, false],
    ['a key', press(0), 100, false],
    ['a tap, once it could be read', press(1, 'touch'), 400, false],
    ['a second click, once it could be read', press(2, 'mouse'), 400, false],
  ])('counts %s as a second tap or not', (_what, event, since, second) => {
    expect(isSecondTap(event, since)).toBe(second);
  });
});
