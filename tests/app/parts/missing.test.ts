import { describe, expect, it } from 'vitest';
import { missingSentences } from '../../../src/app/parts/missing.ts';
import { type SheetLine, type SheetNumber, toDecimal } from '../../../src/charts/index.ts';
import { UNREACHABLE, type Unreachable } from '../../../src/table/index.ts';

const ASKED = 'The quiz asks lines that have a number at every speed.';
const number: SheetNumber = {
  exact: 1,
  printed: toDecimal(1),
  source: 'computed',
  model: null,
  makeWindow: null,
};

function line(
  start: number,
  soft: Unreachable | null,
  medium: Unreachable | null,
  firm: Unreachable | null,
): SheetLine {
  return {
    start: toDecimal(start),
    numbers: { soft: soft ?? number, medium: medium ?? number, firm: firm ?? number },
    atMedium: null,
    verdict: null,
    anchor: false,
  };
}

describe('the sentences for starts without a number', () => {
  it('are none if every start has its numbers', () => {
    expect(missingSentences([line(1, null, null, null)])).toEqual([]);
  });

  it('put starts with the same reason into one sentence', () => {
    const [reach] = UNREACHABLE;
    expect(missingSentences([line(1, reach, null, null), line(1.5, reach, null, null)])).toEqual([
      'No number at soft speed from 1.0, 1.5: the ball does not reach.',
      ASKED,
    ]);
  });

  it('say "any speed" for all three, and keep reasons apart', () => {
    const [reach, drops, none] = UNREACHABLE;
    expect(missingSentences([line(1, drops, drops, drops), line(2, reach, reach, none)])).toEqual([
      'No number at any speed from 1.0: the ball lands in the pocket first.',
      'No number at soft or medium speed from 2.0: the ball does not reach.',
      'No number at firm speed from 2.0: no aim on this rail sends the ball there.',
      ASKED,
    ]);
  });
});
