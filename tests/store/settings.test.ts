import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { KINDS } from '../../src/cards/index.ts';
import { HARBOUR_LANE } from '../../src/charts/index.ts';
import { DEFAULT_SETTINGS, parseSettings } from '../../src/store/index.ts';
import { withChange } from '../../src/store/settings.ts';

/** Fields that settings have had from the first. */
const KEPT = {
  version: 1,
  dayBoundaryHour: 3,
  tolerance: 500,
  pictures: 'one',
  meetFirst: false,
  theme: 'dark',
  units: 'cm',
  naming: 'opposite',
} as const;

/** As stored before there were newer fields; written by hand. Two of its fields no longer exist. */
const FIRST = { ...KEPT, newLinesPerDay: 12, targetRecall: 0.85 };

describe('settings', () => {
  it('stored without newer fields keep their own, and get defaults for the rest', () => {
    expect(parseSettings(FIRST)).toEqual({
      ...KEPT,
      newLinesADay: null,
      kinds: KINDS,
      use: {},
      pauseSeconds: 4,
      minutes: 10,
      given: true,
      drillsCount: true,
      voiceRate: 1,
      chart: HARBOUR_LANE.id,
      author: '',
      byHeart: 'anchors',
      occasion: null,
    });
  });

  it('keep what the player chose', () => {
    const chosen = {
      ...DEFAULT_SETTINGS,
      kinds: ['number'],
      use: { 'cross-side': 'often', 'up-and-back': 'seldom' },
      pauseSeconds: 8,
      minutes: 20,
      newLinesADay: 4,
      given: false,
      drillsCount: false,
      voiceRate: 0.8,
      byHeart: 'every line',
      occasion: { name: 'Harbour Lane Open', day: 20_800, minutes: 12 },
    };
    expect(parseSettings(chosen)).toEqual(chosen);
  });

  it.each([
    ['kinds that are no list', { kinds: 'number' }, { kinds: KINDS }],
    ['a kind unknown here', { kinds: ['colour', 'number'] }, { kinds: ['number'] }],
    ['no kinds at all', { kinds: [] }, { kinds: ['number'] }],
    ['the number not asked', { kinds: ['window'] }, { kinds: ['number', 'window'] }],
    [
      'kinds in another order, and twice',
      { kinds: [...KINDS, ...KINDS].reverse() },
      { kinds: KINDS },
    ],
    ['a use that does not exist', { use: { a: 'often', b: 'daily' } }, { use: { a: 'often' } }],
    ['a use by a long name', { use: { ['n'.repeat(61)]: 'often' } }, { use: {} }],
    ['a use that is a list', { use: ['often'] }, { use: {} }],
    ['a pause of a minute', { pauseSeconds: 60 }, { pauseSeconds: 4 }],
    ['an hour a day', { minutes: 60 }, { minutes: 10 }],
    // Sessions without a time limit were a choice once.
    ['no number of minutes', { minutes: null }, { minutes: 10 }],
    ['seven new lines a day', { newLinesADay: 7 }, { newLinesADay: null }],
    ['drills that perhaps count', { drillsCount: 'perhaps' }, { drillsCount: true }],
    ['given perhaps', { given: 'perhaps' }, { given: true }],
    ['a hurried voice', { voiceRate: 3 }, { voiceRate: 1 }],
  ])('%s: only this field falls back', (_name, stored, expected) => {
    expect(parseSettings({ ...FIRST, ...stored })).toEqual({
      ...parseSettings(FIRST),
      ...expected,
    });
  });

  it.each([
    ['no new lines, as stored under the old name', { newLinesPerDay: 0 }, 0],
    ['a number under the old name, which everyone had', { newLinesPerDay: 6 }, null],
    ['no new lines under the old name, changed since', { newLinesPerDay: 0, newLinesADay: 8 }, 8],
    ['the same, and no limit since', { newLinesPerDay: 0, newLinesADay: null }, null],
    ['no new lines', { newLinesADay: 0 }, 0],
  ])('take over %s', (_name, stored, newLinesADay) => {
    expect(parseSettings({ ...KEPT, ...stored })).toEqual({
      ...parseSettings(KEPT),
      newLinesADay,
    });
  });

  it('lose the old name once they are changed', () => {
    const changed = withChange({ ...KEPT, newLinesPerDay: 0 }, { theme: 'light' });
    expect(changed).toEqual({ ...parseSettings(KEPT), newLinesADay: 0, theme: 'light' });
    expect(withChange(changed, { newLinesADay: null }).newLinesADay).toBeNull();
  });

  it('have at most fifty uses, and names of sixty characters', () => {
    const uses = (many: number) =>
      Object.fromEntries(
        Array.from({ length: many }, (_, n) => [`${n}`.padEnd(60, 'x'), 'often'] as const),
      );
    expect(parseSettings({ ...FIRST, use: uses(50) }).use).toEqual(uses(50));
    expect(Object.keys(parseSettings({ ...FIRST, use: uses(51) }).use)).toHaveLength(50);
  });

  it('reach no prototype', () => {
    const { use } = parseSettings(
      JSON.parse('{"version":1,"use":{"__proto__":"often","cross-side":"often"}}'),
    );
    expect(Object.keys(use)).toEqual(['cross-side']);
    expect(Object.getPrototypeOf(use)).toBe(Object.prototype);
  });

  it('are valid, whatever was stored, and read the same again', () => {
    const fields = Object.keys(DEFAULT_SETTINGS).filter((field) => field !== 'version');
    const storedArb = fc.dictionary(fc.constantFrom(...fields), fc.anything());
    fc.assert(
      fc.property(storedArb, (stored) => {
        const settings = parseSettings({ ...stored, version: 1 });
        expect(Object.keys(settings).sort()).toEqual(Object.keys(DEFAULT_SETTINGS).sort());
        expect(settings.kinds).toContain('number');
        expect(parseSettings(settings)).toEqual(settings);
      }),
    );
  });
});
