import { describe, expect, it } from 'vitest';
import { shortCorrection } from '../../../src/app/look-up/words.ts';
import {
  conditionWords,
  patternsWords,
  patternWords,
  sayWords,
} from '../../../src/app/table-day/fit-words.ts';
import {
  amountWords,
  correctionWords,
  doubtedWords,
  fractionWords,
  lostWords,
  missWords,
  toGoWords,
  tonightWords,
} from '../../../src/app/table-day/words.ts';
import {
  computeChart,
  HARBOUR_LANE,
  type PatternId,
  toDecimal,
} from '../../../src/charts/index.ts';
import { ACCOUNTS } from '../../../src/shots/account.ts';
import { NO_CONDITION } from '../../../src/shots/condition-fit.ts';
import { NO_CORRECTION } from '../../../src/shots/correction-choice.ts';
import type { Account, ConditionFit } from '../../../src/shots/index.ts';

const chart = computeChart(HARBOUR_LANE);
const offset = (group: 'all' | 'short-rail' | 'long-rail', add: number) =>
  ({ kind: 'offset', group, add: toDecimal(add) }) as const;

describe('the correction in words', () => {
  it.each([
    [offset('all', 0.1), 'add 0.1 to every number', 'tonight’s +0.1'],
    [offset('short-rail', -0.05), 'take 0.05 off every foot-rail number', 'tonight’s −0.05'],
    [offset('long-rail', 0.2), 'add 0.2 to every long-rail number', 'tonight’s +0.2'],
    [
      { kind: 'factor', times: toDecimal(1.05) } as const,
      'add 0.05 for each diamond of a number',
      'tonight’s × 1.05',
    ],
    [
      { kind: 'factor', times: toDecimal(0.9) } as const,
      'take 0.1 off for each diamond of a number',
      'tonight’s × 0.9',
    ],
  ])('%j', (correction, words, short) => {
    expect(correctionWords(correction)).toBe(words);
    expect(shortCorrection(correction)).toBe(short);
  });

  it('joins two groups', () => {
    const corrections = [offset('short-rail', 0.1), offset('long-rail', -0.05)];
    expect(tonightWords({ corrections, why: null, shots: [], amounts: [] })).toBe(
      'Say this in your head tonight: add 0.1 to every foot-rail number, and take 0.05 off every long-rail number.',
    );
  });

  it('has a sentence for every reason to say nothing', () => {
    const said = NO_CORRECTION.map((why) =>
      tonightWords({ corrections: [], why, shots: [], amounts: [] }),
    );
    expect(new Set(said).size).toBe(NO_CORRECTION.length);
    for (const one of said) expect(one).toMatch(/^[A-Z].*\.$/);
  });

  it.each([
    [{ of: 'all', value: -2.146 }, 'these shots ask for 2.15 off.'],
    [{ of: 'short-rail', value: 0.61 }, 'these shots ask for 0.6 more.'],
    [{ of: 'factor', value: 0.4 }, 'these shots ask for every number × 1.4.'],
  ] as const)('names what is too large to be a table: %j', (amount, words) => {
    const one = { ...amount, standardError: 0.1, interval: [-3, 3] } as const;
    expect(
      tonightWords({ corrections: [], why: 'too large', shots: [], amounts: [one] }),
    ).toContain(words);
  });

  it('says how certain it is, and nothing if that is unknown', () => {
    const amount = { of: 'all', value: 0.1, standardError: 0.03 } as const;
    expect(amountWords({ ...amount, interval: [0.045, 0.155] })).toBe(
      'Best guess +0.10 for every number; likely between +0.05 and +0.16.',
    );
    expect(amountWords({ ...amount, interval: [-Infinity, Infinity] })).toBe(null);
  });

  it('says how many more shots are needed', () => {
    expect(toGoWords(null)).toBe(null);
    expect(toGoWords(1)).toContain('About 1 further shot would');
    expect(toGoWords(7)).toContain('About 7 further shots would');
    expect(toGoWords(400)).toContain('More than 30');
    expect(toGoWords(0)).toContain('won’t help much');
  });
});

describe('an arrival in words', () => {
  it.each([
    [null, 'made'],
    [0, 'at the pocket, not made'],
    [-0.25, 'short ¼'],
    [0.75, 'long ¾'],
    [-1, 'short 1'],
    [2.5, 'long 2½'],
    [-0.4, 'short 0.4'],
  ])('%j is %s', (miss, words) => {
    expect(missWords(miss)).toBe(words);
  });

  it('writes quarters', () => {
    expect([0.25, 1.5, 3].map(fractionWords)).toEqual(['¼', '1½', '3']);
  });
});

describe('the table in words', () => {
  const own = chart.setting.condition;
  const fit: ConditionFit = {
    condition: { ...own, restitution: own.restitution - 0.1 },
    errors: { restitution: 0.01, noseFriction: 0.01, speed: 0.02 },
    numberError: 0.03,
    iterations: 9,
    scale: 1.2,
    shots: [],
    differs: true,
    covariance: [],
  };

  it('compares what differs by more than its error', () => {
    const words = conditionWords(chart, { ok: true, fit }, 'table');
    expect(words[0]).toBe('Cushions: deader (0.78 ± 0.02, the chart has 0.88).');
    expect(words[1]).toMatch(/^Rubber: much as on the chart/);
    expect(words[2]).toBe('Your speeds: much as on the chart (to within 3 %).');
    const { soft, medium, firm } = own.speeds;
    const slow = { ...own, speeds: { soft: soft * 0.9, medium: medium * 0.9, firm: firm * 0.9 } };
    expect(conditionWords(chart, { ok: true, fit: { ...fit, condition: slow } }, 'table')[2]).toBe(
      'Your speeds: 10 % slower than the chart’s, ± 3 %.',
    );
  });

  it('says if it is the chart’s own, or why there is no fit', () => {
    expect(conditionWords(chart, { ok: true, fit }, 'chart')).toHaveLength(1);
    for (const why of NO_CONDITION) {
      expect(conditionWords(chart, { ok: false, why }, 'unknown')[0]).toMatch(/^[A-Z].*[.]$/);
    }
  });

  const rubber = (noseFriction: number, error: number) =>
    conditionWords(
      chart,
      {
        ok: true,
        fit: {
          ...fit,
          condition: { ...own, noseFriction },
          errors: { ...fit.errors, noseFriction: error },
        },
      },
      'table',
    )[1];

  // The chart has 0.15. Nine times in ten is 1.645 standard errors.
  it.each([
    [0.146, 0.001, 'Rubber: grips less (0.146 ± 0.002, the chart has 0.150).'],
    [0.146, 0.0001, 'Rubber: grips less (0.146 to less than 0.001, the chart has 0.150).'],
    [0.18, 0.001, 'Rubber: grips more (0.18 to less than 0.01, the chart has 0.15).'],
    [0.146, 0.003, 'Rubber: much as on the chart (0.146 ± 0.005, the chart has 0.150).'],
    [0.1501, 0.00001, 'Rubber: much as on the chart (0.15 to less than 0.01, the chart has 0.15).'],
  ])('shows a difference of %d known to %d', (to, error, words) => {
    expect(rubber(to, error)).toBe(words);
  });

  it('uses the table if no correction fits, and the correction if no table does', () => {
    const tonight = {
      corrections: [],
      why: 'too small',
      amounts: [],
      scale: 1,
      shots: [],
      leftOut: [],
    } as const;
    const rest = { toGo: null, next: null, moved: [], patterns: [] } as const;
    const condition = { ok: true, fit } as const;
    const of = (account: Account) => sayWords(chart, { ...rest, tonight, condition, account });
    expect(of('table')).toBe(
      'No one correction will do: this table is deader. Take the numbers of the table below.',
    );
    expect(of('chart')).toBe(tonightWords(tonight));
    const table = (account: Account) => conditionWords(chart, condition, account).join(' ');
    expect(table('correction')).toMatch(/^The shots agree on one offset/);
    expect(table('both')).toContain('either will do');
    expect(new Set(ACCOUNTS.map(table)).size).toBe(ACCOUNTS.length - 1);
  });

  it('says how a pattern’s numbers move overall', () => {
    const by = (pattern: PatternId, amount: number) => ({ pattern, by: toDecimal(amount) });
    expect(patternWords(by('cross-corner', -0.1))).toBe('take 0.1 off Cross-corner');
    expect(patternsWords([by('cross-corner', -0.1), by('cross-side', 0.15)])).toBe(
      'On the whole: take 0.1 off Cross-corner; add 0.15 to Cross-side.',
    );
    expect(patternsWords([])).toBe(null);
  });
});

describe('a line that did not get there', () => {
  it('is named if it is the last, and not logged', () => {
    const line = { pattern: 'cross-side', start: 6, speed: 'soft' } as const;
    expect(lostWords([])).toBe(null);
    expect(lostWords([{ ...line, start: 5 }, line])).toBe(
      'Not logged, and not asked again tonight: Cross-side from 6.0, soft.',
    );
  });
});

describe('shots that count little', () => {
  it.each([
    [[], null],
    [[2], '1 shot is far from the others and counts little: number 2 in the plot.'],
    [
      [2, 4, 6, 8],
      '4 shots are far from the others and count little: numbers 2, 4, 6, 8 in the plot.',
    ],
  ])('%j', (numbers, words) => {
    expect(doubtedWords(numbers)).toBe(words);
  });
});
