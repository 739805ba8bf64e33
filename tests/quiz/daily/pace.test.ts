import { describe, expect, it } from 'vitest';
import { fewestMinutesFor, questionsIn } from '../../../src/quiz/index.ts';
import { foldLog } from '../../../src/scheduler/index.ts';

const log = foldLog([]);

describe('the minutes that questions need', () => {
  it('hold all of them; a minute less does not', () => {
    for (let questions = 1; questions <= 200; questions++) {
      const minutes = fewestMinutesFor(questions, log);
      expect(questionsIn(minutes, log)).toBeGreaterThanOrEqual(questions);
      if (minutes > 1) expect(questionsIn(minutes - 1, log)).toBeLessThan(questions);
    }
  });

  /** A new player's question takes 16 s: 3 minutes hold 11, so 12 need a fourth minute. */
  it('are more than 3 if 3 are not enough', () => {
    expect(questionsIn(3, log)).toBe(11);
    expect(fewestMinutesFor(12, log)).toBe(4);
  });
});
