import { describe, expect, it } from 'vitest';
import {
  backupWords,
  isEmptied,
  isLow,
  isTimeToOffer,
  LOW_BYTES,
  type Mark,
  markOf,
  NO_MARK,
  parseMark,
  sizeWords,
} from '../../../../src/app/settings/keeping/keeping.ts';

const DAY = 86_400_000;
const EMPTY = { devices: new Map(), steps: 0 };
const log = (steps: number, ...devices: string[]) => ({
  steps,
  devices: new Map(devices.map((device) => [device, steps])),
});

describe('the mark outside the database', () => {
  it('reads back as written', () => {
    const mark: Mark = {
      devices: ['a', 'b'],
      steps: 12,
      backup: { at: 1, steps: 3 },
      offered: true,
    };
    expect(parseMark(JSON.stringify(mark))).toEqual(mark);
    expect(parseMark(JSON.stringify(NO_MARK))).toEqual(NO_MARK);
  });

  it.each([
    null,
    '',
    '{',
    'null',
    '7',
    '[]',
    '{"devices":7,"steps":1}',
    '{"devices":[1],"steps":1}',
    '{"devices":[],"steps":-1}',
    '{"devices":[],"steps":"1"}',
  ])('%j is none', (text) => {
    expect(parseMark(text)).toEqual(NO_MARK);
  });

  it('has no backup if the backup cannot be read', () => {
    const text = '{"devices":["a"],"steps":1,"backup":{"at":"soon"},"offered":1}';
    expect(parseMark(text)).toEqual({ devices: ['a'], steps: 1, backup: null, offered: false });
  });
});

describe('an emptied database', () => {
  const mark = markOf(NO_MARK, log(40, 'a'));

  it('is one that has lost everything that was here', () => {
    expect(isEmptied(mark, EMPTY)).toBe(true);
    expect(isEmptied(mark, log(41, 'a'))).toBe(false);
  });

  it('differs from a new device, which never had an answer', () => {
    expect(isEmptied(NO_MARK, EMPTY)).toBe(false);
    expect(isEmptied(markOf(NO_MARK, EMPTY), EMPTY)).toBe(false);
  });

  it('stays marked until a backup brings the old answers back', () => {
    const since = log(3, 'new');
    expect(markOf(mark, since)).toEqual(mark);
    expect(isEmptied(markOf(mark, since), since)).toBe(true);
    const restored = log(43, 'a', 'new');
    expect(isEmptied(mark, restored)).toBe(false);
    expect(markOf(mark, restored)).toMatchObject({ devices: ['a', 'new'], steps: 43 });
  });
});

describe('room', () => {
  it('is low if less is left than two years of answers need', () => {
    const given = 100 * LOW_BYTES;
    expect(isLow({ used: given - LOW_BYTES, given })).toBe(false);
    expect(isLow({ used: given - LOW_BYTES + 1, given })).toBe(true);
    // The disk may be fuller than the browser's limit.
    expect(isLow({ used: 2 * given, given })).toBe(true);
  });

  it.each([
    [0, '0 kB'],
    [640_000, '640 kB'],
    [3_240_000, '3.2 MB'],
    [9_960_000, '10 MB'],
    [12_000_000_000, '12 GB'],
  ])('%d bytes are %s', (bytes, words) => {
    expect(sizeWords(bytes)).toBe(words);
  });
});

describe('the last backup', () => {
  const at = 1000 * DAY;
  const mark: Mark = { ...NO_MARK, backup: { at, steps: 10 } };

  it.each([
    [at, 10, 'The last backup was saved less than a day ago.'],
    [at + DAY, 11, 'The last backup was saved a day ago; 1 answer since.'],
    [at + 12 * DAY, 340, 'The last backup was saved 12 days ago; 330 answers since.'],
    // The clock was set back, and another backup was restored into the log.
    [at - DAY, 9, 'The last backup was saved less than a day ago.'],
  ])('at %d with %d steps', (now, steps, words) => {
    expect(backupWords(mark, steps, now)).toBe(words);
  });

  it('differs from none', () => {
    expect(backupWords(NO_MARK, 5, at)).toBe('No backup was saved on this device yet.');
  });
});

describe('asking the browser to keep the data', () => {
  it.each([
    [false, false, 9, false],
    [false, false, 10, true],
    [false, true, 10, false],
    [true, false, 10, false],
    [null, false, 10, false],
  ])('promised %j, offered %j, %d steps: offer %j', (persisted, offered, steps, offer) => {
    expect(isTimeToOffer({ ...NO_MARK, offered }, persisted, steps)).toBe(offer);
  });
});
