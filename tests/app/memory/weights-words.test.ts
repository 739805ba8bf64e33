import { describe, expect, it } from 'vitest';
import { biasFacts, biasHead, biasRemedy } from '../../../src/app/memory/bias-words.ts';
import { calibrationWords, fitWords } from '../../../src/app/memory/weights-words.ts';
import {
  type Calibration,
  type PatternBias,
  sumCalibration,
} from '../../../src/scheduler/index.ts';

function scored(logLoss: number): Calibration {
  return { ...sumCalibration().total(), answers: 312, predicted: 0.874, right: 0.836, logLoss };
}

const tried = {
  weights: [],
  before: scored(0.4123),
  after: scored(0.3881),
  answers: 312,
  fittedTo: 1036,
} as const;

describe('words for personal weights', () => {
  it('say on how many unseen answers they are better, and by how much', () => {
    expect(fitWords({ verdict: 'better', ...tried })).toBe(
      'Fitted to 1,036 answers. Better on 312 later ones it had not seen: 0.412 → 0.388.',
    );
  });

  it('say that nothing changes if they are not', () => {
    const words = fitWords({ verdict: 'no better', ...tried, after: scored(0.411) });
    expect(words).toContain('Not better beyond chance on 312 later ones');
    expect(words).toContain('0.412 → 0.411');
    expect(words).toContain('What you use stays.');
  });

  it.each([
    [0, '0 answers so far'],
    [1, '1 answer so far'],
    [212, '212 answers so far'],
  ])('say of %d answers that they are too few, and how many more it takes', (answers, words) => {
    const said = fitWords({ verdict: 'too little', answers, needed: 400 - answers });
    expect(said).toContain(words);
    expect(said).toContain(`About ${400 - answers} more are needed.`);
  });

  it('say what was forecast and what happened', () => {
    expect(calibrationWords(scored(0.4))).toBe('said 0.87, was 0.84');
    expect(calibrationWords(sumCalibration().total())).toBe('nothing was forecast');
  });
});

describe('words for a bias', () => {
  const bias: PatternBias = {
    of: 'pattern',
    pattern: 'cross-side',
    lines: 8,
    side: 'high',
    size: 0.15,
    answers: 40,
    leaning: 31,
    days: 12,
    p: 0.001,
  };

  it('say which side, by how much, and from what evidence', () => {
    expect(biasHead(bias)).toMatch(/^You call .+ 0\.15 high\.$/);
    expect(biasFacts(bias)).toBe('31 of the last 40 answers to 8 lines were too high, on 12 days.');
  });

  it('give the remedy for the side', () => {
    expect(biasRemedy([{ side: 'high' }])).toContain('a little less is');
    expect(biasRemedy([{ side: 'low' }])).toContain('a little more is');
    expect(biasRemedy([{ side: 'low' }, { side: 'high' }])).toContain(
      'less where you call high, more where you call low',
    );
  });
});
