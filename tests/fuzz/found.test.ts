/** What the fuzzer has found, one row each, reduced to the smallest input. */

import 'fake-indexeddb/auto';
import { beforeEach, describe, expect, it } from 'vitest';
import { run } from '../../bin/run.ts';
import type { Question } from '../../src/cards/index.ts';
import { HARBOUR_LANE, parseCsv } from '../../src/charts/index.ts';
import { emptyEntry, numberIn } from '../../src/quiz/stage/entry.ts';
import {
  canContinue,
  foldLog,
  type LogEvent,
  parseEvent,
  sealable,
} from '../../src/scheduler/index.ts';
import {
  createStore,
  DEFAULT_SETTINGS,
  formatBackup,
  parseBackup,
  parseSettings,
  type Store,
} from '../../src/store/index.ts';
import { answer, base, said } from '../scheduler/making.ts';
import { rawAll, rawPut } from '../store/raw.ts';

let count = 0;
let name = '';
/** Makes every device id unique, as a browser does. */
let names = 0;
let store: Store;
beforeEach(async () => {
  name = `found-${++count}`;
  store = createStore({ name, newDeviceId: () => `new${count}x${names++}` });
  await store.firstCharts([HARBOUR_LANE]);
});

const MET = { type: 'met', line: 'p', day: 100, at: 8_640_000_000 } as const;

function backupWith(unread: readonly unknown[], events: readonly LogEvent[] = []): string {
  const text = formatBackup(
    { events, charts: [], settings: DEFAULT_SETTINGS, unread: [] },
    '2026-11-30T10:00:00.000Z',
  );
  return text.replace('"unread":[]', `"unread":[${unread.join()}]`);
}

const disk = () =>
  Promise.all(['events', 'sealed', 'documents'].map((objects) => rawAll(name, objects)));

describe('a backup', () => {
  it.each([
    ['names an unreadable record twice', ['{"key":"z:1"}', '{"key":"z:1"}']],
    [
      'nests a record deeper than a browser copies',
      [`{"key":"z:1","record":${'['.repeat(20_000)}${']'.repeat(20_000)}}`],
    ],
  ])('that %s is refused and changes nothing', async (_, unread) => {
    await store.append(MET);
    const before = await disk();
    const imported = await store.importBackup(backupWith(unread));
    expect(imported).toMatchObject({ ok: false, code: 'damaged' });
    expect(await disk()).toEqual(before);
  });

  it('keeps only the key and the record of an unreadable record', () => {
    const parsed = parseBackup(backupWith(['{"key":"z:1","record":1,"prototype":2}']));
    expect(parsed).toMatchObject({ ok: true, backup: { unread: [{ key: 'z:1', record: 1 }] } });
    expect(parsed.ok && Object.keys(parsed.backup.unread[0] ?? {})).toEqual(['key', 'record']);
  });

  it('with an unreadable record of this device does not block later answers', async () => {
    const { device } = await store.append(MET);
    const unread = [`{"key":"${device}:1","record":{"version":9}}`];
    expect(await store.importBackup(backupWith(unread))).toMatchObject({ ok: true });
    expect((await store.append(MET)).id).toBe(`${device}:2`);
  });

  it('with the last number this device can give does not block later answers', async () => {
    const { device } = await store.append(MET);
    const last = { ...answer(999_999_999_999_999, 'p/1', 100, device) };
    expect(await store.importBackup(backupWith([], [last]))).toMatchObject({ ok: true, added: 1 });
    const next = await store.append(MET);
    expect(parseEvent(next)).toMatchObject({ ok: true });
  });
});

describe('a damaged device record', () => {
  it.each([
    [{ id: 'UPPER case', next: 3 }],
    [{ id: 'k3', next: -1 }],
    [{ id: 'k3', next: 0.5 }],
    [{ id: '', next: 0 }],
  ])('%j gets a new id', async (device) => {
    await rawPut(name, 'documents', device, 'device');
    expect((await store.append(MET)).id).toMatch(/^new\d+x\d+:0$/);
  });
});

describe('a record on the disk that JSON cannot hold', () => {
  const round: { self?: unknown } = {};
  round.self = round;
  it.each([
    ['a BigInt', { version: 9, size: 10n }],
    ['a circle', round],
  ])('%s does not prevent a backup that can be restored', async (_, record) => {
    await rawPut(name, 'events', record, 'z:1');
    await rawPut(name, 'events', { version: 9 }, 'z:2');
    await store.append(MET);
    const text = await (await store.exportBackup('2026-11-30T10:00:00.000Z')).text();
    expect(JSON.parse(text).unread).toEqual([{ key: 'z:2', record: { version: 9 } }]);
    expect(await store.importBackup(text)).toMatchObject({ ok: true, added: 0 });
  });
});

describe('a damaged snapshot', () => {
  const events = [
    said(base(0, 100), 'met', { line: 'p' }),
    answer(1, 'p/1', 100),
    said(base(2, 101), 'noted', { line: 'p', text: 'x' }),
  ];
  const snapshot = sealable(foldLog(events), 110, 1)?.snapshot;
  if (!snapshot) throw new Error('nothing was sealed');

  it('can be continued only while it is whole', () => {
    expect(canContinue(structuredClone(snapshot), [])).toBe(true);
  });

  it.each([
    ['weights', null],
    ['weights', snapshot.weights.slice(1)],
    ['ownWeights', 'none'],
    ['takenBack', new Set([1])],
    ['devices', new Map([['a', 'b']])],
    ['shownAgain', [null]],
    ['before', Number.NaN],
    ['fold', { ...snapshot.fold, times: {} }],
    ['fold', { ...snapshot.fold, shots: null }],
    ['fold', { ...snapshot.fold, memories: new Map([['p/1', null]]) }],
    ['fold', { ...snapshot.fold, moved: new Map([['p/1', {}]]) }],
  ])('in its %s is discarded', (part, value) => {
    expect(canContinue({ ...structuredClone(snapshot), [part]: value }, [])).toBe(false);
  });
});

describe('typed text', () => {
  it('does not accept Infinity as a number on a rail', () => {
    const question = { kind: 'number', pattern: 'cross-side' } as unknown as Question;
    const entry = { ...emptyEntry(question), texts: ['Infinity'] };
    expect(numberIn(question, entry, 0)).toBeNull();
  });

  it('quotes a cell with line breaks or a direction override on one line', () => {
    const parsed = parseCsv('pattern,start\n"a\n\u202eb",1\n');
    expect(parsed).toEqual({
      ok: false,
      say: 'Row 2, column pattern: there is no pattern “a b”.',
    });
  });

  it('quotes an option of any length and any characters on one short line', () => {
    const { stderr } = run([`--\u001b[2J${'x'.repeat(5000)}`], () => ({ ok: true, value: '' }));
    expect(stderr).toMatch(/^There is no option "\S{1,60}"; there are /);
    expect(stderr).not.toContain('\u001b');
  });
});

describe('settings', () => {
  it.each(['__proto__', 'constructor', 'prototype', 'toString'])(
    'ignore a pattern named %s',
    (pattern) => {
      const data = JSON.parse(`{"version":1,"use":{"${pattern}":"often","cross-side":"seldom"}}`);
      expect(parseSettings(data).use).toEqual({ 'cross-side': 'seldom' });
    },
  );
});
